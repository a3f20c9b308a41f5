import { TOLERANCE } from './certify.js';
import { checkProgram } from './checked-program.js';
import { elasticProgram, foldRows, type Give } from './elastic-program.js';
import { solveChecked } from './solve.js';
import type { Effort, LinearProgram } from './types.js';

/** One side that must give way. Exactly one of row and column is set. */
export interface Relaxation {
  readonly row?: number;
  readonly column?: number;
  readonly side: 'low' | 'high';
  /** By how much, in the row's or column's own unit. */
  readonly amount: number;
  /** amount / (natural size of the row's right side), times the row's price. */
  readonly weighed: number;
}

export interface ElasticOptions {
  /** Rows that may give way; default all. */
  readonly relaxRow?: (row: number) => boolean;
  /** What it costs to miss a row by its own scale; default 1. */
  readonly rowPrice?: (row: number) => number;
  /** Bounds that may give way; default: finite, not zero, of columns that are not integer. */
  readonly relaxBound?: (column: number, side: 'low' | 'high') => boolean;
}

export type ElasticAnswer =
  | {
      readonly status: 'measured';
      /** Empty if the program is feasible. */
      readonly relaxations: readonly Relaxation[];
      /** Least possible sum of the weighed amounts. */
      readonly total: number;
      /** A point that misses the soft sides by just these amounts and holds all others. */
      readonly x: readonly number[];
      /** Prices of the rows: what the total gains per unit a row's side is moved. Farkas multipliers if total > 0. */
      readonly rowPrices: readonly number[];
      readonly effort: Effort;
    }
  /** The hard rows and bounds alone contradict each other. */
  | { readonly status: 'infeasible'; readonly effort: Effort }
  | { readonly status: 'uncertified'; readonly reason: string; readonly effort: Effort };

/**
 * How far a program is from feasible: the least sum of amounts by which its soft sides must give way, each weighed
 * by its row's scale (`Row.scale`, or max(|low|, |high|, 0.01)). The objective plays no part; integers are relaxed.
 * @throws TypeError on a malformed program.
 */
export function elastic(program: LinearProgram, options: ElasticOptions = {}): ElasticAnswer {
  const checked = checkProgram(program);
  const { columnCount, rowCount, lower, upper, scale } = checked;
  const relaxRow = options.relaxRow ?? (() => true);
  const rowPrice = options.rowPrice ?? (() => 1);
  const boundOf = (j: number, side: 'low' | 'high'): number => (side === 'low' ? lower[j]! : upper[j]!);
  const relaxBound =
    options.relaxBound ?? ((j, side) => boundOf(j, side) !== 0 && program.columns[j]!.integer !== true);
  const relaxed = elasticProgram(checked, {
    rowGive: (i) => (relaxRow(i) ? scale[i]! / rowPrice(i) : 0),
    boundGive: (j, side) => (relaxBound(j, side) ? Math.max(Math.abs(boundOf(j, side)), 0.01) : 0),
  });
  const { crossed, program: soft } = relaxed;
  if (crossed) return { status: 'infeasible', effort: { rung: 0, rungName: 'seen at once', pivots: 0, capped: 0 } };
  const answer = solveChecked(soft);
  const { effort } = answer;
  if (answer.status === 'infeasible') return { status: 'infeasible', effort };
  if (answer.status === 'uncertified') return { status: 'uncertified', reason: answer.reason, effort };
  if (answer.status === 'unbounded') throw new Error('an elastic program cannot be unbounded');
  const { x, cost, rowPrices } = answer.optimum;
  const relaxations = relaxed.gives.flatMap((give, k) => relaxationOf(give, x[columnCount + k]!));
  return {
    status: 'measured',
    relaxations,
    total: relaxations.length === 0 ? 0 : cost,
    x: Array.from(x.subarray(0, columnCount)),
    rowPrices: Array.from(foldRows(relaxed, rowPrices, rowCount)),
    effort,
  };
}

function relaxationOf(give: Give, units: number): Relaxation[] {
  if (units <= TOLERANCE) return [];
  const place = give.kind === 'row' ? { row: give.index } : { column: give.index };
  return [{ ...place, side: give.side, amount: units * give.size, weighed: units }];
}
