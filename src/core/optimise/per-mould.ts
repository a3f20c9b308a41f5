import { dot } from '../blend/world.js';
import type { LinearProgram, Row } from './lp/types.js';
import { lessShare } from './rows.js';

/** Share of what an objective's terms add up to below which their sum is dust: a slope that knows no amount. */
const NO_AMOUNT = 1e-9;

/**
 * A program whose blend may fill the mould a little more or less, as one of the mould full that is made of it: what goes
 * with the amount, a weight or a cost, is held to its share of the room that the blend takes (c·x <= X where v·x = V is
 * (c - X/V v)·x <= 0), which is the same for any filling. Ratios know no amount and stay as they are, and so does
 * the mould's own row, the first. The objective keeps its size in a column that is always one: a search for whole steps
 * is content by shares of it.
 *
 * grams: the blend at which the rows were made.
 */
export function perMould(linear: LinearProgram, grams: readonly number[]): LinearProgram {
  const [mould, ...others] = linear.rows;
  const less = (coefficients: readonly number[], amount: number): number[] =>
    lessShare({ numerator: coefficients, denominator: mould!.coefficients }, amount / mould!.low!);
  const rows = [mould!, ...others.map((row) => withoutAmount(row, less))];
  const whole = dot(linear.objective.slice(0, grams.length), grams);
  const size = grams.reduce((sum, g, i) => sum + Math.abs(linear.objective[i]! * g), 0);
  if (Math.abs(whole) <= NO_AMOUNT * size) return { ...linear, rows };
  return {
    columns: [...linear.columns, { name: 'a mould full', lower: 1, upper: 1 }],
    rows: rows.map((row) => ({ ...row, coefficients: [...row.coefficients, 0] })),
    sense: linear.sense,
    objective: [...less(linear.objective, whole), whole],
  };
}

/** Every row but the mould's has one side, or a zero on both. */
function withoutAmount(row: Row, less: (coefficients: readonly number[], amount: number) => number[]): Row {
  const { low, high } = row;
  const amount = low ?? high ?? 0;
  if (amount === 0) return row;
  const coefficients = less(row.coefficients, amount);
  return low === undefined ? { ...row, coefficients, high: 0 } : { ...row, coefficients, low: 0 };
}
