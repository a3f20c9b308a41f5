import { stepFor } from '../optimise/knobs.js';
import type { Batch } from '../optimise/question.js';
import type { Amount } from '../units/quantity.js';

/** The scale's steps. */
export type Scale = Pick<Batch, 'step' | 'fine'>;

/** Clears the dust that steps such as 0.1 leave. */
const clean = (grams: number): number => Number(grams.toFixed(6));

/** The nearest amount the scale can tell. */
export const onStep = (grams: number, step: number): number => clean(Math.round(grams / step) * step);

export interface Bowls {
  readonly count: number;
  /** g of each part in one bowl, before rounding. */
  readonly exact: readonly number[];
  /** g of each part in one bowl, on the scale's steps. */
  readonly grams: readonly number[];
  /** Step each part is weighed to. */
  readonly steps: readonly number[];
  /** Whether the part is weighed on the finer scale, apart from the bowl. */
  readonly apart: readonly boolean[];
}

/**
 * Bowls of at most `limit` that make up a batch: as few as will do, a few more where that lets each fill whole moulds.
 * batch: g and cm3; pieces: moulds it fills, which may be a fraction.
 */
export function bowlCount(
  batch: { readonly grams: number; readonly cm3: number },
  pieces: number,
  limit: Amount | null,
): number {
  if (limit === null) return 1;
  const size = 'grams' in limit ? batch.grams / limit.grams : batch.cm3 / limit.cm3;
  const least = Math.max(1, Math.ceil(size - 1e-9));
  const whole = Math.round(pieces);
  if (Math.abs(whole - pieces) > 1e-6) return least;
  for (let count = least; count <= Math.min(2 * least, whole); count++) if (whole % count === 0) return count;
  return least;
}

/** Splits a batch into equal bowls, each part `rounded` to the step it is weighed to: given, or the nearest. */
export function equalBowls(
  batchGrams: readonly number[],
  count: number,
  scale: Scale,
  rounded?: readonly number[],
): Bowls {
  const batch: Batch = { pieces: 1, ...scale };
  const exact = batchGrams.map((g) => g / count);
  const steps = exact.map((g) => stepFor(g, batch));
  const grams = rounded ?? exact.map((g, i) => onStep(g, steps[i]!));
  return {
    count,
    exact,
    grams,
    steps,
    apart: exact.map((g) => scale.fine !== null && scale.fine.step < scale.step && g <= scale.fine.most),
  };
}

/**
 * What the scale under a tared vessel reads after each addition. Amounts on the scale's own step add up exactly; what was
 * weighed apart on a finer one shows as far as this scale can tell.
 */
export function runningTotals(added: readonly number[], step: number, anyApart: boolean): number[] {
  let total = 0;
  return added.map((grams) => {
    total = clean(total + grams);
    return anyApart ? onStep(total, step) : total;
  });
}
