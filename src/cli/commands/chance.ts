import { refuse } from '../../core/problems/problem.js';
import { parseQuantity } from '../../core/units/quantity.js';
import type { Call } from '../verb.js';

/** With 2,000 draws, more than this cannot be told apart from certainty. */
const MOST = 0.99;
const LEAST = 0.01;

/** A chance given as an option, such as 0.9 or "90 %", or undefined when it was not given. */
export function chanceAsked(call: Call, option: string): number | undefined {
  const word = call.options[option];
  if (word === undefined) return undefined;
  const where = { path: `--${option}` };
  const chance = parseQuantity(word, 'fraction', where, { assume: 'fraction' });
  if (chance >= LEAST && chance <= MOST) return chance;
  const expected = `a chance from ${LEAST} to ${MOST}, such as 0.9 or "90 %"`;
  return refuse({ code: 'option-invalid', where, found: String(word), expected });
}
