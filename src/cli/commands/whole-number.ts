import { refuse } from '../../core/problems/problem.js';
import type { Call } from '../verb.js';

/** A whole number from 1 to `most` given as an option such as "at-most", or undefined when it was not given. */
export function wholeNumber(call: Call, option: string, most: number): number | undefined {
  const key = option.replace(/-([a-z])/g, (_dash, letter: string) => letter.toUpperCase());
  const word = call.options[key];
  if (word === undefined) return undefined;
  const number = Number(word);
  if (Number.isInteger(number) && number >= 1 && number <= most) return number;
  const expected = `a whole number from 1 to ${most}`;
  return refuse({ code: 'option-invalid', where: { path: `--${option}` }, found: String(word), expected });
}
