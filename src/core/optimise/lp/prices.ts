import { solveLp } from './solve.js';
import type { LinearProgram, Row } from './types.js';

export interface ResolvedPrice {
  /** (optimum - optimum with the side moved down by the step) / step; undefined if that has no optimum. */
  readonly left: number | undefined;
  /** (optimum with the side moved up by the step - optimum) / step; undefined if that has no optimum. */
  readonly right: number | undefined;
}

/**
 * The price of a row's side found by solving again with the side moved a step each way: the two differ where the
 * optimum has a kink, and then the dual price lies between them. An equality moves as a whole; of a row with two
 * different sides the one that `side` names (default: the side that the dual price says binds, else the one that
 * exists). undefined if the program as stated has no certified optimum, or the row no such side.
 * @throws TypeError on a malformed program or a step that is not positive.
 */
export function priceByResolve(
  program: LinearProgram,
  row: number,
  step: number,
  side?: 'low' | 'high',
): ResolvedPrice | undefined {
  if (!(step > 0)) throw new TypeError(`step must be positive, found ${step}`);
  const stated = program.rows[row];
  if (stated === undefined) throw new TypeError(`row ${row} does not exist, ${program.rows.length} rows given`);
  const at = solveLp(program);
  if (at.status !== 'optimal') return undefined;
  const which = side ?? bindingSide(stated, at.rowPrices[row]!, program.sense);
  if (!Number.isFinite(stated[which] ?? Number.NaN)) return undefined;
  const optimumAt = (shift: number): number | undefined => {
    const rows = program.rows.map((r, i) => (i === row ? moved(r, which, shift) : r));
    const answer = solveLp({ ...program, rows });
    return answer.status === 'optimal' ? answer.objective : undefined;
  };
  const below = optimumAt(-step);
  const above = optimumAt(step);
  return {
    left: below === undefined ? undefined : (at.objective - below) / step,
    right: above === undefined ? undefined : (above - at.objective) / step,
  };
}

/** In a minimum a positive price presses on the low side; in a maximum it is the high side that holds one back. */
function bindingSide(row: Row, price: number, sense: 'min' | 'max'): 'low' | 'high' {
  const exists = row.low === undefined || row.low === Number.NEGATIVE_INFINITY ? 'high' : 'low';
  if (price === 0) return exists;
  return price > 0 === (sense === 'min') ? 'low' : 'high';
}

function moved(row: Row, side: 'low' | 'high', shift: number): Row {
  if (row.low === row.high) return { ...row, low: row.low! + shift, high: row.high! + shift };
  return { ...row, [side]: row[side]! + shift };
}
