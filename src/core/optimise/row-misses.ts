import { dot } from '../blend/world.js';
import type { Column, Row } from './lp/types.js';
import { AGREE } from './miss.js';

const outside = ({ low, high }: Row, value: number): number =>
  Math.max((low ?? Number.NEGATIVE_INFINITY) - value, value - (high ?? Number.POSITIVE_INFINITY));

/** How far a blend is on the wrong side of a row; negative inside. */
export const beyond = (row: Row, grams: readonly number[]): number => outside(row, dot(row.coefficients, grams));

/** Filling the mould stretches or shrinks a blend, maybe out of what it is held to: by how much, in shares of that. */
export const outOfBounds = (columns: readonly Column[], grams: readonly number[]): number =>
  columns.reduce((total, { lower = 0, upper = Number.POSITIVE_INFINITY }, i) => {
    const over = upper > 0 ? grams[i]! / upper - 1 : 0;
    const under = lower > 0 ? 1 - grams[i]! / lower : 0;
    const out = Math.max(over, under);
    return out > AGREE ? total + out : total;
  }, 0);

/** g that are nothing in a blend. */
const NOTHING = 1e-6;

/**
 * By how much a blend breaks rows that weigh one thing against another, in shares of what is weighed. Every step keeps
 * them, but a blend that a search is begun from may not: one that lost what a dose is a share of. Looks only at what the
 * blend holds, because of a long shelf that is next to nothing.
 */
export function outOfRows(rows: readonly Row[], grams: readonly number[]): number {
  const held: number[] = [];
  for (let i = 0; i < grams.length; i++) if (grams[i] !== 0) held.push(i);
  let total = 0;
  for (const row of rows) {
    let value = 0;
    let weighed = 0;
    for (const i of held) {
      const part = row.coefficients[i]! * grams[i]!;
      value += part;
      weighed += Math.abs(part);
    }
    const over = outside(row, value);
    if (over > NOTHING + (AGREE * weighed) / 2) total += (2 * over) / weighed;
  }
  return total;
}
