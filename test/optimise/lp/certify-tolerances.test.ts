import { describe, expect, it } from 'vitest';
import { certifyInfeasible, certifyOptimum, certifyPoint, certifyRay } from '../../../src/core/optimise/lp/certify.js';
import type { Column, Row } from '../../../src/core/optimise/lp/types.js';
import { checkedOf as program } from '../../support/hand-program.js';

/** How much certificates forgive: 1e-9 of the terms, whatever the unit, and what double arithmetic needs. */

const of = (...values: number[]) => Float64Array.from(values);
const free = { lower: Number.NEGATIVE_INFINITY };

describe('a point', () => {
  it('may miss a side by a billionth of it and of the terms, in any unit', () => {
    for (const size of [1e-6, 1, 1e6]) {
      const above = program([{}], [{ coefficients: [1], low: size }]);
      expect(certifyPoint(above, of(size * (1 - 1.5e-9)))).toBeDefined();
      expect(certifyPoint(above, of(size * (1 - 3e-9)))).toBeUndefined();
      const below = program([{}], [{ coefficients: [1], high: size }]);
      expect(certifyPoint(below, of(size * (1 + 1.5e-9)))).toBeDefined();
      expect(certifyPoint(below, of(size * (1 + 3e-9)))).toBeUndefined();
      const terms = program([{}, {}], [{ coefficients: [1, -1], high: 0 }]);
      expect(certifyPoint(terms, of(size * (1 + 1.5e-9), size))).toBeDefined();
      expect(certifyPoint(terms, of(size * (1 + 3e-9), size))).toBeUndefined();
    }
  });

  it('may miss by what rounding makes of the largest amount, though the row has no part in it', () => {
    // 1e-13 of a million times the row's largest coefficient.
    const beside = (coefficient: number, low: number) =>
      certifyPoint(program([{}, {}, {}], [{ coefficients: [coefficient, 0, coefficient / 9], low }]), of(0, 1e6, 0));
    expect(beside(1, 5e-8)).toBeDefined();
    expect(beside(1, 2e-7)).toBeUndefined();
    expect(beside(100, 5e-6)).toBeDefined();
    expect(beside(100, 2e-5)).toBeUndefined();
  });

  it('is on the bound it misses by rounding alone, and otherwise where it is', () => {
    const bounded = program([{ lower: 1, upper: 2 }], []);
    expect(certifyPoint(bounded, of(2 + 1e-13))).toEqual(of(2));
    expect(certifyPoint(bounded, of(2 - 1e-13))).toEqual(of(2));
    expect(certifyPoint(bounded, of(1 + 0.5e-13))).toEqual(of(1));
    expect(certifyPoint(bounded, of(1.5))).toEqual(of(1.5));
  });

  it('has to be a number in each column, though no row asks', () => {
    expect(certifyPoint(program([free], []), of(Number.NaN))).toBeUndefined();
    expect(certifyPoint(program([free], []), of(Number.POSITIVE_INFINITY))).toBeUndefined();
    // 1e308 + 1e308 - 2e308 is no number, and no row can be said to hold.
    expect(certifyPoint(program([{}, {}], [{ coefficients: [2, -2], high: 1 }]), of(1e308, 1e308))).toBeUndefined();
  });
});

