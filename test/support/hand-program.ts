import { type CheckedProgram, checkProgram } from '../../src/core/optimise/lp/checked-program.js';
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

/** The same checked, a minimum; without an objective every point is as good. */
export const checkedOf = (
  columns: readonly Omit<Column, 'name'>[],
  rows: readonly Omit<Row, 'name'>[],
  objective: readonly number[] = columns.map(() => 0),
): CheckedProgram => checkProgram(programOf('min', objective, columns, rows));
