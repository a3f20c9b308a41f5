import type { Column, LinearProgram, Row } from '../../src/core/optimise/lp/types.js';

/** A program written by hand, its columns and rows named by their places. */
export const programOf = (
  sense: 'min' | 'max',
  objective: readonly number[],
  columns: readonly Omit<Column, 'name'>[],
  rows: readonly Omit<Row, 'name'>[],
): LinearProgram => ({
  columns: columns.map((c, j) => ({ name: `x${j}`, ...c })),
  rows: rows.map((r, i) => ({ name: `r${i}`, ...r })),
  sense,
  objective,
});
