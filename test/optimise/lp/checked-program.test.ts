import { describe, expect, it } from 'vitest';
import { checkProgram, naturalScale, unsigned, withBounds } from '../../../src/core/optimise/lp/checked-program.js';
import type { Column, LinearProgram, Row } from '../../../src/core/optimise/lp/types.js';

const endless = Number.POSITIVE_INFINITY;
const of = (...values: number[]) => Float64Array.from(values);
const program = (column: Omit<Column, 'name'>, row: Omit<Row, 'name' | 'coefficients'> = {}): LinearProgram => ({
  columns: [{ name: 'x', ...column }],
  rows: [{ name: 'r', coefficients: [1], ...row }],
  sense: 'min',
  objective: [1],
});

describe('a checked program', () => {
  const stated: LinearProgram = {
    columns: [{ name: 'a' }, { name: 'b', lower: -endless, upper: 7 }],
    rows: [
      { name: 'r', coefficients: [1, 2], low: -3 },
      { name: 's', coefficients: [3, 4], high: 5, scale: 2 },
      { name: 't', coefficients: [5, 6] },
    ],
    sense: 'max',
    objective: [8, -9],
  };

  it('is flat, minimises, and has every side', () => {
    expect(checkProgram(stated)).toStrictEqual({
      rowCount: 3,
      columnCount: 2,
      matrix: of(1, 2, 3, 4, 5, 6),
      low: of(-3, -endless, -endless),
      high: of(endless, 5, endless),
      lower: of(0, -endless),
      upper: of(endless, 7),
      cost: of(-8, 9),
      sign: -1,
      scale: of(3, 2, 0.01),
    });
    expect(checkProgram({ ...stated, sense: 'min' })).toMatchObject({ cost: of(8, -9), sign: 1 });
  });

  it('takes other bounds for a branch and keeps the rest', () => {
    const checked = checkProgram(stated);
    expect(withBounds(checked, of(1, 2), of(3, 4))).toEqual({ ...checked, lower: of(1, 2), upper: of(3, 4) });
    expect(checked.lower).toEqual(of(0, -endless));
  });
});

it('a row is as large as its larger side, and at least a hundredth', () => {
  expect(naturalScale(-3, 2)).toBe(3);
  expect(naturalScale(-1, 2)).toBe(2);
  expect(naturalScale(-endless, 5)).toBe(5);
  expect(naturalScale(-4, endless)).toBe(4);
  expect(naturalScale(0, 0)).toBe(0.01);
  expect(naturalScale(-endless, endless)).toBe(0.01);
});

it('zero has no sign', () => {
  expect(Object.is(unsigned(-0), 0)).toBe(true);
  expect(unsigned(-2)).toBe(-2);
});

describe('sides the wrong way round', () => {
  it('are one side in the middle where they differ by rounding alone, in any unit', () => {
    for (const size of [1e-6, 1, 1e6]) {
      const at = (from: number, to: number) =>
        checkProgram(program({ lower: from, upper: to }, { low: from, high: to }));
      const blurred = at(size * (1 + 8e-13), size);
      const middle = size * (1 + 4e-13);
      expect(blurred.crossed).toBeUndefined();
      expect(blurred.low[0]! / middle).toBeCloseTo(1, 14);
      expect([blurred.high[0], blurred.lower[0], blurred.upper[0]]).toEqual(new Array(3).fill(blurred.low[0]));
      expect(at(size * (1 + 1.2e-12), size).crossed).toEqual({ column: 0 });
      expect(at(-size, -size * (1 + 8e-13)).crossed).toBeUndefined();
      expect(at(-size, -size * (1 + 1.2e-12)).crossed).toEqual({ column: 0 });
    }
  });

  it('are told by the first: columns come before rows', () => {
    expect(checkProgram(program({}, { low: 2, high: 1 })).crossed).toEqual({ row: 0 });
    expect(checkProgram(program({ upper: -1 }, { low: 2, high: 1 })).crossed).toEqual({ column: 0 });
    const crossed = { name: 'r', coefficients: [1], low: 2, high: 1 };
    expect(checkProgram({ ...program({}), rows: [crossed, crossed] }).crossed).toEqual({ row: 0 });
    const columns = [
      { name: 'x', upper: -1 },
      { name: 'y', upper: -1 },
    ];
    expect(checkProgram({ columns, rows: [], sense: 'min', objective: [0, 0] }).crossed).toEqual({ column: 0 });
  });

  it('are not crossed where they are equal', () => {
    const equal = checkProgram(program({ lower: 2, upper: 2 }, { low: -3, high: -3 }));
    expect([equal.lower[0], equal.upper[0], equal.low[0], equal.high[0]]).toEqual([2, 2, -3, -3]);
    expect('crossed' in equal).toBe(false);
  });
});

describe('what is no linear program is refused, with the place, what was found and what is expected', () => {
  it.each<[string, LinearProgram, string]>([
    ['sense', { ...program({}), sense: 'least' as 'min' }, "sense must be 'min' or 'max', found 'least'"],
    ['short objective', { ...program({}), objective: [] }, 'objective: 0 coefficients, expected 1, one a column'],
    ['long objective', { ...program({}), objective: [1, 2] }, 'objective: 2 coefficients, expected 1, one a column'],
    [
      'row too long',
      { ...program({}), rows: [{ name: 'r', coefficients: [1, 2] }] },
      'row 0 (r): 2 coefficients, expected 1, one a column',
    ],
    [
      'endless coefficient',
      { ...program({}), rows: [{ name: 'r', coefficients: [endless] }] },
      'row 0 (r): coefficient 0 is Infinity, expected a finite number',
    ],
    [
      'text for a bound',
      program({ lower: '1' as never }),
      'column 0 (x): low side is 1, expected a number or -Infinity',
    ],
    [
      'text for a bound',
      program({ upper: '1' as never }),
      'column 0 (x): high side is 1, expected a number or Infinity',
    ],
    ['no number', program({}, { low: Number.NaN }), 'row 0 (r): low side is NaN, expected a number or -Infinity'],
    ['no number', program({}, { high: Number.NaN }), 'row 0 (r): high side is NaN, expected a number or Infinity'],
    ['low side', program({ lower: endless }), 'column 0 (x): low side is Infinity, expected a number or -Infinity'],
    ['high side', program({ upper: -endless }), 'column 0 (x): high side is -Infinity, expected a number or Infinity'],
    ['scale', program({}, { scale: -1 }), 'row 0 (r): scale must be a positive number, found -1'],
    ['scale', program({}, { scale: endless }), 'row 0 (r): scale must be a positive number, found Infinity'],
  ])('%s', (_, stated, message) => {
    expect(() => checkProgram(stated)).toThrow(new TypeError(message));
  });
});
