import { certifyOptimum, certifyRay, TOLERANCE } from './certify.js';
import type { CheckedProgram } from './checked-program.js';
import { infeasibleBy, type LadderAnswer } from './ladder.js';
import { rowReach } from './row-reach.js';

/** Programs with at least so many columns are solved by pricing columns in. */
export const WIDE = 100;
/** Columns that are taken in at once. */
const AT_ONCE = 20;
const ROUNDS = 60;
/** With more of the columns than this the whole program is as quick. */
const MOST_SHARE = 0.6;

/**
 * Solves a wide program by few of its columns: the others stand at zero until the prices of an optimum, or the
 * multipliers of a proof that nothing holds, show that they would help. Most of a long shelf never does.
 * The last answer is certified on the whole program like any other, with prices of zero for the rows that were left out
 * because zeros kept them. Source: delayed column generation, Gilmore and Gomory 1961 (from memory).
 *
 * `solve` answers a program of fewer columns. Undefined where this way leads to no certified answer; then the whole
 * program has to be solved at once.
 */
export function pricedIn(
  program: CheckedProgram,
  solve: (part: CheckedProgram) => LadderAnswer,
): LadderAnswer | undefined {
  const { columnCount } = program;
  const taken = Array.from({ length: columnCount }, (_v, j) => mustBeIn(program, j));
  let pivots = 0;
  let capped = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const columns = taken.flatMap((yes, j) => (yes ? [j] : []));
    if (columns.length > MOST_SHARE * columnCount) return undefined;
    const part = partOf(program, columns);
    const answer = solve(part.program);
    pivots += answer.effort.pivots;
    capped += answer.effort.capped;
    const effort = { ...answer.effort, pivots, capped };
    const overRows = (prices: ArrayLike<number>): Float64Array => spread(prices, part.rows, program.rowCount);
    const overColumns = (values: ArrayLike<number>): Float64Array => spread(values, columns, columnCount);
    if (answer.status === 'unbounded') {
      const proof = certifyRay(program, overColumns(answer.point), overColumns(answer.ray));
      return proof && { status: 'unbounded', ...proof, effort };
    }
    if (answer.status === 'uncertified') return undefined;
    const prices = overRows(answer.status === 'optimal' ? answer.optimum.rowPrices : answer.rowProof);
    const more = worthTaking(program, taken, prices, answer.status === 'optimal');
    if (more.length > 0) {
      for (const j of more) taken[j] = true;
      continue;
    }
    if (answer.status === 'optimal') {
      const optimum = certifyOptimum(program, overColumns(answer.optimum.x), prices);
      return optimum && { status: 'optimal', optimum, effort };
    }
    const proof = infeasibleBy(program, prices);
    return proof && Object.assign(proof, { effort });
  }
  return undefined;
}

/** A column that cannot stand at zero, or may move both ways from there. */
const mustBeIn = ({ lower, upper }: CheckedProgram, j: number): boolean => lower[j] !== 0 && upper[j] !== 0;

interface Part {
  readonly program: CheckedProgram;
  /** Rows of the whole program, one a row of the part. */
  readonly rows: readonly number[];
}

/** The program of these columns alone, without the rows that their bounds keep by themselves. */
function partOf(program: CheckedProgram, columns: readonly number[]): Part {
  const { matrix, columnCount, low, high, lower, upper, scale } = program;
  const rows: number[] = [];
  for (let i = 0; i < program.rowCount; i++) {
    const { least, most } = rowReach(program, i, columns);
    if (least < low[i]! || most > high[i]!) rows.push(i);
  }
  const part = new Float64Array(rows.length * columns.length);
  rows.forEach((i, r) => {
    columns.forEach((j, c) => {
      part[r * columns.length + c] = matrix[i * columnCount + j]!;
    });
  });
  const of = (values: Float64Array, places: readonly number[]) => Float64Array.from(places, (k) => values[k]!);
  return {
    rows,
    program: {
      rowCount: rows.length,
      columnCount: columns.length,
      matrix: part,
      low: of(low, rows),
      high: of(high, rows),
      lower: of(lower, columns),
      upper: of(upper, columns),
      cost: of(program.cost, columns),
      sign: program.sign,
      scale: of(scale, rows),
    },
  };
}

/** The columns left out that help most, by their reduced cost (or what they would break of a proof) in shares of its terms. */
function worthTaking(
  program: CheckedProgram,
  taken: readonly boolean[],
  prices: Float64Array,
  optimal: boolean,
): readonly number[] {
  const { rowCount, columnCount, matrix, lower, upper, cost } = program;
  const reduced = optimal ? cost.slice() : new Float64Array(columnCount);
  const terms = reduced.map(Math.abs);
  for (let i = 0; i < rowCount; i++) {
    const price = prices[i]!;
    if (price === 0) continue;
    for (let j = 0, at = i * columnCount; j < columnCount; j++, at++) {
      const term = matrix[at]! * price;
      reduced[j] = reduced[j]! - term;
      terms[j] = terms[j]! + Math.abs(term);
    }
  }
  const helps: { readonly j: number; readonly by: number }[] = [];
  for (let j = 0; j < columnCount; j++) {
    if (taken[j]!) continue;
    const share = terms[j]! === 0 ? 0 : reduced[j]! / terms[j]!;
    const by = share < 0 ? (upper[j]! > 0 ? -share : 0) : lower[j]! < 0 ? share : 0;
    if (by > TOLERANCE) helps.push({ j, by });
  }
  return helps
    .sort((a, b) => b.by - a.by)
    .slice(0, AT_ONCE)
    .map((h) => h.j);
}

function spread(values: ArrayLike<number>, places: readonly number[], length: number): Float64Array {
  const all = new Float64Array(length);
  places.forEach((place, k) => {
    all[place] = values[k]!;
  });
  return all;
}
