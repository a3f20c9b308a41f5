import { propertyById } from '../blend/properties/index.js';
import { chancePercent } from './chance-words.js';
import { printProperty, printWindow, significantShown, type Wording } from './print.js';
import type { ProposalResult } from './result-schema.js';

/** How sure a blend is, in words; the same in print and on the page. */
export interface SurenessWords {
  readonly title: string;
  readonly outcome: string;
  /** The limits the blend was held to in place of the brief's, a line each. */
  readonly held: readonly string[];
  /** What being sure costs; null where nothing that shows. */
  readonly cost: string | null;
}

const percent = (chance: number): string => `${Math.round(100 * chance)} %`;

/** What comes short of a chance is not told as that chance. */
const short = (chance: number, wanted: number): string =>
  chancePercent(chance) === chancePercent(wanted) ? `just under ${percent(wanted)}` : chancePercent(chance);

/** Null where no chance was asked for. */
export function surenessWords(
  { sureness, objective }: Pick<ProposalResult, 'sureness' | 'objective'>,
  wording: Wording,
): SurenessWords | null {
  if (sureness === undefined) return null;
  const { wanted, reached, chance, held, unsure, sure } = sureness;
  const title = `all targets at once, ${percent(wanted)} sure`;
  if (chance === null)
    return {
      title,
      outcome: 'The brief sets no targets, so there is nothing to be sure of.',
      held: [],
      cost: null,
    };
  const { property, aim } = objective;
  const [now, before] = [printProperty(property, sure, wording), printProperty(property, unsure, wording)];
  return {
    title,
    outcome: reached
      ? `It is: all targets hold together in ${chancePercent(chance)} of 2,000 draws that the search did not see.`
      : `No blend found is so sure. The surest holds all targets together in ${short(chance, wanted)} of 2,000 draws.`,
    held: held.map((h) => {
      const window = (limit: number): string =>
        printWindow(h.property, h.side === 'min' ? limit : null, h.side === 'max' ? limit : null, wording);
      return `held to ${h.name} ${window(significantShown(h.to, 3, propertyById(h.property)!.quantity, wording.system))}, where the brief says ${window(h.limit)}`;
    }),
    cost:
      unsure === null || sure === null || now === before
        ? null
        : `${aim}: ${propertyById(property)!.name} ${now}, where the blend that only just meets the brief has ${before}`,
  };
}
