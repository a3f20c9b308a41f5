import type { TreeLeaf } from '../../src/core/optimise/lp/milp.js';
import type { LinearProgram, OptimalAnswer, Row } from '../../src/core/optimise/lp/types.js';

/**
 * Rechecks the solver's certificates in the tests' own arithmetic, straight from the program as stated. Shares no
 * code with src/core/optimise/lp/certify.ts; sums are compensated, so that rounding here blames nobody.
 * Each function lists what is wrong; an empty list means that the certificate stands.
 */
const TOLERANCE = 1e-8;
/** Floor relative to the largest numbers about. */
const FLOOR = 1e-12;

/** Neumaier's compensated sum (ZAMM 54 (1974) 39-51, from memory). */
export function accurateSum(terms: readonly number[]): number {
  let sum = 0;
  let lost = 0;
  for (const term of terms) {
    const next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
  }
  return sum + lost;
}

const absoluteSum = (terms: readonly number[]): number => accurateSum(terms.map(Math.abs));
const most = (values: readonly number[]): number => values.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
const lowOf = (row: Row): number => row.low ?? Number.NEGATIVE_INFINITY;
const highOf = (row: Row): number => row.high ?? Number.POSITIVE_INFINITY;

interface Box {
  readonly lower: readonly number[];
  readonly upper: readonly number[];
}

export function boxOf(program: LinearProgram): Box {
  return {
    lower: program.columns.map((c) => c.lower ?? 0),
    upper: program.columns.map((c) => c.upper ?? Number.POSITIVE_INFINITY),
  };
}

/** Rows and bounds that a point misses. */
export function pointFaults(program: LinearProgram, x: readonly number[], box: Box = boxOf(program)): string[] {
  const faults: string[] = [];
  if (x.length !== program.columns.length || !x.every(Number.isFinite)) return ['the point is not a point'];
  x.forEach((value, j) => {
    if (value < box.lower[j]! || value > box.upper[j]!) faults.push(`column ${j} at ${value} is outside its bounds`);
  });
  program.rows.forEach((row, i) => {
    const terms = row.coefficients.map((c, j) => c * x[j]!);
    const value = accurateSum(terms);
    const side = value < lowOf(row) ? lowOf(row) : highOf(row);
    const miss = Math.max(lowOf(row) - value, value - highOf(row), 0);
    const allowed = TOLERANCE * (absoluteSum(terms) + Math.abs(side)) + FLOOR * most(row.coefficients) * most(x);
    if (miss > 0 && !(miss <= allowed)) faults.push(`row ${i} (${row.name}) is missed by ${miss}`);
  });
  return faults;
}

/**
 * The bound that row prices prove over a box (weak duality), for the program as a minimisation, and by how much
 * reduced costs have the wrong sign where the box is open.
 */
function provenBound(program: LinearProgram, prices: readonly number[], box: Box) {
  const sign = program.sense === 'min' ? 1 : -1;
  const y = prices.map((p) => sign * p);
  const parts: number[] = [];
  let wrong = 0;
  let dearest = 0;
  program.rows.forEach((row, i) => {
    if (y[i] === 0) return;
    const side = y[i]! > 0 ? lowOf(row) : highOf(row);
    if (Number.isFinite(side)) parts.push(y[i]! * side);
    else wrong = Number.POSITIVE_INFINITY;
  });
  const reduced = program.columns.map((_, j) => {
    const terms = [sign * program.objective[j]!, ...program.rows.map((row, i) => -row.coefficients[j]! * y[i]!)];
    dearest = Math.max(dearest, absoluteSum(terms));
    return { d: accurateSum(terms), size: absoluteSum(terms) };
  });
  reduced.forEach(({ d, size }, j) => {
    const bound = d > 0 ? box.lower[j]! : box.upper[j]!;
    if (d === 0) return;
    if (Number.isFinite(bound)) parts.push(d * bound);
    else if (Math.abs(d) > TOLERANCE * size + FLOOR * dearest) wrong = Math.max(wrong, Math.abs(d));
  });
  return { bound: accurateSum(parts), size: absoluteSum(parts), wrong, dearest, reduced: reduced.map((r) => r.d) };
}

export function optimalFaults(program: LinearProgram, answer: OptimalAnswer): string[] {
  const faults = pointFaults(program, answer.x);
  const sign = program.sense === 'min' ? 1 : -1;
  const terms = program.objective.map((c, j) => c * answer.x[j]!);
  const objective = accurateSum(terms);
  const floor = FLOOR * most(program.objective) * most(answer.x);
  if (!(Math.abs(objective - answer.objective) <= TOLERANCE * absoluteSum(terms) + floor)) {
    faults.push(`the stated objective ${answer.objective} is not that of the point, ${objective}`);
  }
  const { bound, size, wrong, dearest, reduced } = provenBound(program, answer.rowPrices, boxOf(program));
  if (wrong > 0) faults.push(`a reduced cost has the wrong sign by ${wrong}`);
  const dust = Math.min(
    FLOOR * (size + dearest * most(answer.x)),
    TOLERANCE * most(program.objective) * most(answer.x),
  );
  const allowed = TOLERANCE * absoluteSum(terms) + dust;
  if (!(Math.abs(sign * objective - bound) <= allowed)) faults.push(`objective ${objective}, bound ${sign * bound}`);
  reduced.forEach((d, j) => {
    if (!(Math.abs(sign * d - answer.reducedCosts[j]!) <= TOLERANCE * dearest)) faults.push(`reduced cost ${j}`);
  });
  return faults;
}

