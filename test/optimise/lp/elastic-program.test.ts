import { describe, expect, it } from 'vitest';
import { type CheckedProgram, checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { elastic } from '../../../src/core/optimise/lp/elastic.js';
import { elasticProgram, foldRows, type Softness } from '../../../src/core/optimise/lp/elastic-program.js';
import type { Column, LinearProgram, Row } from '../../../src/core/optimise/lp/types.js';

const endless = Number.POSITIVE_INFINITY;
const of = (...values: number[]) => Float64Array.from(values);
const stated = (columns: Omit<Column, 'name'>[], rows: Omit<Row, 'name'>[]): LinearProgram => ({
  columns: columns.map((c, j) => ({ name: `x${j}`, ...c })),
  rows: rows.map((r, i) => ({ name: `r${i}`, ...r })),
  sense: 'min',
  objective: columns.map(() => 5),
});
const hard: Softness = { rowGive: () => 0, boundGive: () => 0 };
const softRows = (size: number): Softness => ({ ...hard, rowGive: () => size });

describe('the elastic program', () => {
  const program = checkProgram(
    stated(
      [{}, { lower: 1, upper: 5 }],
      [
        { coefficients: [1, 2], low: 3, high: 9 },
        { coefficients: [1, 0], low: 7 },
        { coefficients: [3, 1], low: 6, high: 2 },
        { coefficients: [0, 4], high: 8 },
        { coefficients: [1, 1], low: 4, high: 4 },
      ],
    ),
  );
  const relaxed = elasticProgram(program, {
    rowGive: (i) => [4, 0, 2, 3, 10][i]!,
    // Asked of every finite bound; the lower bound of the first column stays hard.
    boundGive: (j, side) => (j === 0 && side === 'low' ? 0 : side === 'low' ? 1 : 5),
  });
  const zeros = (n: number): number[] => new Array(n).fill(0);

  it('has a column for each side there is of a soft row, and of a soft bound, at a cost of one', () => {
    const row = (index: number, side: 'low' | 'high', size: number) => ({ kind: 'row', index, side, size });
    expect(relaxed.gives).toEqual([
      row(0, 'low', 4),
      row(0, 'high', 4),
      row(2, 'low', 2),
      row(2, 'high', 2),
      row(3, 'high', 3),
      row(4, 'low', 10),
      row(4, 'high', 10),
      { kind: 'column', index: 1, side: 'low', size: 1 },
      { kind: 'column', index: 1, side: 'high', size: 5 },
    ]);
    expect(relaxed.program.columnCount).toBe(11);
    expect(relaxed.program.cost).toEqual(of(0, 0, ...new Array(9).fill(1)));
    expect(relaxed.program.lower).toEqual(of(0, -endless, ...zeros(9)));
    expect(relaxed.program.upper).toEqual(of(endless, endless, ...new Array(9).fill(endless)));
    expect(relaxed.program.sign).toBe(1);
  });

  it('has each row with what it gives, a row of crossed sides as two, a soft bound as a row of its own', () => {
    const { matrix, rowCount, columnCount, low, high, scale } = relaxed.program;
    const lines = Array.from({ length: rowCount }, (_, r) =>
      Array.from(matrix.subarray(r * columnCount, (r + 1) * columnCount)),
    );
    expect(lines).toEqual([
      [1, 2, 4, -4, 0, 0, 0, 0, 0, 0, 0],
      [1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
      [3, 1, 0, 0, 2, 0, 0, 0, 0, 0, 0],
      [3, 1, 0, 0, 0, -2, 0, 0, 0, 0, 0],
      [0, 4, 0, 0, 0, 0, -3, 0, 0, 0, 0],
      [1, 1, 0, 0, 0, 0, 0, 10, -10, 0, 0],
      [0, 1, 0, 0, 0, 0, 0, 0, 0, 1, 0],
      [0, 1, 0, 0, 0, 0, 0, 0, 0, 0, -5],
    ]);
    expect(low).toEqual(of(3, 7, 6, -endless, -endless, 4, 1, -endless));
    expect(high).toEqual(of(9, endless, endless, 2, 8, 4, endless, 5));
    expect(scale).toEqual(of(1, 1, 1, 1, 1, 1, 1, 1));
    expect(relaxed.crossed).toBe(false);
  });

  it('leaves the program it was made of alone', () => {
    expect([program.lower, program.upper]).toEqual([of(0, 1), of(endless, 5)]);
  });

  it('folds prices back: both halves of a crossed row onto it, those of bounds onto none', () => {
    expect(relaxed.rowOrigin).toEqual([0, 1, 2, 2, 3, 4, -1, -1]);
    expect(foldRows(relaxed, of(1, 2, 30, 4, 5, 6, 7, 8), 5)).toEqual(of(1, 2, 34, 5, 6));
  });
});

describe('crossed sides', () => {
  const crossed = (program: CheckedProgram, softness: Softness) => elasticProgram(program, softness).crossed;
  const fine = { coefficients: [1], low: 0 };

  it('of a hard row or bound cannot be mended, those of a soft one can', () => {
    const row = checkProgram(stated([{}], [fine, { coefficients: [1], low: 3, high: 2 }, fine]));
    expect(crossed(row, hard)).toBe(true);
    expect(crossed(row, softRows(1))).toBe(false);
    const column = checkProgram(stated([{}, { lower: 2, upper: 1 }, {}], []));
    expect(crossed(column, hard)).toBe(true);
    expect(crossed(column, { ...hard, boundGive: (_, side) => Number(side === 'low') })).toBe(false);
    expect(crossed(column, { ...hard, boundGive: (_, side) => Number(side === 'high') })).toBe(false);
  });

  it('are not those that meet', () => {
    const meeting = checkProgram(stated([{ lower: 2, upper: 2 }], [{ coefficients: [1], low: 2, high: 2 }]));
    expect(crossed(meeting, hard)).toBe(false);
  });
});

describe('what has to give', () => {
  it('is nothing where less than a billionth of the scale is missing', () => {
    const missing = (share: number) =>
      elastic(
        stated(
          [{}],
          [
            { coefficients: [1], low: 100 },
            { coefficients: [1], high: 100 * (1 - share) },
          ],
        ),
      );
    expect(missing(5e-10)).toMatchObject({ relaxations: [], total: 0 });
    expect(missing(5e-9)).toMatchObject({ relaxations: [{ side: 'low' }] });
  });

  it('is never a bound of a whole column, nor one at zero, unless asked for', () => {
    const upTo = (column: Omit<Column, 'name'>) => stated([column], [{ coefficients: [1], low: 6 }]);
    const rigid = { relaxRow: () => false };
    expect(elastic(upTo({ upper: 3 }), rigid)).toMatchObject({ total: 1, relaxations: [{ column: 0, side: 'high' }] });
    expect(elastic(upTo({ upper: 3, integer: true }), rigid).status).toBe('infeasible');
    expect(elastic(upTo({ lower: -3, upper: 0 }), rigid).status).toBe('infeasible');
    expect(elastic(upTo({ upper: 3, integer: true }), { ...rigid, relaxBound: () => true }).status).toBe('measured');
    // The bound at zero weighs as one of a hundredth.
    expect(elastic(upTo({ lower: -3, upper: 0 }), { ...rigid, relaxBound: () => true })).toMatchObject({ total: 600 });
  });

  it('may be the lower bound', () => {
    expect(elastic(stated([{ lower: 4 }], [{ coefficients: [1], high: 3 }]), { relaxRow: () => false })).toMatchObject({
      relaxations: [{ column: 0, side: 'low', amount: 1, weighed: 0.25 }],
      x: [3],
    });
  });

  it('is not asked where hard sides cross: that is seen at once', () => {
    expect(elastic(stated([{ lower: 2, upper: 1 }], []), { relaxBound: () => false })).toEqual({
      status: 'infeasible',
      effort: { rung: 0, rungName: 'seen at once', pivots: 0, capped: 0 },
    });
  });

  it('is unknown where no certificate can be had: 1e308 times 10 is no number', () => {
    const answer = elastic(stated([{ lower: 10, upper: 20 }], [{ coefficients: [1e308], low: 1 }]), {
      relaxRow: () => false,
      relaxBound: () => false,
    });
    expect(answer).toMatchObject({ status: 'uncertified', effort: { rungName: 'none' } });
    expect(answer.status === 'uncertified' && answer.reason).toMatch(/^no certificate after \d+ tries/);
  });
});
