import { type AssessmentResult, type ProposalResult, propertyById, significant } from '../../core/index.js';
import { propertyOf } from './words.js';

/** The stretch of a property that its slider covers, in core units. */
export interface Span {
  readonly low: number;
  readonly high: number;
  /** Even steps of the logarithm: times and strengths range over decades. */
  readonly log: boolean;
}

const FIXED: Readonly<Record<string, Span>> = {
  'water-to-binder': { low: 0.2, high: 1.2, log: false },
  'water-to-binder-k': { low: 0.2, high: 1.2, log: false },
  'water-to-plaster': { low: 0.2, high: 1.5, log: false },
  'water-to-cement': { low: 0.2, high: 1.2, log: false },
  flow: { low: 0.6, high: 1.6, log: false },
  'paste-to-voids': { low: 0.5, high: 3, log: false },
  'sand-to-binder': { low: 0, high: 5, log: false },
  'working-time': { low: 1, high: 480, log: true },
  'initial-set': { low: 2, high: 1440, log: true },
  'final-set': { low: 4, high: 2880, log: true },
  'demould-time': { low: 10, high: 4320, log: true },
  strength: { low: 1, high: 100, log: true },
  'peak-temperature': { low: 20, high: 100, log: false },
  'fresh-density': { low: 0.4, high: 2.6, log: false },
};

/** Wide enough for what blends can do, and for the limits that are set. */
export function spanOf(id: string, result: AssessmentResult | ProposalResult | null, limits: readonly number[]): Span {
  const base = baseSpan(id, result);
  const set = limits.filter((l) => Number.isFinite(l) && (!base.log || l > 0));
  return { ...base, low: Math.min(base.low, ...set), high: Math.max(base.high, ...set) };
}

function baseSpan(id: string, result: AssessmentResult | ProposalResult | null): Span {
  const fixed = FIXED[id];
  if (fixed !== undefined) return fixed;
  const property = propertyById(id)!;
  const volume = result?.piece.volume ?? null;
  if (property.quantity === 'mass' && volume !== null) {
    // Foam-light to heavier than sand and cement.
    return { low: significant(0.35 * volume, 2), high: significant(2.6 * volume, 2), log: false };
  }
  if (property.quantity === 'percent') return { low: 0, high: 20, log: false };
  const value = result === null ? null : propertyOf(result, id);
  if (value === null || value <= 0) return { low: 0, high: property.quantity === 'money' ? 5 : 1000, log: false };
  return { low: 0, high: significant(3 * value, 1), log: false };
}

/** Place of a value on a slider of 0 to 1. */
export function placeOf({ low, high, log }: Span, value: number): number {
  if (high <= low) return 0;
  const place = log ? Math.log(Math.max(value, low) / low) / Math.log(high / low) : (value - low) / (high - low);
  return Math.max(0, Math.min(1, place));
}

/** The value at a place, rounded as a maker would say it. */
export function valueAt({ low, high, log }: Span, place: number): number {
  const value = log ? low * (high / low) ** place : low + place * (high - low);
  if (log) return significant(value, 2);
  const step = 10 ** Math.floor(Math.log10((high - low) / 100));
  const steps = [1, 2, 5].map((m) => m * step).find((s) => (high - low) / s <= 250) ?? step;
  return Number((Math.round(value / steps) * steps).toPrecision(6));
}

/** Places a slider knows. */
export const STEPS = 400;

/**
 * The step of a slider at which the value, as a maker would say it, is next up (1) or down (-1) from the one at `step`:
 * one step alone may round to the same value, and keys would seem dead.
 */
export function nextStep(span: Span, step: number, way: 1 | -1): number {
  const from = valueAt(span, step / STEPS);
  let next = step + way;
  while (next > 0 && next < STEPS && valueAt(span, next / STEPS) === from) next += way;
  return Math.max(0, Math.min(STEPS, next));
}
