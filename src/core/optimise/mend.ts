import type { BlendProgram } from './blend-program.js';
import type { LinearProgram, Row } from './lp/types.js';
import { NO_SIZE } from './rows.js';

/** How far inside its limits a mended blend is put, in shares of the row's size: beyond the solver's tolerance, below any scale. */
const INSIDE = 3e-5;

/**
 * The blend nearest to a given one that keeps all rows: least sum of moves, each in shares of what is there.
 * A few of these steps take a blend that misses a curved limit by a hair onto it (Newton's method on the rows).
 *
 * Columns of the answer: first the blend x, then how far each that is there goes down, d >= at - x; it goes up by
 * x - at + d, so the moves are x + 2 d but for a constant.
 */
export function mendingProgram(program: BlendProgram, at: readonly number[]): LinearProgram {
  const n = program.columns.length;
  const total = at.reduce((s, g) => s + g, 0);
  const size = (i: number) => Math.max(at[i]!, 1e-3 * total);
  const there = at.flatMap((g, i) => (g > 0 ? [i] : []));
  const zeros = new Array<number>(there.length).fill(0);
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
  there.forEach((i, k) => {
    const coefficients = new Array<number>(n + there.length).fill(0);
    coefficients[i] = 1;
    coefficients[n + k] = 1;
    rows.push({ name: `move ${i}`, coefficients, low: at[i]!, scale: size(i) });
  });
  return {
    columns: [...program.columns, ...there.map((i) => ({ name: `${program.columns[i]!.name} down` }))],
    rows,
    sense: 'min',
    objective: [...program.columns.map((_c, i) => 1 / size(i)), ...there.map((i) => 2 / size(i))],
  };
}
