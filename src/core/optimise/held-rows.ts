import type { Row } from './lp/types.js';
import { beyond } from './row-misses.js';
import { DOSE_FIGURES } from './standing-limits.js';

/** Fixed rows, and the mould as it is filled, may be off by this share of their size: dust of arithmetic. */
export const ROW_DUST = 1e-6;

/** A fixed row, and how far it may be left. */
export interface Held {
  readonly row: Row;
  readonly give: number;
}

/**
 * A dose window or a share that a blend stands right at may be left by half a step, which is as near as the scale can
 * tell.
 */
const giveOfRow = ({ coefficients, low, high }: Row): number =>
  low === undefined || high === undefined ? Math.max(...coefficients.map(Math.abs)) / 2 : 0;

/** Fixed rows as a rounding is held to them; `strict`: none of them gives way to the steps. */
export const heldRows = (rows: readonly Row[], strict: boolean): Held[] =>
  rows.map((row) => ({ row, give: strict ? 0 : giveOfRow(row) }));

/** How far rows are missed at these steps, each in its size. */
export const broken = (rows: readonly Held[], steps: readonly number[]): number =>
  rows.reduce((total, { row, give }) => {
    const over = beyond(row, steps);
    const { scale = 1 } = row;
    return over > give + ROW_DUST * scale ? total + over / scale : total;
  }, 0);

/** Whether these steps leave a dose window or a share by more than its figures tell, be it less than half a step. */
export const pastWindows = (rows: readonly Held[], steps: readonly number[]): boolean =>
  rows.some(({ row }) => {
    const over = beyond(row, steps);
    if (over <= 0 || (row.low !== undefined && row.high !== undefined)) return false;
    const dose = row.coefficients.reduce((sum, c, k) => sum + Math.abs(c) * steps[k]!, 0) / 2;
    return over > DOSE_FIGURES * dose;
  });
