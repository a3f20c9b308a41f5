import { describe, expect, it } from 'vitest';
import { certifyInfeasible, certifyOptimum, certifyRay } from '../../../src/core/optimise/lp/certify.js';
import { checkedOf as program } from '../../support/hand-program.js';

/** Certificates that rest on column bounds and on each side of a row: what mutation testing found nothing to fail on. */

const of = (...values: number[]) => Float64Array.from(values);

describe('an optimum at a column bound', () => {
  it('is proven by a reduced cost of the bound’s own sign', () => {
    const most = program([{ upper: 4 }], [], [-2]);
    expect(certifyOptimum(most, of(4), of())?.reducedCosts).toEqual(of(-2));
    expect(certifyOptimum(most, of(3.999), of())).toBeUndefined();
    const least = program([{ lower: 1, upper: 4 }], [], [2]);
    expect(certifyOptimum(least, of(1), of())?.cost).toBe(2);
    expect(certifyOptimum(least, of(4), of())).toBeUndefined();
    expect(certifyOptimum(program([{}], [], [-2]), of(4), of())).toBeUndefined();
  });

  it('is not proven by a gap at a row and one at a bound that are equal', () => {
    // min x + y with x >= 1: at (2, 1) the row is off by 1 at its price of 1, and y by 1 at its reduced cost of 1.
    const both = program([{}, {}], [{ coefficients: [1, 0], low: 1 }], [1, 1]);
    expect(certifyOptimum(both, of(1, 0), of(1))).toBeDefined();
    expect(certifyOptimum(both, of(2, 1), of(1))).toBeUndefined();
  });
});

describe('what a column that cannot move costs', () => {
  const barred = { upper: 0 };
  it('does not hide that another point is cheaper', () => {
    const cheap = program([{}, {}, barred], [{ coefficients: [1, 1, 0], low: 1 }], [1e-8, 2e-8, 1e6]);
    expect(certifyOptimum(cheap, of(1, 0, 0), of(1e-8))?.cost).toBe(1e-8);
    expect(certifyOptimum(cheap, of(0, 1, 0), of(1e-8))).toBeUndefined();
  });

  it('does not make the prices of others noise, nor does what it would weigh in a row', () => {
    const twice = (heavy: number, dear: number) =>
      program(
        [{}, barred],
        [
          { coefficients: [1, heavy], high: 1 },
          { coefficients: [1, 0], high: 1 },
        ],
        [-1.6e-7, dear],
      );
    for (const [heavy, dear] of [
      [0, 0],
      [0, 1e6],
      [1e14, 0],
    ] as const) {
      expect(certifyOptimum(twice(heavy, dear), of(1, 0), of(-0.8e-7, -0.8e-7))?.cost).toBe(-1.6e-7);
    }
  });
});

describe('a contradiction that needs column bounds', () => {
  it('holds as far as the bounds reach, from above and from below', () => {
    const low = (upper: number) => program([{ upper }, { upper: 5 }], [{ coefficients: [1, 2], low: 15 }]);
    expect(certifyInfeasible(low(4), of(1))).toEqual({ rowProof: of(1), columnProof: of(-1, -2) });
    expect(certifyInfeasible(low(5), of(1))).toBeUndefined();
    const high = (lower: number) => program([{ lower }, { lower: 3 }], [{ coefficients: [1, 2], high: 7 }]);
    expect(certifyInfeasible(high(2), of(-1))).toEqual({ rowProof: of(-1), columnProof: of(1, 2) });
    expect(certifyInfeasible(high(1), of(-1))).toBeUndefined();
  });

  it('does not where a column has no bound on that side', () => {
    expect(certifyInfeasible(program([{}], [{ coefficients: [1], low: 15 }]), of(1))).toBeUndefined();
    expect(
      certifyInfeasible(program([{ lower: Number.NEGATIVE_INFINITY }], [{ coefficients: [1], high: -15 }]), of(-1)),
    ).toBeUndefined();
    // Nought is a bound like any other.
    expect(certifyInfeasible(program([{}], [{ coefficients: [1], high: -15 }]), of(-1))).toBeDefined();
  });

  it('does not where dust is left on a column without a bound: so small a part may be huge', () => {
    const rows = [
      { coefficients: [1, 1e-7], low: 1 },
      { coefficients: [1, 0], high: 1 - 1e-6 },
    ];
    expect(certifyInfeasible(program([{}, {}], rows), of(1, -1))).toBeUndefined();
  });
});

describe('a ray', () => {
  const gains = [-1, 0];
  it('is stopped by either side of a row and by either bound of a column', () => {
    expect(certifyRay(program([{}, {}], [], gains), of(0, 0), of(1, 0))).toBeDefined();
    expect(certifyRay(program([{ upper: 9 }, {}], [], gains), of(0, 0), of(1, 0))).toBeUndefined();
    expect(
      certifyRay(program([{}, {}], [{ coefficients: [1, 0], high: 9 }], gains), of(0, 0), of(1, 0)),
    ).toBeUndefined();
    expect(
      certifyRay(program([{}, {}], [{ coefficients: [-1, 0], low: -9 }], gains), of(0, 0), of(1, 0)),
    ).toBeUndefined();
    expect(certifyRay(program([{}, {}], [{ coefficients: [1, 0], low: -9 }], gains), of(0, 0), of(1, 0))).toBeDefined();
    expect(
      certifyRay(program([{}, {}], [{ coefficients: [-1, 0], high: 9 }], gains), of(0, 0), of(1, 0)),
    ).toBeDefined();
  });

  it('may go down a column that has no lower bound, and says how far each part goes for the largest', () => {
    const free = program([{ lower: Number.NEGATIVE_INFINITY }, {}], [], [1, 0]);
    expect(certifyRay(free, of(0, 0), of(-4, 2))?.ray).toEqual(of(-1, 0.5));
    expect(certifyRay(program([{}, {}], [], [1, 0]), of(0, 0), of(-4, 0))).toBeUndefined();
  });

  it('loses what pivoting leaves of a zero, and nothing else', () => {
    const held = program([{}, { upper: 1 }], [], gains);
    expect(certifyRay(held, of(0, 0), of(1, 1e-13))?.ray).toEqual(of(1, 0));
    expect(certifyRay(held, of(0, 0), of(1, 1e-6))).toBeUndefined();
    expect(certifyRay(held, of(0, 0), of(0, 0))).toBeUndefined();
    expect(certifyRay(held, of(0, 0), of(Number.NaN, 0))).toBeUndefined();
  });

  it('has to gain', () => {
    expect(certifyRay(program([{}, {}], [], [0, 0]), of(0, 0), of(1, 0))).toBeUndefined();
    expect(certifyRay(program([{}, {}], [], [1, 0]), of(0, 0), of(1, 0))).toBeUndefined();
  });
});
