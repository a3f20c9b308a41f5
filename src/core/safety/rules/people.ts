import type { BlendFacts, Person } from '../facts.js';
import type { Rule, Warning } from '../rule.js';

const named = (facts: BlendFacts, person: Person): Warning | null =>
  facts.who.includes(person) ? { severity: 'warn', because: `named: ${person}` } : null;

/** What to do for those who are more at risk; their presence also raises other cautions one step. */
export const PEOPLE_RULES: readonly Rule[] = [
  {
    id: 'child-in-the-room',
    title: 'A child will be present',
    text:
      'Keep children out of the room while there is powder, wet mix or a fresh cast in it, and until all is wiped up. ' +
      'They touch, rub eyes and reach into buckets before anyone can stop them. If that cannot be, do not mix now.',
    short: 'Child present: out of the room until all is wiped up, or do not mix now.',
    defer: 'health',
    from: ['common-practice'],
    when: ({ facts }) => named(facts, 'child-present'),
  },
  {
    id: 'pregnancy',
    title: 'Someone is pregnant',
    text:
      'Let someone else weigh, mix and sand, and stay out of the dust. Ask a doctor or midwife, with the data sheets in ' +
      'hand, before any contact.',
    short: 'Pregnant: let someone else weigh, mix and sand; ask a doctor or midwife first.',
    defer: 'health',
    from: ['common-practice'],
    when: ({ facts }) => named(facts, 'pregnant'),
  },
  {
    id: 'asthma',
    title: 'Someone has asthma',
    text:
      'Let someone else weigh, mix and sand, come back when the dust has settled and been wiped up, and keep the ' +
      'inhaler at hand. Ask a doctor before wearing a tight respirator.',
    short: 'Asthma: let someone else weigh, mix and sand; inhaler at hand; ask a doctor about respirators.',
    defer: 'health',
    from: ['common-practice'],
    when: ({ facts }) => named(facts, 'asthma'),
  },
];
