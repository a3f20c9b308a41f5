import fc from 'fast-check';
import type { Grading } from '../../src/core/science/grading.js';
import { between } from './counting.js';

export const SIEVES = [4.75, 2.36, 1.18, 0.6, 0.3, 0.15, 0.075];

/** Gradings that fall from 100 to 0 over the sieves. */
export const grading: fc.Arbitrary<Grading> = fc
  .array(between(0.001, 1), { minLength: SIEVES.length, maxLength: SIEVES.length })
  .map((steps) => {
    const total = steps.reduce((a, b) => a + b, 0);
    let left = 100;
    return SIEVES.map((sieve, i) => {
      left -= i === 0 ? 0 : (100 * steps[i]!) / total;
      return { sieve, passing: i === 0 ? 100 : Math.max(0, left) };
    });
  });

export const COARSE: Grading = [
  { sieve: 4.75, passing: 100 },
  { sieve: 2.36, passing: 60 },
  { sieve: 1.18, passing: 10 },
  { sieve: 0.6, passing: 0 },
];
export const FINE: Grading = [
  { sieve: 1.18, passing: 100 },
  { sieve: 0.6, passing: 95 },
  { sieve: 0.3, passing: 40 },
  { sieve: 0.15, passing: 5 },
  { sieve: 0.075, passing: 0 },
];
