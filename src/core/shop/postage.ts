import type { PostageStep } from '../brief/costs.js';

/** Where a parcel falls in the maker's postage table. */
export interface Posted {
  /** g of the dry piece and its packing. */
  readonly weight: number;
  /** The step it goes by; null: heavier than the table goes. */
  readonly step: PostageStep | null;
  /** Heavier step the piece may still fall into, by the likely range of its weight; `beyond`: past the table's end. */
  readonly heavier: PostageStep | 'beyond' | null;
  /** The next cheaper step below, and how many grams lighter the piece would have to be for it; null: none. */
  readonly lighter: { readonly step: PostageStep; readonly grams: number } | null;
}

/** Likely dry weight of one piece, g: central, 5th and 95th percentile. */
export interface WeightRange {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A parcel of just the step's weight still goes by it. */
const stepOf = (weight: number, steps: readonly PostageStep[]): PostageStep | null =>
  steps.find((step) => weight <= step.upTo) ?? null;

/** Postage of one piece. steps: lightest first, not empty; packing: g of box and padding. */
export function postedBy(piece: WeightRange, packing: number, steps: readonly PostageStep[]): Posted {
  const weight = piece.value + packing;
  const step = stepOf(weight, steps);
  const heaviest = stepOf(piece.high + packing, steps);
  const below = steps.filter((s) => s.upTo < weight && (step === null || Number(s.price) < Number(step.price)));
  const next = below.at(-1);
  return {
    weight,
    step,
    heavier: step === null || heaviest === step ? null : (heaviest ?? 'beyond'),
    lighter: next === undefined ? null : { step: next, grams: weight - next.upTo },
  };
}