/** Faults of Farkas multipliers (>0: low side). */
export function infeasibleFaults(program: LinearProgram, rowProof: readonly number[], box: Box = boxOf(program)) {
  const faults: string[] = [];
  const parts: number[] = [];
  const sizes: number[] = [];
  program.rows.forEach((row, i) => {
    if (rowProof[i] === 0) return;
    const side = rowProof[i]! > 0 ? lowOf(row) : highOf(row);
    if (Number.isFinite(side)) parts.push(rowProof[i]! * side);
    else faults.push(`row ${i} is used on a side it does not have`);
  });
  sizes.push(absoluteSum(parts));
  const columns = program.columns.map((_, j) => program.rows.map((row, i) => row.coefficients[j]! * rowProof[i]!));
  const heaviest = most(columns.map(absoluteSum));
  columns.forEach((terms, j) => {
    const g = accurateSum(terms);
    const bound = g > 0 ? box.upper[j]! : box.lower[j]!;
    if (g === 0) return;
    if (Number.isFinite(bound)) {
      parts.push(-g * bound);
      sizes.push(Math.abs(g * bound));
    } else if (Math.abs(g) > TOLERANCE * absoluteSum(terms) + FLOOR * heaviest) {
      faults.push(`column ${j} is left over with ${g}`);
    }
  });
  if (!(accurateSum(parts) > FLOOR * accurateSum(sizes))) faults.push(`no contradiction: ${accurateSum(parts)}`);
  return faults;
}

export function rayFaults(program: LinearProgram, point: readonly number[], ray: readonly number[]): string[] {
  const faults = pointFaults(program, point);
  const box = boxOf(program);
  const largest = most(ray);
  ray.forEach((r, j) => {
    if ((r < 0 && box.lower[j]! > Number.NEGATIVE_INFINITY) || (r > 0 && box.upper[j]! < Number.POSITIVE_INFINITY)) {
      faults.push(`column ${j} stops the ray`);
    }
  });
  program.rows.forEach((row, i) => {
    const terms = row.coefficients.map((c, j) => c * ray[j]!);
    const slip = TOLERANCE * absoluteSum(terms) + FLOOR * most(row.coefficients) * largest;
    const along = accurateSum(terms);
    if (Number.isFinite(lowOf(row)) && along < -slip) faults.push(`row ${i} stops the ray below`);
    if (Number.isFinite(highOf(row)) && along > slip) faults.push(`row ${i} stops the ray above`);
  });
  const gain = accurateSum(program.objective.map((c, j) => c * ray[j]!)) * (program.sense === 'min' ? -1 : 1);
  if (!(gain > 0)) faults.push('the ray gains nothing');
  return faults;
}

/**
 * Faults of an exhausted search: the leaves must tile the program's box of whole numbers (no two share a point, and
 * together they hold as many), and each must be proven empty or no better than the objective.
 */
export function treeFaults(
  program: LinearProgram,
  tree: readonly TreeLeaf[],
  objective: number | undefined,
  gap: number,
): string[] {
  const faults: string[] = [];
  const integers = program.columns.flatMap((c, j) => (c.integer ? [j] : []));
  const whole = boxOf(program);
  const points = (box: Box): bigint =>
    integers.reduce((n, j) => n * BigInt(Math.floor(box.upper[j]!) - Math.ceil(box.lower[j]!) + 1), 1n);
  const total = tree.reduce((n, leaf) => n + points(leaf), 0n);
  if (total !== points(whole)) faults.push(`the leaves hold ${total} points, the box ${points(whole)}`);
  tree.forEach((one, a) => {
    for (const other of tree.slice(a + 1)) {
      const shared = integers.every((j) => one.lower[j]! <= other.upper[j]! && other.lower[j]! <= one.upper[j]!);
      if (shared) faults.push('two leaves overlap');
    }
    if (one.why === 'infeasible') {
      faults.push(...infeasibleFaults(program, one.rows, one));
      return;
    }
    const { bound, size, wrong } = provenBound(program, one.rows, one);
    const cost = (program.sense === 'min' ? 1 : -1) * (objective ?? Number.POSITIVE_INFINITY);
    if (wrong > 0) faults.push('a leaf has a reduced cost of the wrong sign');
    if (!(bound >= cost - (gap + TOLERANCE) * Math.abs(cost) - Math.min(FLOOR * size, 1e-9))) {
      faults.push(`a leaf is only proven to cost ${bound}, the answer costs ${cost}`);
    }
  });
  return faults;
}
