import type { BlendProgram } from './blend-program.js';
import type { LinearProgram, Row } from './lp/types.js';
import { NO_SIZE } from './rows.js';
import { STANDING_PRICE } from './standing-limits.js';

/**
 * The nearest blend when no blend meets everything: each target and standing limit may be missed at a price per its
 * natural size, standing limits more dearly; volume, doses and binder rules must hold.
 *
 * Returns the linear program, whose first columns are those of the blend.
 */
export function nearestProgram(program: BlendProgram): LinearProgram {
  const columns = [...program.columns];
  const objective: number[] = program.columns.map(() => 0);
  const rows = program.rows.map((row): Row & { coefficients: number[] } => ({
    ...row,
    coefficients: [...row.coefficients],
  }));
  rows.forEach((row, r) => {
    const origin = program.origins[r]!;
    if (origin.kind === 'fixed') return;
    const size = row.scale ?? 1;
    // What the blend has nothing of cannot be missed in shares of itself: it would be bought at any price.
    if (size <= NO_SIZE) {
      rows[r] = { name: row.name, coefficients: row.coefficients };
      return;
    }
    const miss = columns.length;
    columns.push({ name: `miss ${row.name}` });
    // In units of the row's size, so that every target is missed in shares of itself.
    objective.push(origin.kind === 'standing' ? STANDING_PRICE : 1);
    const give = row.high === undefined ? size : -size;
    rows.forEach((other, o) => {
      other.coefficients[miss] = o === r ? give : 0;
    });
  });
  return { columns, rows, sense: 'min', objective };
}
