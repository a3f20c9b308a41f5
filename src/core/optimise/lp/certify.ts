import type { CheckedProgram } from './checked-program.js';
import { largestCoefficient } from './row-reach.js';

/**
 * Judges candidates in plain arithmetic on the rows as stated, never on the scaled ones, and trusts nothing the
 * pivot engine says about itself.
 *
 * All tolerances are relative to the terms that enter a sum, so they mean the same in any unit:
 * - a row may be missed by TOLERANCE of (|side| + sum |a_j x_j|), a column's bound not at all;
 * - cost and dual bound may differ by TOLERANCE of sum |c_j x_j|, reduced costs of the wrong sign on open columns
 *   counted as if the column could still grow by the largest amount there is;
 * - a proof of infeasibility must leave a margin above TOLERANCE of the terms it adds up, after what is left over of
 *   open columns has been counted up to FAR times the program's natural size (the safe bounds of Neumaier and
 *   Shcherbina, Mathematical Programming 99 (2004) 283-296, from memory).
 * ROUNDING is the floor that double arithmetic itself needs, relative to the largest numbers about; it never loosens
 * the objective beyond TOLERANCE of (largest cost * largest amount), however large the prices.
 */
export const TOLERANCE = 1e-9;
export const ROUNDING = 1e-13;
/** Amounts beyond this many times the natural size of a program are of no concern to a proof. */
const FAR = 100;
/** Parts of a ray below this share of its largest are what pivoting leaves of a zero. */
const RAY_NOISE = 1e-11;

export interface Optimum {
  readonly x: Float64Array;
  readonly rowPrices: Float64Array;
  readonly reducedCosts: Float64Array;
  readonly cost: number;
}

/** A point moved onto its bounds, if it then holds every row; else undefined. */
export function certifyPoint(program: CheckedProgram, candidate: Float64Array): Float64Array | undefined {
  const { rowCount, columnCount, matrix, low, high, lower, upper } = program;
  const largest = largestOf(candidate);
  if (!Number.isFinite(largest)) return undefined;
  const x = candidate.map((value, j) => ontoBounds(value, lower[j]!, upper[j]!, ROUNDING * largest));
  for (let i = 0; i < rowCount; i++) {
    let sum = 0;
    let terms = 0;
    let coefficient = 0;
    for (let j = 0, at = i * columnCount; j < columnCount; j++, at++) {
      const a = matrix[at]!;
      if (a === 0) continue;
      const term = a * x[j]!;
      sum += term;
      terms += Math.abs(term);
      coefficient = Math.max(coefficient, Math.abs(a));
    }
    const floor = ROUNDING * coefficient * largest;
    const miss = Math.max(low[i]! - sum, sum - high[i]!);
    const side = sum < low[i]! ? low[i]! : high[i]!;
    // So written that a sum which is not a number is refused.
    if (!(miss <= TOLERANCE * (terms + Math.abs(side)) + floor)) return undefined;
  }
  return x;
}

/** Optimality by a feasible point and prices whose bound equals its cost (weak duality); else undefined. */
export function certifyOptimum(
  program: CheckedProgram,
  candidate: Float64Array,
  prices: Float64Array,
): Optimum | undefined {
  const x = certifyPoint(program, candidate);
  if (x === undefined) return undefined;
  const { rowCount, columnCount, matrix, low, high, lower, upper, cost } = program;
  const costMost = largestMoving(program, cost);
  const y = cleanPrices(program, prices, costMost);
  const reduced = cost.slice();
  const terms = cost.map(Math.abs);
  let gap = 0;
  let gapTerms = 0;
  for (let i = 0; i < rowCount; i++) {
    const price = y[i]!;
    if (price === 0) continue;
    let sum = 0;
    let sumTerms = 0;
    for (let j = 0, at = i * columnCount; j < columnCount; j++, at++) {
      const a = matrix[at]!;
      if (a === 0) continue;
      const worth = a * price;
      const term = a * x[j]!;
      reduced[j] = reduced[j]! - worth;
      terms[j] = terms[j]! + Math.abs(worth);
      sum += term;
      sumTerms += Math.abs(term);
    }
    const side = price > 0 ? low[i]! : high[i]!;
    gap += price * (sum - side);
    gapTerms += Math.abs(price) * (sumTerms + Math.abs(side));
  }
  let total = 0;
  let size = 0;
  const dearest = largestMoving(program, terms);
  const largest = largestOf(x);
  for (let j = 0; j < columnCount; j++) {
    const d = reduced[j]!;
    const bound = d > 0 ? lower[j]! : upper[j]!;
    if (Number.isFinite(bound)) gap += d * (x[j]! - bound);
    else {
      if (!(Math.abs(d) <= TOLERANCE * terms[j]! + ROUNDING * dearest)) return undefined;
      gap += Math.abs(d) * largest;
    }
    total += cost[j]! * x[j]!;
    size += Math.abs(cost[j]! * x[j]!);
  }
  const floor = Math.min(ROUNDING * (gapTerms + dearest * largest), TOLERANCE * costMost * largest);
  // A cost too large for a number is none.
  if (!(size < Number.POSITIVE_INFINITY && Math.abs(gap) <= TOLERANCE * size + floor)) return undefined;
  return { x, rowPrices: y, reducedCosts: reduced, cost: total };
}

/**
 * Infeasibility by Farkas' lemma (Farkas 1902; e.g. Schrijver, Theory of Linear and Integer Programming, §7.3, from
 * memory): multipliers of the rows whose combination cannot be reached within the column bounds.
 * Gives the cleaned multipliers of rows and column bounds, or undefined.
 */