it('prices of which one is no number prove what none prove', () => {
  const least = program([{ lower: 1 }], [{ coefficients: [1], low: 0 }], [2]);
  for (const price of [Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(certifyOptimum(least, of(1), of(price))?.rowPrices).toEqual(of(0));
    expect(certifyInfeasible(program([{ upper: 1 }], [{ coefficients: [1], low: 2 }]), of(price))).toBeUndefined();
  }
});

it('a cost beyond the largest number, or the difference of two such, is no optimum', () => {
  const dear = (objective: number[]) => program([{ lower: 10 }, { lower: 10, upper: 20 }], [], objective);
  expect(certifyOptimum(dear([1e307, 1e306]), of(10, 10), of())).toBeDefined();
  expect(certifyOptimum(dear([1e308, 0]), of(10, 10), of())).toBeUndefined();
  expect(certifyOptimum(dear([1e308, -1e308]), of(10, 20), of())).toBeUndefined();
});

describe('a contradiction', () => {
  it('has to be larger than a billionth of the terms it is made of, those of the bounds too', () => {
    for (const size of [1e-6, 1, 1e6]) {
      const by = (margin: number) =>
        certifyInfeasible(program([{ upper: size * (1 - margin) }], [{ coefficients: [3], low: 3 * size }]), of(2));
      expect(by(1.5e-9)).toBeUndefined();
      expect(by(3e-9)).toEqual({ rowProof: of(2), columnProof: of(-6) });
    }
  });

  it('is not blurred by the bounds of a column that cancels', () => {
    const wide = { lower: -1e12, upper: 1e12 };
    const rows = [
      { coefficients: [1, 1], low: 10 },
      { coefficients: [1, 1], high: 9 },
    ];
    expect(certifyInfeasible(program([wide, wide], rows), of(1, -1))).toBeDefined();
  });

  // x + y >= 1 against x + (1 - dust) y <= 1/2: only a y of 1 / (2 dust) meets both.
  const dusty = (dust: number, columns: Omit<Column, 'name'>[] = [], rows: Omit<Row, 'name'>[] = []) => {
    const none = columns.map(() => 0);
    const stated = program(
      [free, {}, ...columns],
      [
        { coefficients: [1, 1, ...none], low: 1 },
        { coefficients: [1, 1 - dust, ...none], high: 0.5 },
        ...rows.map((row) => ({ ...row, coefficients: [0, 0, ...row.coefficients] })),
      ],
    );
    return certifyInfeasible(stated, of(3, -3, ...rows.map(() => 0)));
  };

  it('may leave dust on an open column, a billionth of its terms', () => {
    expect(dusty(1e-9)).toBeDefined();
    expect(dusty(1e-8)).toBeUndefined();
  });

  it('has to stand for amounts a hundred times as large as any the program speaks of', () => {
    // The dust of 1e-9 times 100 times 1e7 is 1, more than the half that is missing.
    expect(dusty(1e-9, [{ upper: 4e6 }])).toBeDefined();
    expect(dusty(1e-9, [{ upper: 1e7 }])).toBeUndefined();
    expect(dusty(1e-9, [{ lower: -1e7, upper: 1 }])).toBeUndefined();
    for (const coefficient of [1e-4, 1, 1e4]) {
      const row = (size: number) => ({ coefficients: [coefficient / 3, -coefficient], high: coefficient * size });
      expect(dusty(1e-9, [{}, {}], [row(4e6)])).toBeDefined();
      expect(dusty(1e-9, [{}, {}], [row(1e7)])).toBeUndefined();
      expect(dusty(1e-9, [{}, {}], [{ coefficients: row(0).coefficients, low: -coefficient * 1e7 }])).toBeUndefined();
    }
  });

  it('is not weakened by what a row of zeros speaks of', () => {
    expect(dusty(1e-9, [{}], [{ coefficients: [0], high: 1e12 }])).toBeDefined();
  });

  it('may leave on an open column what rounds away beside the heaviest', () => {
    const slight = (part: number) =>
      certifyInfeasible(
        program(
          [free, {}],
          [
            { coefficients: [1, part], low: 1 },
            { coefficients: [1, 0], high: 0.5 },
          ],
        ),
        of(1, -1),
      );
    expect(slight(1e-13)).toBeDefined();
    expect(slight(4e-13)).toBeUndefined();
  });
});

describe('a ray', () => {
  const gains = [-1, 0];
  const along = (rows: Omit<Row, 'name'>[], direction = of(1, 1), objective = gains) =>
    certifyRay(program([{}, {}], rows, objective), of(0, 0), direction);

  it('may run along a row, and off it by a billionth of the terms, in any unit', () => {
    for (const size of [1e-6, 1, 1e6]) {
      const row = (off: number) => [size, -size * (1 + off)];
      const other = { coefficients: [1, 0], low: 0 };
      expect(along([other, { coefficients: row(0), low: 0, high: 0 }])).toBeDefined();
      expect(along([other, { coefficients: row(1.5e-9), low: 0 }])).toBeDefined();
      expect(along([other, { coefficients: row(3e-9), low: 0 }])).toBeUndefined();
      expect(along([other, { coefficients: row(-1.5e-9), high: 0 }])).toBeDefined();
      expect(along([other, { coefficients: row(-3e-9), high: 0 }])).toBeUndefined();
    }
  });

  it('has to gain more than a billionth of the terms', () => {
    for (const size of [1e-6, 1, 1e6]) {
      expect(along([], of(1, 1), [size, -size * (1 + 3e-9)])).toBeDefined();
      expect(along([], of(1, 1), [size, -size * (1 + 1.5e-9)])).toBeUndefined();
      expect(along([], of(1, 1), [size, -size])).toBeUndefined();
    }
  });

  it('loses its noise whatever its length', () => {
    for (const length of [1e-6, 1, 1e6]) {
      const held = (noise: number) =>
        certifyRay(program([{}, { upper: 1 }], [], gains), of(0, 0), of(length, length * noise))?.ray;
      expect(held(5e-12)).toEqual(of(1, 0));
      expect(held(2e-11)).toBeUndefined();
    }
  });

  it('has to be a number in each column and to begin at a point', () => {
    const open = program([free, free], [], gains);
    for (const odd of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(certifyRay(open, of(0, 0), of(1, odd))).toBeUndefined();
      expect(certifyRay(open, of(0, odd), of(1, 0))).toBeUndefined();
    }
    expect(certifyRay(open, of(0, 0), of(0, 0))).toBeUndefined();
  });
});
