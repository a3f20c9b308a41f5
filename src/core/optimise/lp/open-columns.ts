import type { LinearProgram } from './types.js';

export interface Narrowed {
  readonly program: LinearProgram;
  /** A point of the narrowed program as one of the whole. */
  readonly widen: (x: readonly number[]) => number[];
}

/** The program without the columns that can only be zero: a long shelf has many, and each node of a search carries them. */
export function openColumns(program: LinearProgram): Narrowed {
  const open = program.columns.flatMap(({ lower = 0, upper = Number.POSITIVE_INFINITY }, j) =>
    lower === 0 && upper === 0 ? [] : [j],
  );
  const picked = <T>(list: readonly T[]): T[] => open.map((j) => list[j]!);
  return {
    program: {
      ...program,
      columns: picked(program.columns),
      objective: picked(program.objective),
      rows: program.rows.map((row) => ({ ...row, coefficients: picked(row.coefficients) })),
    },
    widen: (x) => {
      const whole = new Array<number>(program.columns.length).fill(0);
      open.forEach((j, k) => {
        whole[j] = x[k]!;
      });
      return whole;
    },
  };
}
