import fc from 'fast-check';
import { expect } from 'vitest';

/**
 * Runs a property over `runs` seeded cases and fails when fewer than `least` were really exercised: the check returns
 * true when it tested something and false when the case did not apply, so a guard that skips everything is noticed.
 */
export function property<T>(
  arbitrary: fc.Arbitrary<T>,
  check: (value: T) => boolean,
  runs = 300,
  least = runs * 0.9,
): void {
  let exercised = 0;
  fc.assert(
    fc.property(arbitrary, (value) => {
      if (check(value)) exercised++;
    }),
    { numRuns: runs, seed: 20240611 },
  );
  expect(exercised).toBeGreaterThanOrEqual(least);
}

/**
 * Numbers spread evenly between two ends, both included. fast-check's own `double` draws evenly over bit patterns, so
 * that nearly all draws from 0..100 are smaller than an atom.
 */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 1_000_000 }).map((i) => min + ((max - min) * i) / 1_000_000);
