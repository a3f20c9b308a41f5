import { describe, expect, it } from 'vitest';
import { type CheckedProgram, checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { powerOfTwo, type Scaling, scaleProgram } from '../../../src/core/optimise/lp/scale.js';
import type { Column } from '../../../src/core/optimise/lp/types.js';
import { anyProgram } from '../../support/random-programs.js';

const program = (
  matrix: readonly (readonly number[])[],
  sides: readonly { readonly low?: number; readonly high?: number }[] = matrix.map(() => ({ high: 1 })),
  columns: readonly Omit<Column, 'name'>[] = matrix[0]!.map(() => ({})),
): CheckedProgram =>
  checkProgram({
    columns: columns.map((column, j) => ({ name: `x${j}`, ...column })),
    rows: matrix.map((coefficients, i) => ({ name: `r${i}`, coefficients, ...sides[i] })),
    sense: 'min',
    objective: columns.map(() => 0),
  });

const scaled = ({ matrix, columnCount }: CheckedProgram, { row, column }: Scaling): number[][] =>
  Array.from(row, (factor, i) => Array.from(column, (step, j) => matrix[i * columnCount + j]! * step * factor));
const isPowerOfTwo = (value: number): boolean => Number.isInteger(Math.log2(value));

it('the power of two next to a number is next by its logarithm', () => {
  expect([1, 1.4, 1.5, 2.8, 2.9, 0.7, 0.72, 1000].map(powerOfTwo)).toEqual([1, 1, 2, 2, 4, 0.5, 1, 1024]);
});

describe('scaling by rows', () => {
  it('leaves the columns and brings the largest coefficient of each row next to 1', () => {
    const stated = program([
      [8, -30, 0],
      [0.5, 0.1, 0.01],
      [0, 0, 0],
    ]);
    const scaling = scaleProgram(stated, 'rows');
    expect(Array.from(scaling.column)).toEqual([1, 1, 1]);
    expect(Array.from(scaling.row)).toEqual([1 / 32, 2, 1]);
  });
});

describe('geometric scaling', () => {
  it('makes of rows and columns that only differ in their units ones, but for half a power of two each', () => {
    const units = [1, 700, 3e-4];
    const stated = program(units.map((a) => [2, 1e5, 3e-3, 1].map((b) => a * b)));
    for (const row of scaled(stated, scaleProgram(stated, 'geometric'))) {
      for (const size of row) expect(Math.abs(Math.log2(size))).toBeLessThanOrEqual(1.5);
    }
  });

  it('goes by the root of the largest times the smallest: coefficients 1 and 10 000 are both 100 off', () => {
    // One row: its factor is 1/100, then each column is brought to 1 by itself.
    const row = program([[1, 1e4]]);
    expect(Array.from(scaleProgram(row, 'geometric').column)).toEqual([128, 1 / 128]);
    // One column: each row is brought to 1 by itself, nothing is left for the column.
    expect(Array.from(scaleProgram(program([[1], [1e4]]), 'geometric').column)).toEqual([1]);
    // Rows 1, 16 | 1, 1/16: factors 1/4 and 4; then the first column holds 1/4 and 4 and stays, and so does the second.
    const cross = scaleProgram(
      program([
        [1, 16],
        [1, 1 / 16],
      ]),
      'geometric',
    );
    expect(Array.from(cross.column)).toEqual([1, 1]);
    expect(Array.from(cross.row)).toEqual([1 / 16, 1]);
  });

  it('goes over the program twice: the second time starts from the columns of the first', () => {
    const twice = program([
      [1, 256, 0],
      [0, 1, 256],
      [1, 1, 1],
    ]);
    // First rows 1/16, 1/16, 1; columns hold 1/16..1, 1/16..16 and 1..16 and become 4, 1, 1/4. Second rows: 4..256
    // gives 1/32, 1..64 gives 1/8, 1/4..4 gives 1; columns now hold 1/32..1, 1/8..8 and 1..32.
    expect(Array.from(scaleProgram(twice, 'geometric').column)).toEqual([
      powerOfTwo(32 ** 0.5),
      1,
      powerOfTwo(32 ** -0.5),
    ]);
  });

  it('passes by zeros, and leaves a row or column of nothing else as it is', () => {
    const stated = program([
      [1e4, 0, 0],
      [0, 1e-4, 0],
      [0, 0, 0],
    ]);
    const { row, column } = scaleProgram(stated, 'geometric');
    expect(Array.from(column)).toEqual([1, 1, 1]);
    expect(Array.from(row)).toEqual([2 ** -13, 2 ** 13, 1]);
  });
});

describe('any scaling', () => {
  it('rounds nothing and leaves the largest coefficient of each row next to 1', () => {
    let rows = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const stated = checkProgram(anyProgram(seed));
      for (const method of ['rows', 'geometric'] as const) {
        const scaling = scaleProgram(stated, method);
        expect([...scaling.row, ...scaling.column, scaling.unit].every(isPowerOfTwo)).toBe(true);
        for (const row of scaled(stated, scaling)) {
          const most = Math.max(...row.map(Math.abs));
          if (most === 0) continue;
          expect(Math.abs(Math.log2(most))).toBeLessThanOrEqual(0.5);
          rows++;
        }
      }
    }
    expect(rows).toBeGreaterThan(300);
  });
});

describe('the unit of the amounts', () => {
  const unitOf = (...args: Parameters<typeof program>): number => scaleProgram(program(...args), 'rows').unit;

  it('is the largest side of a row, as scaled, whichever side and sign it has', () => {
    const matrix = [
      [4, 1],
      [1, 1],
    ];
    expect(unitOf(matrix, [{ high: 4096 }, { high: 8 }])).toBe(1024);
    expect(unitOf(matrix, [{ low: -4096 }, { high: 8 }])).toBe(1024);
    expect(
      unitOf(matrix, [
        { low: -64, high: 4 },
        { low: 32, high: 256 },
      ]),
    ).toBe(256);
    expect(unitOf(matrix, [{ high: 1e-3 }, { low: 0 }])).toBe(2 ** -12);
  });

  it('is that of the bounds only where the rows say nothing, each over its own column’s factor', () => {
    const bounds = [{ lower: -512, upper: 4 }, { upper: 100 }];
    expect(unitOf([[1, 1]], [{ high: 8 }], bounds)).toBe(8);
    expect(unitOf([[1, 1]], [{ low: 0 }], bounds)).toBe(512);
    expect(unitOf([[1, 1]], [{ low: 0 }], [{ upper: 4 }, { upper: 100 }])).toBe(128);
    const factors = scaleProgram(
      program([[1, 1e4]], [{ low: 0 }], [{ lower: 4, upper: 1024 }, { upper: 4 }]),
      'geometric',
    );
    // 1024 / 128 and 4 * 128.
    expect(factors.unit).toBe(512);
    const lower = scaleProgram(program([[1, 1e4]], [{ low: 0 }], [{}, { lower: 4 }]), 'geometric');
    expect(lower.unit).toBe(512);
  });

  it('is 1 where there is no side and no bound but zero', () => {
    expect(unitOf([[1, 1]], [{ low: 0 }])).toBe(1);
    expect(scaleProgram(program([[1]], [{ low: 0 }], [{}]), 'geometric').unit).toBe(1);
  });
});
