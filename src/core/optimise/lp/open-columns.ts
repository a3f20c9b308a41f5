import { type Column, type LinearProgram, type Row, rowWith } from './types.js';

/** The columns that can be anything but zero. */
export interface Open {
  readonly pick: <T>(list: ArrayLike<T>) => T[];
  readonly rows: (rows: readonly Row[]) => Row[];
  /** A point of the open columns as one of all. */
  readonly widen: (x: readonly number[]) => number[];
}

export function openAmong(columns: readonly Column[]): Open {
  const open = columns.flatMap(({ lower = 0, upper = Number.POSITIVE_INFINITY }, j) =>
    lower === 0 && upper === 0 ? [] : [j],
  );
  const pick = <T>(list: ArrayLike<T>): T[] => open.map((j) => list[j]!);
  return {
    pick,
    rows: (rows) => rows.map((row) => rowWith(row, pick(row.coefficients))),
    widen: (x) => {
      const whole = new Array<number>(columns.length).fill(0);
      open.forEach((j, k) => {
        whole[j] = x[k]!;
      });
      return whole;
    },
  };
}

export interface Narrowed extends Pick<Open, 'widen'> {
  readonly program: LinearProgram;
}

/** The program without the columns that can only be zero: a long shelf has many, and every pivot carries them. */
export function openColumns(program: LinearProgram): Narrowed {
  const { pick, rows, widen } = openAmong(program.columns);
  const { columns, objective, sense } = program;
  return { program: { columns: pick(columns), rows: rows(program.rows), sense, objective: pick(objective) }, widen };
}
