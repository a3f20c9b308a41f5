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
    least += a * (a > 0 ? lower[j]! : upper[j]!);
    most += a * (a > 0 ? upper[j]! : lower[j]!);
  }
  return { least, most };
}

/** The largest coefficient of a row by size; 0 for a row of zeros. */
export function largestCoefficient({ matrix, columnCount }: CheckedProgram, row: number): number {
  let most = 0;
  for (let at = row * columnCount; at < (row + 1) * columnCount; at++) most = Math.max(most, Math.abs(matrix[at]!));
  return most;
}
