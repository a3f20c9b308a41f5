import type { BlendProgram } from './blend-program.js';
import type { Column, LinearProgram, Row } from './lp/types.js';
import { NO_SIZE } from './rows.js';

/** How far inside its limits a mended blend is put, in shares of the row's size: beyond the solver's tolerance, below any scale. */
const INSIDE = 3e-5;

/**
 * The blend nearest to a given one that keeps all rows: least sum of moves, each in shares of what is there.
 * A few of these steps take a blend that misses a curved limit by a hair onto it (Newton's method on the rows).
 *
 * Columns of the answer: first the blend, then moves up, then moves down.
 */
export function mendingProgram(program: BlendProgram, at: readonly number[]): LinearProgram {
  const n = program.columns.length;
  const total = at.reduce((s, g) => s + g, 0);
  const size = (i: number) => Math.max(at[i]!, 1e-3 * total);
  const columns: Column[] = [
    ...program.columns,
    ...program.columns.map((c) => ({ name: `${c.name} up` })),
    ...program.columns.map((c) => ({ name: `${c.name} down` })),
  ];
  const zeros = new Array<number>(2 * n).fill(0);
  const rows: Row[] = program.rows.map((row, r) => {
    const { scale = 1 } = row;
    // A limit on what the blend lacks holds as it is, 0 against 0; a hair inside of it would ask for some.
    const inside = program.origins[r]!.kind === 'fixed' || scale <= NO_SIZE ? 0 : INSIDE * scale;
    return {
      ...row,
      coefficients: [...row.coefficients, ...zeros],
      ...(row.low === undefined ? {} : { low: row.low + inside }),
      ...(row.high === undefined ? {} : { high: row.high - inside }),
    };
  });
  for (let i = 0; i < n; i++) {
    const coefficients = new Array<number>(3 * n).fill(0);
    coefficients[i] = 1;
    coefficients[n + i] = -1;
    coefficients[2 * n + i] = 1;
    rows.push({ name: `move ${i}`, coefficients, low: at[i]!, high: at[i]!, scale: size(i) });
  }
  const objective = columns.map((_c, j) => (j < n ? 0 : 1 / size(j % n)));
  return { columns, rows, sense: 'min', objective };
}
