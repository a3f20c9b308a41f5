import type { FigureKey } from './figure-keys.js';
import { type Draws, normalQuantile } from './sampling.js';

/** A figure of the tables that much of a property's spread comes from. */
export interface Contributor {
  readonly figure: FigureKey;
  /** Share of the property's spread that goes with this figure alone, 0..1. */
  readonly share: number;
  /** Whether the property rises or falls as the figure rises. */
  readonly direction: 'rises' | 'falls';
}

const MOST = 3;
/** Correlations of chance alone stay below three standard deviations of 1/sqrt(draws). */
const CHANCE_SQUARED = 9;
const LEAST_SHARE = 0.01;

/**
 * Finds the figures that a property's spread comes from, largest first, at most three; none that could be mere chance.
 *
 * Share = squared correlation between the figure's standard normal score in each draw and that of the property's rank
 * (normal-scores correlation, van der Waerden 1952, from memory). For a sum of independent normal figures it is the
 * share of the variance; for anything monotone it does not hang on the scale. Figures that pours taught together
 * overlap in their shares.
 */
export function contributorsIn(draws: Draws): (sample: readonly (number | null)[]) => Contributor[] {
  const columns = draws.keys().map((figure) => ({ figure, scores: draws.column(figure)! }));
  const whole = columns.map((c) => standardised(c.scores));
  return (sample) => {
    const known = sample.flatMap((value, j) => (value === null ? [] : [j]));
    const scores = normalScores(known.map((j) => sample[j]!));
    if (scores === null) return [];
    const least = Math.max(LEAST_SHARE, CHANCE_SQUARED / known.length);
    const among = (i: number): Float64Array =>
      known.length === sample.length
        ? whole[i]!
        : standardised(Float64Array.from(known, (j) => columns[i]!.scores[j]!));
    return columns
      .flatMap(({ figure }, i): Contributor[] => {
        const r = dot(among(i), scores);
        return r * r < least ? [] : [{ figure, share: Math.min(1, r * r), direction: r > 0 ? 'rises' : 'falls' }];
      })
      .sort((a, b) => b.share - a.share)
      .slice(0, MOST);
  };
}

/** Values this share apart differ by arithmetic alone, and by another arithmetic on another machine. */
const TIED = 1e-9;

/** Standard normal scores of the ranks, ties sharing their middle, standardised; null where nothing varies. */
function normalScores(values: readonly number[]): Float64Array | null {
  const n = values.length;
  const sorted = Float64Array.from(values).sort();
  const tied = (a: number, b: number): boolean => b - a <= TIED * Math.max(Math.abs(a), Math.abs(b));
  if (n < 2 || tied(sorted[0]!, sorted[n - 1]!)) return null;
  const places = new Map<number, number>();
  for (let first = 0; first < n; ) {
    let last = first;
    while (last + 1 < n && tied(sorted[first]!, sorted[last + 1]!)) last++;
    for (let k = first; k <= last; k++) places.set(sorted[k]!, (first + last + 1) / 2);
    first = last + 1;
  }
  return standardised(Float64Array.from(values, (v) => normalQuantile(places.get(v)! / n)));
}

/** Shifted to mean 0 and scaled to length 1, so that a dot product is a correlation; all zero where nothing varies. */
function standardised(values: Float64Array): Float64Array {
  let total = 0;
  for (const v of values) total += v;
  const centred = values.map((v) => v - total / values.length);
  const length = Math.sqrt(dot(centred, centred));
  return length > 0 ? centred.map((v) => v / length) : centred.fill(0);
}

function dot(a: Float64Array, b: Float64Array): number {
  let total = 0;
  for (let j = 0; j < a.length; j++) total += a[j]! * b[j]!;
  return total;
}
