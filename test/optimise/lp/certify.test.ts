import { describe, expect, test } from 'vitest';
import { certifyInfeasible, certifyOptimum, certifyPoint, certifyRay } from '../../../src/core/optimise/lp/certify.js';
import { checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { solveLp } from '../../../src/core/optimise/lp/solve.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';
import { blendProgram } from '../../support/random-programs.js';
import { infeasibleFaults, optimalFaults } from '../../support/recheck.js';

// Hillier and Lieberman's prototype example (from memory): x = (2, 6), prices (0, 3/2, 1).
const works: LinearProgram = {
  columns: [{ name: 'doors' }, { name: 'windows' }],
  rows: [
    { name: 'plant 1', coefficients: [1, 0], high: 4 },
    { name: 'plant 2', coefficients: [0, 2], high: 12 },
    { name: 'plant 3', coefficients: [3, 2], high: 18 },
  ],
  sense: 'max',
  objective: [3, 5],
};
const checked = checkProgram(works);
const of = (...values: number[]) => Float64Array.from(values);

describe('an optimum is only certified when', () => {
  test('point and prices are those of the optimum', () => {
    const optimum = certifyOptimum(checked, of(2, 6), of(0, -1.5, -1));
    expect(optimum?.cost).toBe(-36);
    expect(Array.from(optimum?.reducedCosts ?? [])).toEqual([0, 0]);
  });

  test.each([
    ['a point that misses a row', of(2.001, 6), of(0, -1.5, -1)],
    ['a point that misses a row by a millionth', of(2 * (1 + 1e-6), 6), of(0, -1.5, -1)],
    ['a feasible point that is not best', of(2, 5.999), of(0, -1.5, -1)],
    ['a negative amount', of(-1, 6), of(0, -1.5, -1)],
    ['prices that prove too little', of(2, 6), of(0, -1.6, -1)],
    ['prices that leave a reduced cost of the wrong sign', of(2, 6), of(0, -1.4, -1)],
    ['prices of the wrong sign', of(2, 6), of(0, 1.5, 1)],
    ['a price on a row with room', of(2, 6), of(-3, -2.5, 0)],
    ['not a number', of(Number.NaN, 6), of(0, -1.5, -1)],
    ['an endless price', of(2, 6), of(0, Number.NEGATIVE_INFINITY, -1)],
  ])('refuses %s', (_, x, prices) => {
    expect(certifyOptimum(checked, x, prices)).toBeUndefined();
  });

  test('refuses huge prices that cancel: they may not buy a wider tolerance', () => {
    // 'again' almost repeats plant 3 from below; a price of a billion on both leaves a gap of a thousandth.
    const rows = [...works.rows, { name: 'again', coefficients: [3, 2], low: 18 - 1e-12 }];
    const program = checkProgram({ ...works, rows });
    expect(certifyOptimum(program, of(2, 6), of(0, -1.5, -1, 0))).toBeDefined();
    expect(certifyOptimum(program, of(2, 6), of(0, -1.5, -1 - 1e9, 1e9))).toBeUndefined();
  });

  test('rounding dust is taken off the point and the prices', () => {
    const optimum = certifyOptimum(checked, of(2, 6 + 1e-15), of(1e-17, -1.5, -1));
    expect(Array.from(optimum!.rowPrices)).toEqual([0, -1.5, -1]);
    expect(Array.from(certifyPoint(checked, of(-1e-14, 6))!)).toEqual([0, 6]);
  });
});

describe('infeasibility is only certified when', () => {
  const clash = checkProgram({
    ...works,
    rows: [...works.rows, { name: 'orders', coefficients: [1, 1], low: 11 }],
  });

  test('the multipliers contradict the rows', () => {
    // orders - (plant 1) - (plant 2)/2: 0 >= 11 - 4 - 6.
    expect(certifyInfeasible(clash, of(-1, -0.5, 0, 1))).toBeDefined();
  });

  test.each([
    ['multipliers that do not cancel', of(-1, -0.4, 0, 1)],
    ['multipliers on sides that are not there', of(1, 0.5, 0, -1)],
    ['no multipliers', of(0, 0, 0, 0)],
  ])('refuses %s', (_, multipliers) => {
    expect(certifyInfeasible(clash, multipliers)).toBeUndefined();
  });

  test('refuses multipliers that cancel but contradict nothing', () => {
    const rows = [...works.rows, { name: 'orders', coefficients: [1, 1], low: 10 }];
    expect(certifyInfeasible(checkProgram({ ...works, rows }), of(-1, -0.5, 0, 1))).toBeUndefined();
  });

  test('refuses a contradiction that is only rounding', () => {
    const rows = [
      { name: 'a', coefficients: [1, 1], low: 1 },
      { name: 'b', coefficients: [1, 1], high: 1 - 1e-12 },
    ];
    expect(certifyInfeasible(checkProgram({ ...works, rows }), of(1, -1))).toBeUndefined();
  });
});

test('a ray must stay feasible and gain', () => {
  const open = checkProgram({ ...works, rows: [{ name: 'r', coefficients: [1, -1], high: 2 }] });
  expect(certifyRay(open, of(0, 0), of(1, 1))).toBeDefined();
  expect(certifyRay(open, of(0, 0), of(1, 0))).toBeUndefined();
  expect(certifyRay(open, of(0, 0), of(-1, 1))).toBeUndefined();
  expect(certifyRay(open, of(3, 0), of(1, 1))).toBeUndefined();
  expect(certifyRay(checkProgram({ ...works, rows: [], sense: 'min' }), of(0, 0), of(1, 1))).toBeUndefined();
});

test('the tests own recheck sees through spoilt certificates of random blends', () => {
  let optima = 0;
  let proofs = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const { program } = blendProgram(seed);
    const answer = solveLp(program);
    if (answer.status === 'optimal' && answer.objective !== 0) {
      optima += 1;
      expect(optimalFaults(program, answer)).toEqual([]);
      const priced = answer.rowPrices.findIndex((y) => y !== 0);
      const rowPrices = answer.rowPrices.map((y, i) => (i === priced ? 1.01 * y : y));
      const x = answer.x.map((v) => 1.001 * v);
      expect(optimalFaults(program, { ...answer, rowPrices }).length).toBeGreaterThan(0);
      expect(optimalFaults(program, { ...answer, x }).length).toBeGreaterThan(0);
    }
    if (answer.status === 'infeasible' && answer.crossed === undefined) {
      proofs += 1;
      expect(infeasibleFaults(program, answer.rowProof)).toEqual([]);
      const spoilt = answer.rowProof.map((y) => -y);
      expect(infeasibleFaults(program, spoilt).length).toBeGreaterThan(0);
    }
  }
  expect(optima).toBeGreaterThan(30);
  expect(proofs).toBeGreaterThan(8);
});
