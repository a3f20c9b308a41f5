import type { CheckedProgram } from './checked-program.js';

/** The least and the most that a row can come to with these columns within their bounds and all others at zero. */
export function rowReach(
  { matrix, columnCount, lower, upper }: CheckedProgram,
  row: number,
  columns: readonly number[],
): { least: number; most: number } {
  let least = 0;
  let most = 0;
  const offset = row * columnCount;
  for (let k = 0; k < columns.length; k++) {
    const j = columns[k]!;
    const a = matrix[offset + j]!;
    // Zero times an endless bound is not a number.
    if (a === 0) continue;
    const low = a * lower[j]!;
    const high = a * upper[j]!;
    least += a > 0 ? low : high;
    most += a > 0 ? high : low;
  }
  return { least, most };
}

/** The largest coefficient of a row by size, of the columns that can move; 0 where none has any. */
export function largestCoefficient({ matrix, columnCount, lower, upper }: CheckedProgram, row: number): number {
  let most = 0;
  for (let j = 0, at = row * columnCount; j < columnCount; j++, at++) {
    const size = Math.abs(matrix[at]!);
    if (size > most && lower[j] !== upper[j]) most = size;
  }
  return most;
}
