import { describe, expect, it } from 'vitest';
import { checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { largestCoefficient, rowReach } from '../../../src/core/optimise/lp/row-reach.js';

const endless = Number.POSITIVE_INFINITY;
const program = checkProgram({
  columns: [
    { name: 'a', lower: 1, upper: 5 },
    { name: 'b', lower: -2, upper: 3 },
    { name: 'open above', lower: 4 },
    { name: 'open below', lower: -endless, upper: 7 },
  ],
  rows: [
    { name: 'bounded', coefficients: [2, -3, 0, 0], low: 0 },
    { name: 'up', coefficients: [1, 0, 2, -1], low: 0 },
    { name: 'down', coefficients: [1, 0, -2, 1], low: 0 },
    { name: 'zeros', coefficients: [0, 0, 0, 0], low: 0 },
  ],
  sense: 'min',
  objective: [0, 0, 0, 0],
});

describe('how far a row reaches within the column bounds', () => {
  const all = [0, 1, 2, 3];

  it('is each bound on the side that its coefficient takes it', () => {
    // 2 - 9 and 10 + 6.
    expect(rowReach(program, 0, all)).toEqual({ least: -7, most: 16 });
  });

  it('has no end where a column has none, which a coefficient of zero does not feel', () => {
    expect(rowReach(program, 1, all)).toEqual({ least: 2, most: endless });
    expect(rowReach(program, 2, all)).toEqual({ least: -endless, most: 4 });
    expect(rowReach(program, 3, all)).toEqual({ least: 0, most: 0 });
  });

  it('counts only the columns asked for', () => {
    expect(rowReach(program, 0, [1])).toEqual({ least: -9, most: 6 });
    expect(rowReach(program, 1, [0])).toEqual({ least: 1, most: 5 });
    expect(rowReach(program, 0, [])).toEqual({ least: 0, most: 0 });
  });
});

it('the largest coefficient of a row is told by size', () => {
  expect([0, 1, 2, 3].map((i) => largestCoefficient(program, i))).toEqual([3, 2, 2, 0]);
});
