import { propertyById } from '../blend/properties/index.js';
import { BINDER_SYSTEMS } from '../optimise/systems.js';
import { printQuantity } from '../units/print.js';
import { convert } from '../units/quantity.js';
import { gainWords, stepOf, stepWords } from './gain-words.js';
import { printPriceByMass, printWindow, type Wording } from './print.js';
import type { ReasonsResult } from './reasons-schema.js';
import type { ProposalResult } from './result-schema.js';

/** What holds a blend back, in words; the same in print and on the page. */
export interface ReasonsWords {
  /** What holds it back, how it stands, and what giving way would gain. */
  readonly held: readonly (readonly [string, string, string])[];
  /** Said where nothing does. */
  readonly free: string | null;
  /** Materials it does without, their price now, and the price below which they come in; the nearest to it first. */
  readonly entries: readonly (readonly [string, string, string])[];
  readonly noEntries: string | null;
}

export const NO_REASONS = 'No blend meets the brief: first see what collides, above.';

export function reasonsWords(
  { aim, property, exact }: ProposalResult['objective'],
  reasons: ReasonsResult,
  wording: Wording,
): ReasonsWords {
  const { system } = wording;
  const gain = (amount: number): string => gainWords(aim, property, amount, exact, wording);
  const limits = reasons.heldBack.map((h) => {
    const step = stepOf(propertyById(h.property)!.quantity, h.limit, system);
    const [min, max] = h.side === 'min' ? [h.limit, null] : [null, h.limit];
    const about = h.agrees ? '' : 'about ';
    return [
      `${h.name}${h.kind === 'standing' ? ' (kept by every blend)' : ''}`,
      printWindow(h.property, min, max, wording),
      `${stepWords(h.property, step, wording)} ${h.side === 'max' ? 'more' : 'less'}: ${about}${gain((h.settledGain ?? h.gain) * step)}`,
    ] as const;
  });
  const doses = reasons.doses.map(
    (d) =>
      [
        d.name,
        `${d.kind === 'asked' ? 'as asked' : 'at most'} ${d.percent} % of ${d.of}`,
        `1 % ${d.better}: ${gain(d.gain)}`,
      ] as const,
  );
  // g more on hand whose worth is told.
  const more = system === 'us' ? convert(1, 'oz', 'g') : 10;
  const stock = reasons.stock.map((s) => {
    const words = `${printQuantity(more, 'mass', { system })} more a piece: ${gain(more * s.gain)}`;
    return [s.name, 'all on hand is used', words] as const;
  });
  const held = [...limits, ...doses, ...stock];
  const free = held.length > 0 ? null : 'No limit of the brief: this is as good as the shelf gives.';
  const priced = property === 'cost' || reasons.heldBack.some((h) => h.property === 'cost');
  return { held, free, ...entryWords(reasons.entries, priced, wording) };
}

/** `priced`: whether cost is the objective, or holds it back. */
function entryWords(
  entries: ReasonsResult['entries'],
  priced: boolean,
  wording: Wording,
): Pick<ReasonsWords, 'entries' | 'noEntries'> {
  const nearness = (e: ReasonsResult['entries'][number]): number => (e.price === null ? 0 : e.entersAt! / e.price);
  const sound = entries
    .filter((e) => e.entersAt !== null && e.checked === true)
    .sort((a, b) => nearness(b) - nearness(a));
  if (sound.length === 0) {
    const noEntries = entries.some((e) => e.entersAt !== null)
      ? 'No price alone would bring another material in.'
      : priced
        ? 'Nothing else that may be used here would come in at any price.'
        : 'Prices play no part: cost neither is the objective nor holds it back.';
    return { entries: [], noEntries };
  }
  const price = (perGram: number): string => printPriceByMass(perGram, wording);
  return {
    entries: sound.map((e) => {
      const now = e.price === null ? 'price not known' : price(e.price);
      const system = BINDER_SYSTEMS.find(({ id }) => id === e.system);
      const other = system === undefined ? '' : ` (the binder then: ${system.name})`;
      return [e.name, now, `comes in below ${price(e.entersAt!)}${other}`] as const;
    }),
    noEntries: null,
  };
}
