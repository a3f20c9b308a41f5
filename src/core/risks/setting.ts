import { isOverAYear, printForetold } from '../units/foretold.js';
import { overRetarded } from './chemistry.js';
import type { RiskCase, Screen } from './risk.js';

/** Days in the mould that no maker waits. Ours: the slowest binder of the table, air lime, leaves it within weeks. */
const NEVER_DAYS = 90;
const DAY = 60 * 24;

/** What the table says holds the set back in the binders of this blend. */
function retarders({ parts, state }: RiskCase): string[] {
  const { families } = state.amounts;
  return parts
    .filter(({ material }) =>
      material.effects?.some((e) => e.on === 'set' && e.per.value > 0 && (e.in === undefined || families[e.in] > 0)),
    )
    .map(({ material }) => material.name);
}

/** A blend that never sets, or not in any useful time. */
export const neverSetting: Screen = (mix) => {
  const demould = mix.value('demould-time');
  if (demould === null || demould <= NEVER_DAYS * DAY) return null;
  // Citric acid beyond what plaster bears has said so already, as a refusal.
  if (overRetarded(mix)?.level === 'high') return null;
  const after = printForetold(Number(demould.toPrecision(2)), 'setTime');
  const slow = retarders(mix);
  const cause = slow.length === 0 ? '' : ` What holds it back: ${slow.join(', ')}.`;
  const never = isOverAYear(demould, 'setTime');
  return {
    id: never ? 'never-sets' : 'sets-too-late',
    level: 'high',
    text: `It will not set${never ? '' : ' in any useful time'}: by these doses and in this room the time to demoulding is ${after}.${cause}`,
    models: ['set-mixing', 'set-dose', 'set-temperature'],
    source: 'the set times and doses of the table; the limits of 90 days and a year are ours',
  };
};
