import type { Given, Quantity } from '../oracle.js';
import { factorOf } from '../units.js';

/** Takes what an example gives and returns its results in core units (words stay words). */
export type Run = (given: Given) => Readonly<Record<string, number | string>>;

const isQuantity = (value: unknown): value is Quantity =>
  typeof value === 'object' && value !== null && 'unit' in value;

/** A given number in core units. */
export function number(given: Given, key: string): number {
  const value = given[key];
  if (typeof value === 'number') return value;
  if (isQuantity(value)) return value.value * factorOf(value.unit);
  throw new RangeError(`"${key}" is not a given number`);
}

/** A given number, or what stands in when the example does not give it. */
export const numberOr = (given: Given, key: string, otherwise: number): number =>
  given[key] === undefined ? otherwise : number(given, key);

/** A given list of numbers in core units. */
export function numbers(given: Given, key: string): number[] {
  const value = given[key];
  if (!Array.isArray(value)) throw new RangeError(`"${key}" is not a given list`);
  return value.map((v: number | Quantity) => (isQuantity(v) ? v.value * factorOf(v.unit) : v));
}

/** A given word. */
export function word(given: Given, key: string): string {
  const value = given[key];
  if (typeof value !== 'string') throw new RangeError(`"${key}" is not a given word`);
  return value;
}