export function certifyInfeasible(
  program: CheckedProgram,
  multipliers: Float64Array,
): { rowProof: Float64Array; columnProof: Float64Array } | undefined {
  const { rowCount, columnCount, matrix, low, high, lower, upper } = program;
  const y = cleanPrices(program, multipliers, 0);
  const combined = new Float64Array(columnCount);
  const terms = new Float64Array(columnCount);
  let needed = 0;
  let size = 0;
  for (let i = 0; i < rowCount; i++) {
    const weight = y[i]!;
    if (weight === 0) continue;
    const side = weight > 0 ? low[i]! : high[i]!;
    needed += weight * side;
    size += Math.abs(weight * side);
    for (let j = 0, at = i * columnCount; j < columnCount; j++, at++) {
      const a = matrix[at]!;
      combined[j] = combined[j]! + a * weight;
      terms[j] = terms[j]! + Math.abs(a * weight);
    }
  }
  let reach = 0;
  const heaviest = largestOf(terms);
  const far = FAR * naturalSize(program);
  for (let j = 0; j < columnCount; j++) {
    const g = combined[j]!;
    if (g === 0) continue;
    const bound = g > 0 ? upper[j]! : lower[j]!;
    if (Number.isFinite(bound)) {
      reach += g * bound;
      size += terms[j]! * Math.abs(bound);
    } else {
      if (!(Math.abs(g) <= TOLERANCE * terms[j]! + ROUNDING * heaviest)) return undefined;
      reach += Math.abs(g) * far;
    }
  }
  if (!(needed - reach > TOLERANCE * size)) return undefined;
  return { rowProof: y, columnProof: combined.map((g) => -g) };
}

/** Unboundedness by a feasible point and a direction that stays feasible and improves for ever. */
export function certifyRay(program: CheckedProgram, candidate: Float64Array, direction: Float64Array) {
  const point = certifyPoint(program, candidate);
  if (point === undefined) return undefined;
  const { rowCount, columnCount, matrix, low, high, lower, upper, cost } = program;
  const largest = largestOf(direction);
  const ray = direction.map((r) => (Math.abs(r) <= RAY_NOISE * largest ? 0 : r / largest));
  for (let j = 0; j < columnCount; j++) {
    if (ray[j]! > 0 && upper[j]! < Number.POSITIVE_INFINITY) return undefined;
    if (ray[j]! < 0 && lower[j]! > Number.NEGATIVE_INFINITY) return undefined;
  }
  for (let i = 0; i < rowCount; i++) {
    const { sum, terms } = along(matrix, i * columnCount, ray);
    const slip = TOLERANCE * terms;
    if (low[i]! > Number.NEGATIVE_INFINITY && !(sum >= -slip)) return undefined;
    if (high[i]! < Number.POSITIVE_INFINITY && !(sum <= slip)) return undefined;
  }
  // A direction of nothing, or of what is no number, gains nothing.
  const { sum, terms } = along(cost, 0, ray);
  return sum < -TOLERANCE * terms ? { point, ray } : undefined;
}

/** Within the bounds, and exactly on a bound that it misses only by rounding. */
function ontoBounds(value: number, lower: number, upper: number, rounding: number): number {
  if (value <= lower + rounding) return lower;
  return value >= upper - rounding ? upper : value;
}

/** The largest amount that any one row or bound speaks of. */
function naturalSize(program: CheckedProgram): number {
  const { rowCount, columnCount, low, high, lower, upper } = program;
  let size = 0;
  const look = (side: number, coefficient: number): void => {
    if (Number.isFinite(side)) size = Math.max(size, Math.abs(side) / coefficient);
  };
  for (let i = 0; i < rowCount; i++) {
    const most = largestCoefficient(program, i);
    if (most === 0) continue;
    look(low[i]!, most);
    look(high[i]!, most);
  }
  for (let j = 0; j < columnCount; j++) {
    look(lower[j]!, 1);
    look(upper[j]!, 1);
  }
  return size;
}

/** NaN if any value is. */
function largestOf(values: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i]!);
    if (size > largest || Number.isNaN(size)) largest = size;
  }
  return largest;
}

/** The same of the columns that can move. What a stuck one costs is no measure of what is small: it may be a million times as much. */
function largestMoving({ lower, upper }: CheckedProgram, values: Float64Array): number {
  let largest = 0;
  for (let j = 0; j < values.length; j++) {
    const size = Math.abs(values[j]!);
    if ((size > largest && lower[j] !== upper[j]) || Number.isNaN(size)) largest = size;
  }
  return largest;
}

/** Sum and absolute sum of coefficients times a direction. */
function along(coefficients: Float64Array, offset: number, direction: Float64Array): { sum: number; terms: number } {
  let sum = 0;
  let terms = 0;
  for (let j = 0; j < direction.length; j++) {
    const term = coefficients[offset + j]! * direction[j]!;
    sum += term;
    terms += Math.abs(term);
  }
  return { sum, terms };
}

/**
 * Prices without noise: a price needs a side to act on (on a side that is not there it can only be rounding, and what
 * follows will tell), and one that rounds away beside the largest is zero. None is left if one is no finite number.
 */
function cleanPrices(program: CheckedProgram, prices: Float64Array, costMost: number) {
  const { low, high } = program;
  const effect = prices.map((price, i) => (price === 0 ? 0 : Math.abs(price) * (largestCoefficient(program, i) || 1)));
  const noise = ROUNDING * Math.max(costMost, largestOf(effect));
  return prices.map((price, i) => {
    const side = price > 0 ? low[i]! : high[i]!;
    return Number.isFinite(side) && effect[i]! > noise ? price : 0;
  });
}
