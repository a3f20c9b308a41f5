import type { CheckedProgram } from './checked-program.js';

/**
 * Factors, all powers of two so that scaling itself rounds nothing: x[j] = unit * column[j] * (scaled x[j]), and
 * row i is multiplied by row[i]. The pivot engine's tolerances are absolute, so it must see numbers of size one.
 */
export interface Scaling {
  readonly row: Float64Array;
  readonly column: Float64Array;
  readonly unit: number;
}

export type ScalingMethod = 'rows' | 'geometric';

/** Passes of the geometric method; more change little. */
const PASSES = 2;

/**
 * 'rows': columns as they are (all amounts share one unit); 'geometric': each row, then each column, divided by
 * the root of its largest times its smallest coefficient, a few times over (Fulkerson and Wolfe, SIAM Review 4
 * (1962) 142-146, from memory). Both end with each row's largest coefficient near 1.
 */
export function scaleProgram(program: CheckedProgram, method: ScalingMethod): Scaling {
  const { rowCount, columnCount } = program;
  const row = new Float64Array(rowCount).fill(1);
  const column = new Float64Array(columnCount).fill(1);
  if (method === 'geometric') for (let pass = 0; pass < PASSES; pass++) geometricPass(program, row, column);
  for (let j = 0; j < columnCount; j++) column[j] = powerOfTwo(column[j]!);
  largestToOne(program, row, column);
  return { row, column, unit: unitOf(program, row, column) };
}

function geometricPass({ rowCount, columnCount, matrix }: CheckedProgram, row: Float64Array, column: Float64Array) {
  const most = new Float64Array(columnCount);
  const least = new Float64Array(columnCount).fill(Number.POSITIVE_INFINITY);
  for (let i = 0; i < rowCount; i++) {
    const offset = i * columnCount;
    let rowMost = 0;
    let rowLeast = Number.POSITIVE_INFINITY;
    for (let j = 0; j < columnCount; j++) {
      const a = matrix[offset + j]!;
      if (a === 0) continue;
      const size = Math.abs(a) * column[j]!;
      // Too small for a number.
      if (size === 0) continue;
      if (size > rowMost) rowMost = size;
      if (size < rowLeast) rowLeast = size;
    }
    if (rowMost === 0) continue;
    const factor = 1 / Math.sqrt(rowMost * rowLeast);
    row[i] = factor;
    for (let j = 0; j < columnCount; j++) {
      const a = matrix[offset + j]!;
      if (a === 0) continue;
      const size = Math.abs(a) * factor;
      if (size > most[j]!) most[j] = size;
      if (size < least[j]!) least[j] = size;
    }
  }
  for (let j = 0; j < columnCount; j++) if (most[j]! > 0) column[j] = 1 / Math.sqrt(most[j]! * least[j]!);
}

function largestToOne({ rowCount, columnCount, matrix }: CheckedProgram, row: Float64Array, column: Float64Array) {
  for (let i = 0; i < rowCount; i++) {
    const offset = i * columnCount;
    let most = 0;
    for (let j = 0; j < columnCount; j++) {
      const a = matrix[offset + j]!;
      if (a === 0) continue;
      const size = Math.abs(a) * column[j]!;
      if (size > most) most = size;
    }
    row[i] = most === 0 ? 1 : 1 / powerOfTwo(most);
  }
}

/** The common unit of the amounts: brings the largest right side to size one. */
function unitOf(program: CheckedProgram, row: Float64Array, column: Float64Array): number {
  const { rowCount, columnCount, low, high, lower, upper } = program;
  let most = 0;
  const look = (size: number): void => {
    if (Number.isFinite(size) && Math.abs(size) > most) most = Math.abs(size);
  };
  for (let i = 0; i < rowCount; i++) {
    look(row[i]! * low[i]!);
    look(row[i]! * high[i]!);
  }
  if (most === 0) {
    for (let j = 0; j < columnCount; j++) {
      look(lower[j]! / column[j]!);
      look(upper[j]! / column[j]!);
    }
  }
  return most === 0 ? 1 : powerOfTwo(most);
}

/** The power of two next to a positive number (by its logarithm). */
export function powerOfTwo(value: number): number {
  return 2 ** Math.round(Math.log2(value));
}
