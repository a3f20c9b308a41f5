import { describe, expect, it } from 'vitest';
import { priceByResolve } from '../../../src/core/optimise/lp/prices.js';
import type { LinearProgram, Row } from '../../../src/core/optimise/lp/types.js';

/** Which side of a row is moved, by the size of what moving it does. */
const endless = Number.POSITIVE_INFINITY;
const of = (row: Omit<Row, 'name' | 'coefficients'>, sense: 'min' | 'max', ...others: Row[]): LinearProgram => ({
  columns: [{ name: 'x', upper: 20 }],
  rows: [{ name: 'moved', coefficients: [1], ...row }, ...others],
  sense,
  objective: [2],
});
const atLeast = (low: number): Row => ({ name: 'at least', coefficients: [1], low });

describe('the side that is moved', () => {
  it('is the one that binds: the low side of a minimum, the high side of a maximum, both of an equality', () => {
    const close = (program: LinearProgram) => {
      const price = priceByResolve(program, 0, 1)!;
      return [price.left, price.right].map((value) => Math.round(value! * 1e6) / 1e6);
    };
    expect(close(of({ low: 3, high: 9 }, 'min'))).toEqual([2, 2]);
    expect(close(of({ low: 3, high: 9 }, 'max'))).toEqual([2, 2]);
    expect(close(of({ low: 5, high: 5 }, 'min'))).toEqual([2, 2]);
    expect(close(of({ low: 5, high: 5 }, 'max'))).toEqual([2, 2]);
    const costs = { ...of({ low: 3, high: 9 }, 'max'), objective: [-2] };
    expect(close(costs)).toEqual([-2, -2]);
    expect(close({ ...costs, sense: 'min' })).toEqual([-2, -2]);
  });

  it('is the low one if none binds, the high one if there is no low one', () => {
    // x is 5 by the other row. Moved up by 6 the low side 1 becomes 7, which costs 4; the high side 9 is never felt.
    const loose = of({ low: 1, high: 9 }, 'min', atLeast(5));
    expect(priceByResolve(loose, 0, 6)).toEqual({ left: 0, right: 4 / 6 });
    expect(priceByResolve(loose, 0, 6, 'high')).toEqual({ left: undefined, right: 0 });
    for (const row of [{ high: 9 }, { low: -endless, high: 9 }]) {
      expect(priceByResolve(of(row, 'min', atLeast(5)), 0, 6)).toEqual({ left: undefined, right: 0 });
    }
  });

  it('has to be there', () => {
    const loose = of({ low: 1 }, 'min', atLeast(5));
    expect(priceByResolve(loose, 0, 1, 'high')).toBeUndefined();
    expect(priceByResolve(of({ low: 1, high: endless }, 'min'), 0, 1, 'high')).toBeUndefined();
    expect(priceByResolve(of({}, 'min', atLeast(5)), 0, 1)).toBeUndefined();
  });

  it('may leave no optimum: to the right nothing of x is left', () => {
    const price = priceByResolve(of({ low: 20 }, 'min'), 0, 1)!;
    expect(price.left).toBeCloseTo(2, 9);
    expect(price.right).toBeUndefined();
  });
});

it('a step that is none and a row that is none are refused with what was found', () => {
  expect(() => priceByResolve(of({}, 'min'), 0, 0)).toThrow(new TypeError('step must be positive, found 0'));
  expect(() => priceByResolve(of({}, 'min'), 0, Number.NaN)).toThrow(new TypeError('step must be positive, found NaN'));
  expect(() => priceByResolve(of({}, 'min'), 1, 1)).toThrow(new TypeError('row 1 does not exist, 1 rows given'));
});
