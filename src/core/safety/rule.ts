import { inBoth } from '../units/marked.js';
import { type Caution, type CautionSeverity, graver, type Region } from './caution.js';
import { cite } from './cite.js';
import type { DocumentKey } from './documents.js';
import type { BlendFacts, Person } from './facts.js';
import { DEFERRALS, type Deferral, PERSON_WORDS } from './words.js';

/** What a rule is asked about. */
export interface Case {
  readonly facts: BlendFacts;
  readonly region: Region;
}

/** A rule's answer when it applies. */
export interface Trigger<Severity extends CautionSeverity = CautionSeverity> {
  readonly severity: Severity;
  /** Facts with figures, one line. */
  readonly because: string;
  /** Sentences added to the text for this case. */
  readonly more?: readonly string[];
}

/** The answer of a rule that never says stop. */
export type Warning = Trigger<Exclude<CautionSeverity, 'stop'>>;

/** In metric, quantities that follow the reader's units in marks (problems/marks.ts). */
export type Words = string | ((c: Case) => string);

/**
 * One caution as a row: when it is raised, what it says, what it rests on.
 *
 * A rule about a material is raised by any amount of it. Limits only decide how grave it is, so that adding another
 * material, which dilutes all others, can never take a caution away.
 */
interface Said {
  readonly id: string;
  readonly title: string;
  readonly text: Words;
  /** At most 100 characters. */
  readonly short: Words;
  /** Who comes before it: its text ends with that. */
  readonly defer: Deferral;
  readonly from: readonly DocumentKey[];
  /** People whose presence raises it one step. */
  readonly raisedFor?: readonly Person[];
  /** Its words, limits or documents differ between regions. */
  readonly regional?: boolean;
}

/** A rule that may say stop is marked: proposals ask those of every material of a shelf. */
export type Rule = Said &
  (
    | { readonly stops: true; readonly when: (c: Case) => Trigger | null }
    | { readonly stops?: never; readonly when: (c: Case) => Warning | null }
  );

const say = (words: Words, c: Case): string => (typeof words === 'string' ? words : words(c));

/** Applies one rule to one case. */
export function raise(rule: Rule, c: Case): Caution | null {
  const trigger = rule.when(c);
  if (trigger === null) return null;
  const people = [...new Set(c.facts.who)].filter((person) => rule.raisedFor?.includes(person));
  const raised = people.length > 0 && trigger.severity !== 'stop';
  return inBoth(
    {
      id: rule.id,
      severity: raised ? graver(trigger.severity) : trigger.severity,
      ...cite(rule.from, c.region),
      ...(rule.regional ? { region: c.region } : {}),
    },
    {
      title: rule.title,
      text: [say(rule.text, c), ...(trigger.more ?? []), DEFERRALS[rule.defer]].join(' '),
      short: say(rule.short, c),
      because: [
        trigger.because,
        ...(raised ? people.map((person) => `raised one step: ${PERSON_WORDS[person]}`) : []),
      ].join('; '),
    },
  );
}
