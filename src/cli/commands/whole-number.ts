import { refuse } from '../../core/problems/problem.js';
import type { Call } from '../verb.js';

/** A word as a whole number from 1 to `most`; null where it is none. */
export function wholeUpTo(word: string, most: number): number | null {
  const number = Number(word);
  return Number.isInteger(number) && number >= 1 && number <= most ? number : null;
}

/** A whole number from 1 to `most` given as an option such as "at-most", or undefined when it was not given. */
export function wholeNumber(call: Call, option: string, most: number): number | undefined {
  const key = option.replace(/-([a-z])/g, (_dash, letter: string) => letter.toUpperCase());
  const word = call.options[key];
  if (word === undefined) return undefined;
  const number = wholeUpTo(String(word), most);
  if (number !== null) return number;
  const expected = `a whole number from 1 to ${most}`;
  return refuse({ code: 'option-invalid', where: { path: `--${option}` }, found: String(word), expected });
}
