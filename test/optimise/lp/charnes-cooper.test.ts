import { describe, expect, it } from 'vitest';
import { charnesCooper, type FractionalProgram, solveFractional } from '../../../src/core/optimise/lp/fractional.js';

const endless = Number.POSITIVE_INFINITY;
const optimal = (program: FractionalProgram) => {
  const answer = solveFractional(program);
  if (answer.status !== 'optimal') throw new Error(answer.status);
  return answer;
};

describe('the transformed program', () => {
  const program: FractionalProgram = {
    columns: [
      { name: 'plain' },
      { name: 'between', lower: 1, upper: 3 },
      { name: 'free', lower: -endless },
      { name: 'below zero', lower: -5, upper: 0 },
      { name: 'far below', lower: -endless, upper: -2 },
    ],
    rows: [
      { name: 'window', coefficients: [1, 2, 3, 4, 5], low: 6, high: 7 },
      { name: 'equal', coefficients: [1, 0, 0, 0, 0], low: 8, high: 8 },
      { name: 'open', coefficients: [0, 1, 0, 0, 0] },
      { name: 'low', coefficients: [0, 0, 1, 0, 0], low: 0 },
      { name: 'high', coefficients: [0, 0, 0, 1, 0], high: 9 },
    ],
    sense: 'max',
    numerator: [1, 2, 3, 4, 5],
    denominator: Float64Array.of(5, 4, 3, 2, 1),
    numeratorConstant: 10,
    denominatorConstant: 20,
  };

  it('has y = t x and t for columns, each side that is not zero as a row, and the denominator at 1', () => {
    expect(charnesCooper(program)).toEqual({
      linear: {
        columns: [
          { name: 'plain', lower: 0, upper: endless },
          { name: 'between', lower: 0, upper: endless },
          { name: 'free', lower: -endless, upper: endless },
          { name: 'below zero', lower: -endless, upper: 0 },
          { name: 'far below', lower: -endless, upper: 0 },
          { name: 't' },
        ],
        rows: [
          { name: 'window, low', coefficients: [1, 2, 3, 4, 5, -6], low: 0 },
          { name: 'window, high', coefficients: [1, 2, 3, 4, 5, -7], high: 0 },
          { name: 'equal', coefficients: [1, 0, 0, 0, 0, -8], low: 0, high: 0 },
          { name: 'low, low', coefficients: [0, 0, 1, 0, 0, 0], low: 0 },
          { name: 'high, high', coefficients: [0, 0, 0, 1, 0, -9], high: 0 },
          { name: 'between, lower', coefficients: [0, 1, 0, 0, 0, -1], low: 0 },
          { name: 'between, upper', coefficients: [0, 1, 0, 0, 0, -3], high: 0 },
          { name: 'below zero, lower', coefficients: [0, 0, 0, 1, 0, 5], low: 0 },
          { name: 'far below, upper', coefficients: [0, 0, 0, 0, 1, 2], high: 0 },
          { name: 'denominator', coefficients: [5, 4, 3, 2, 1, 20], low: 1, high: 1 },
        ],
        sense: 'max',
        objective: [1, 2, 3, 4, 5, 10],
      },
      sideRows: [[0, 1], [2], [], [3], [4]],
    });
  });

  it('has constants of zero where none are stated', () => {
    const { numeratorConstant: _n, denominatorConstant: _d, ...plain } = program;
    const { linear } = charnesCooper(plain);
    expect(linear.objective.at(-1)).toBe(0);
    expect(linear.rows.at(-1)?.coefficients.at(-1)).toBe(0);
  });

  it('needs a coefficient a column above and below', () => {
    const message = 'numerator and denominator need 5 coefficients, one a column';
    for (const wrong of [
      { numerator: [1, 2, 3, 4] },
      { denominator: [1, 2, 3, 4] },
      { numerator: [1, 2, 3, 4, 5, 6] },
      { denominator: [1, 2, 3, 4, 5, 6] },
    ]) {
      expect(() => charnesCooper({ ...program, ...wrong })).toThrow(new TypeError(message));
    }
  });
});

