import { type Grading, passingAt } from './grading.js';

export interface SandBlend {
  /** Share of each sand, by the basis of the curves, sums to 1. */
  readonly shares: readonly number[];
  /** Root mean square miss over the sieves [percentage points]. */
  readonly miss: number;
}

/**
 * Shares of two or three sands whose mixture comes nearest a target curve, by least squares over the sieves.
 *
 *   minimise sum over sieves of (sum_j s_j P_j(d) - target(d))^2,  s_j >= 0, sum s_j = 1
 *
 * Exact for up to six sands: every subset of sands is solved with its sum fixed (a small linear system), answers with a
 * negative share are dropped and the best of the rest is the optimum, as the Kuhn-Tucker conditions say it must be among
 * them. gradings [percent passing]; target [percent passing at a size in mm]; sieves [mm, at least one].
 * Equal sands share equally undecided: the subset with fewer sands wins. @throws RangeError without sands or over six.
 */
export function blendSands(
  gradings: readonly Grading[],
  target: (size: number) => number,
  sieves: readonly number[],
): SandBlend {
  if (gradings.length === 0 || gradings.length > 6 || sieves.length === 0) {
    throw new RangeError('blendSands takes 1 to 6 sands and at least one sieve');
  }
  const curves = gradings.map((g) => sieves.map((s) => passingAt(g, s) / 100));
  const wanted = sieves.map((s) => target(s) / 100);
  let best: SandBlend | null = null;
  for (const subset of subsetsBySize(gradings.length)) {
    const part = solveWithSumOne(
      subset.map((j) => curves[j]!),
      wanted,
    );
    if (part === null || part.some((s) => s < -1e-12)) continue;
    const shares = gradings.map((_g, j) => Math.max(0, part[subset.indexOf(j)] ?? 0));
    const miss =
      100 * rootMeanSquare(sieves.map((_s, i) => sum(shares, (share, j) => share * curves[j]![i]!) - wanted[i]!));
    if (best === null || miss < best.miss - 1e-9) best = { shares, miss };
  }
  return best!;
}

const sum = (values: readonly number[], term: (value: number, i: number) => number): number =>
  values.reduce((total, value, i) => total + term(value, i), 0);

const rootMeanSquare = (values: readonly number[]): number => Math.sqrt(sum(values, (v) => v * v) / values.length);

function* subsetsBySize(n: number): Generator<number[]> {
  const all: number[][] = [];
  for (let mask = 1; mask < 1 << n; mask++) {
    all.push(Array.from({ length: n }, (_x, j) => j).filter((j) => (mask >> j) & 1));
  }
  all.sort((a, b) => a.length - b.length);
  yield* all;
}

/** Least squares with the shares summing to 1: the normal equations bordered by one multiplier; null when singular. */
function solveWithSumOne(curves: readonly number[][], wanted: readonly number[]): number[] | null {
  const n = curves.length;
  const rows = Array.from({ length: n + 1 }, (_r, i) =>
    Array.from({ length: n + 2 }, (_c, j) => {
      if (i === n) return j < n ? 1 : j === n ? 0 : 1;
      if (j < n) return sum(curves[i]!, (p, k) => p * curves[j]![k]!);
      return j === n ? 1 : sum(curves[i]!, (p, k) => p * wanted[k]!);
    }),
  );
  for (let column = 0; column <= n; column++) {
    let pivot = column;
    for (let r = column; r <= n; r++) if (Math.abs(rows[r]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = r;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    const head = rows[column]!;
    if (Math.abs(head[column]!) < 1e-10) return null;
    for (let r = 0; r <= n; r++) {
      if (r === column) continue;
      const factor = rows[r]![column]! / head[column]!;
      for (let c = column; c < n + 2; c++) rows[r]![c] = rows[r]![c]! - factor * head[c]!;
    }
  }
  return rows.slice(0, n).map((row, i) => row[n + 1]! / row[i]!);
}
