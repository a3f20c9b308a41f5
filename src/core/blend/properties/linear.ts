import { type Form, IDENTITY } from '../property.js';

/** A property that is a sum over the grams. */
export const linear = (numerator: readonly number[], constant = 0): Form => ({
  numerator,
  constant,
  denominator: null,
  link: IDENTITY,
});