describe('a ratio by hand', () => {
  // max (2x + y + 1) / (x + 2y + 3) over x + y <= s, x <= 4, 1 <= y <= 3: at x = s - 1, y = 1 it is 2s / (s + 4).
  const ratio = (side: { low?: number; high?: number }): FractionalProgram => ({
    columns: [
      { name: 'x', upper: 4 },
      { name: 'y', lower: 1, upper: 3 },
    ],
    rows: [
      { name: 'idle', coefficients: [1, -1], high: 50 },
      { name: 'sum', coefficients: [1, 1], ...side },
    ],
    sense: 'max',
    numerator: [2, 1],
    numeratorConstant: 1,
    denominator: [1, 2],
    denominatorConstant: 3,
  });

  it.each([
    ['a high side', { high: 4.5 }],
    ['a window', { low: 1, high: 4.5 }],
    ['an equality', { low: 4.5, high: 4.5 }],
  ])('has for %s the price that its slope is: 8 / (s + 4)²', (_, side) => {
    const answer = optimal(ratio(side));
    expect(answer.x).toHaveLength(2);
    expect(answer.x[0]).toBeCloseTo(3.5, 12);
    expect(answer.x[1]).toBeCloseTo(1, 12);
    expect(answer.objective).toBeCloseTo(9 / 8.5, 12);
    expect(answer.rowPrices[0]).toBe(0);
    expect(answer.rowPrices[1]).toBeCloseTo(8 / 8.5 ** 2, 12);
    expect(answer.effort).toBe(answer.transformed.answer.effort);
    expect(answer.transformed.program).toEqual(charnesCooper(ratio(side)).linear);
  });

  it('may have a denominator of any size', () => {
    // x = 10 over ten million, and over a ten-millionth.
    for (const size of [1e7, 1e-7]) {
      const one: FractionalProgram = {
        columns: [
          { name: 'x', upper: 10 },
          { name: 'none', upper: 0 },
        ],
        rows: [],
        sense: 'max',
        numerator: [1, 0],
        denominator: [0, 0],
        denominatorConstant: size,
      };
      const { x, objective } = optimal(one);
      expect(x[0]).toBeCloseTo(10, 9);
      expect(objective * size).toBeCloseTo(10, 9);
    }
  });
});

describe('a best ratio that no point has', () => {
  const open: FractionalProgram = {
    columns: [{ name: 'x' }, { name: 'y' }],
    rows: [{ name: 'r', coefficients: [1, -1], low: 0 }],
    sense: 'max',
    numerator: [1, 1],
    denominator: [1, 0],
    denominatorConstant: 1,
  };

  it('is approached along a direction: (x + y) / (x + 1) with y up to x comes to 2 as both grow', () => {
    expect(solveFractional(open)).toMatchObject({ status: 'unattained', objective: 2, direction: [1, 1] });
  });

  it('is not spoken of where there is no point at all', () => {
    const rows = [...open.rows, { name: 'never', coefficients: [1, 0], high: -1 }];
    expect(solveFractional({ ...open, rows })).toMatchObject({ status: 'infeasible', rowProof: [0, -1] });
  });

  it('without an end, and a denominator never above zero, come with their proofs', () => {
    const endlessly = solveFractional({ ...open, denominator: [0, 0] });
    expect(endlessly).toMatchObject({ status: 'unbounded', transformed: { status: 'unbounded' } });
    const never = solveFractional({ ...open, denominator: [-1, -1], denominatorConstant: 0 });
    expect(never).toMatchObject({ status: 'never-positive', transformed: { status: 'infeasible' } });
  });
});

describe('without a certificate nothing is said: 1e308 times 10 is no number', () => {
  const huge: FractionalProgram = {
    columns: [{ name: 'x', lower: 10 }],
    rows: [{ name: 'r', coefficients: [1e308], low: 1 }],
    sense: 'max',
    numerator: [1],
    denominator: [1],
    denominatorConstant: 1,
  };

  it('of the transformed program', () => {
    // A denominator of (x + 1) / 10 takes y to nearly 10.
    const tenths = {
      ...huge,
      denominator: [0.1],
      denominatorConstant: 0.1,
      columns: [{ ...huge.columns[0]!, upper: 20 }],
    };
    expect(solveFractional(tenths)).toMatchObject({ status: 'uncertified', effort: { rungName: 'none' } });
    // Nor where the rows are harmless and the numerator is what cannot be summed.
    expect(solveFractional({ ...tenths, rows: [], numerator: [1e308] }).status).toBe('uncertified');
  });

  it('or of the stated one: whether a ratio that is only approached has points', () => {
    expect(solveFractional({ ...huge, columns: [{ name: 'x' }], rows: [] }).status).toBe('unattained');
    expect(solveFractional(huge)).toMatchObject({ status: 'uncertified', effort: { rungName: 'none' } });
  });
});
