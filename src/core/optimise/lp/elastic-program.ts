import type { CheckedProgram } from './checked-program.js';

/** What an extra elastic column gives way to. */
export interface Give {
  readonly kind: 'row' | 'column';
  readonly index: number;
  readonly side: 'low' | 'high';
  /** Size of one unit of give, in the row's or column's own unit. */
  readonly size: number;
}

export interface ElasticProgram {
  readonly program: CheckedProgram;
  /** One for each column after the first columnCount. */
  readonly gives: readonly Give[];
  /** Original row of each row, or -1 for a softened bound. */
  readonly rowOrigin: readonly number[];
  /** Some hard column or row has its low side above its high side: infeasible whatever gives way. */
  readonly crossed: boolean;
}

export interface Softness {
  /** Size of one unit of give of a row; 0 keeps the row hard. */
  readonly rowGive: (row: number) => number;
  /** Size of one unit of give of a column's bound; 0 keeps it hard. */
  readonly boundGive: (column: number, side: 'low' | 'high') => number;
}

interface DraftRow {
  readonly origin: number;
  readonly at: (column: number) => number;
  readonly low: number;
  readonly high: number;
  readonly gives: readonly Give[];
}

/**
 * The elastic program: every soft side may give way at a cost of 1 a unit of give, and nothing else costs anything
 * (Chinneck, Feasibility and Infeasibility in Optimization, 2008, ch. 6, from memory). Feasible whenever the hard
 * part is; its least total is 0 exactly when the program is feasible; its row prices are Farkas multipliers.
 */
export function elasticProgram(program: CheckedProgram, softness: Softness): ElasticProgram {
  const { rowCount, columnCount, matrix, low, high } = program;
  const lower = program.lower.slice();
  const upper = program.upper.slice();
  const drafts: DraftRow[] = [];
  for (let i = 0; i < rowCount; i++) {
    const at = (j: number): number => matrix[i * columnCount + j]!;
    const size = softness.rowGive(i);
    const sides = (['low', 'high'] as const).filter((side) => Number.isFinite(side === 'low' ? low[i]! : high[i]!));
    const gives = size > 0 ? sides.map((side): Give => ({ kind: 'row', index: i, side, size })) : [];
    if (low[i]! <= high[i]! || size <= 0) drafts.push({ origin: i, at, low: low[i]!, high: high[i]!, gives });
    else {
      drafts.push({ origin: i, at, low: low[i]!, high: Number.POSITIVE_INFINITY, gives: gives.slice(0, 1) });
      drafts.push({ origin: i, at, low: Number.NEGATIVE_INFINITY, high: high[i]!, gives: gives.slice(1) });
    }
  }
  for (let j = 0; j < columnCount; j++) {
    for (const side of ['low', 'high'] as const) {
      const bounds = side === 'low' ? lower : upper;
      const bound = bounds[j]!;
      const size = Number.isFinite(bound) ? softness.boundGive(j, side) : 0;
      if (size <= 0) continue;
      const open = side === 'low' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
      bounds[j] = open;
      drafts.push({
        origin: -1,
        at: (k) => (k === j ? 1 : 0),
        low: side === 'low' ? bound : Number.NEGATIVE_INFINITY,
        high: side === 'high' ? bound : Number.POSITIVE_INFINITY,
        gives: [{ kind: 'column', index: j, side, size }],
      });
    }
  }
  return assemble(program, drafts, lower, upper);
}

function assemble(
  program: CheckedProgram,
  drafts: readonly DraftRow[],
  lower: Float64Array,
  upper: Float64Array,
): ElasticProgram {
  const { columnCount } = program;
  const gives = drafts.flatMap((draft) => draft.gives);
  const width = columnCount + gives.length;
  const matrix = new Float64Array(drafts.length * width);
  let next = columnCount;
  drafts.forEach((draft, r) => {
    for (let j = 0; j < columnCount; j++) matrix[r * width + j] = draft.at(j);
    for (const give of draft.gives) matrix[r * width + next++] = give.side === 'low' ? give.size : -give.size;
  });
  const extended = (bounds: Float64Array, extra: number): Float64Array => {
    const all = new Float64Array(width).fill(extra);
    all.set(bounds);
    return all;
  };
  return {
    program: {
      rowCount: drafts.length,
      columnCount: width,
      matrix,
      low: Float64Array.from(drafts, (draft) => draft.low),
      high: Float64Array.from(drafts, (draft) => draft.high),
      lower: extended(lower, 0),
      upper: extended(upper, Number.POSITIVE_INFINITY),
      cost: extended(new Float64Array(columnCount), 1),
      sign: 1,
      scale: new Float64Array(drafts.length).fill(1),
    },
    gives,
    rowOrigin: drafts.map((draft) => draft.origin),
    crossed: lower.some((from, j) => from > upper[j]!) || drafts.some((draft) => draft.low > draft.high),
  };
}

/** Row prices of the elastic program folded back onto the rows of the program it was made from. */
export function foldRows(elastic: ElasticProgram, prices: Float64Array, rowCount: number): Float64Array {
  const folded = new Float64Array(rowCount);
  elastic.rowOrigin.forEach((i, r) => {
    if (i >= 0) folded[i] = folded[i]! + prices[r]!;
  });
  return folded;
}
