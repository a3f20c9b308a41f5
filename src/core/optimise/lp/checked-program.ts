import type { LinearProgram } from './types.js';

/**
 * A linear program after its checks, in flat arrays, always a minimisation:
 * min cost·x, low <= A x <= high, lower <= x <= upper.
 */
export interface CheckedProgram {
  readonly rowCount: number;
  readonly columnCount: number;
  /** A, row by row. */
  readonly matrix: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly cost: Float64Array;
  /** 1 if the stated program minimises, -1 if it maximises. */
  readonly sign: 1 | -1;
  /** Natural size of each row's right side. */
  readonly scale: Float64Array;
  /** Set when a low side lies above its high side: nothing is left to solve. */
  readonly crossed?: { readonly row: number } | { readonly column: number };
}

/** Two sides closer than this (relative) and the wrong way round are one side blurred by rounding. */
const ROUNDING = 1e-12;

/** Natural size of a row's right side when the row states none. */
export function naturalScale(low: number, high: number): number {
  const sides = [low, high].filter(Number.isFinite).map(Math.abs);
  return Math.max(...sides, 0.01);
}

/**
 * Checks a program and flattens it.
 * @throws TypeError on a length that does not fit, a number that is not finite, or a side that is not a number
 * (a caller's mistake, never a maker's).
 */
export function checkProgram(program: LinearProgram): CheckedProgram {
  const columnCount = program.columns.length;
  const rowCount = program.rows.length;
  if (program.sense !== 'min' && program.sense !== 'max') {
    throw new TypeError(`sense must be 'min' or 'max', found '${String(program.sense)}'`);
  }
  const sign = program.sense === 'min' ? 1 : -1;
  checkVector('objective', program.objective, columnCount);

  const matrix = new Float64Array(rowCount * columnCount);
  const low = new Float64Array(rowCount);
  const high = new Float64Array(rowCount);
  const scale = new Float64Array(rowCount);
  const lower = new Float64Array(columnCount);
  const upper = new Float64Array(columnCount);
  let crossed: CheckedProgram['crossed'];

  program.columns.forEach((column, j) => {
    const label = `column ${j} (${column.name})`;
    const [from, to] = checkSides(label, column.lower ?? 0, column.upper ?? Number.POSITIVE_INFINITY);
    lower[j] = from;
    upper[j] = to;
    if (from > to) crossed ??= { column: j };
  });
  program.rows.forEach((row, i) => {
    const label = `row ${i} (${row.name})`;
    checkVector(label, row.coefficients, columnCount);
    matrix.set(row.coefficients, i * columnCount);
    const [from, to] = checkSides(label, row.low ?? Number.NEGATIVE_INFINITY, row.high ?? Number.POSITIVE_INFINITY);
    low[i] = from;
    high[i] = to;
    if (from > to) crossed ??= { row: i };
    if (row.scale !== undefined && !(row.scale > 0 && Number.isFinite(row.scale))) {
      throw new TypeError(`${label}: scale must be a positive number, found ${row.scale}`);
    }
    scale[i] = row.scale ?? naturalScale(from, to);
  });

  const cost = Float64Array.from(program.objective, (c) => sign * c);
  const checked = { rowCount, columnCount, matrix, low, high, lower, upper, cost, sign, scale } as const;
  return crossed === undefined ? checked : { ...checked, crossed };
}

/** The same program with other column bounds (for branching); the bounds must not be crossed. */
export function withBounds(program: CheckedProgram, lower: Float64Array, upper: Float64Array): CheckedProgram {
  return { ...program, lower, upper };
}

/** No minus zero in answers. */
export function unsigned(value: number): number {
  return value === 0 ? 0 : value;
}

function checkVector(label: string, values: readonly number[], length: number): void {
  if (values.length !== length) {
    throw new TypeError(`${label}: ${values.length} coefficients, expected ${length}, one a column`);
  }
  for (let j = 0; j < length; j++) {
    if (!Number.isFinite(values[j])) {
      throw new TypeError(`${label}: coefficient ${j} is ${values[j]}, expected a finite number`);
    }
  }
}

function checkSides(label: string, from: number, to: number): [number, number] {
  if (typeof from !== 'number' || Number.isNaN(from) || from === Number.POSITIVE_INFINITY) {
    throw new TypeError(`${label}: low side is ${from}, expected a number or -Infinity`);
  }
  if (typeof to !== 'number' || Number.isNaN(to) || to === Number.NEGATIVE_INFINITY) {
    throw new TypeError(`${label}: high side is ${to}, expected a number or Infinity`);
  }
  if (from > to && from - to <= ROUNDING * Math.max(Math.abs(from), Math.abs(to))) {
    const middle = to + (from - to) / 2;
    return [middle, middle];
  }
  return [from, to];
}
