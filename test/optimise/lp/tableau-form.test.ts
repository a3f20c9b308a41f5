import { describe, expect, it } from 'vitest';
import { type CheckedProgram, checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { runPivots } from '../../../src/core/optimise/lp/pivot-engine.js';
import { scaleProgram } from '../../../src/core/optimise/lp/scale.js';
import { inOrder, shuffled } from '../../../src/core/optimise/lp/shuffle.js';
import {
  columnsAt,
  directionOf,
  rowMultipliers,
  rowPriceRanges,
  rowPrices,
  type TableauForm,
  tableauForm,
} from '../../../src/core/optimise/lp/tableau-form.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';
import { anyProgram, seededRandom } from '../../support/random-programs.js';

const endless = Number.POSITIVE_INFINITY;
/** As plain numbers, no zero with a sign. */
const plain = (values: ArrayLike<number>): number[] => Array.from(values, (value) => value + 0);
const unscaled = (program: CheckedProgram): TableauForm =>
  tableauForm(
    program,
    {
      row: new Float64Array(program.rowCount).fill(1),
      column: new Float64Array(program.columnCount).fill(1),
      unit: 1,
    },
    { rows: inOrder(program.rowCount), columns: inOrder(program.columnCount) },
  );

/** One column and one row of each kind. */
const kinds: LinearProgram = {
  columns: [
    { name: 'between', lower: 1, upper: 5 },
    { name: 'fixed', lower: 2, upper: 2 },
    { name: 'at most', lower: -endless, upper: 4 },
    { name: 'free', lower: -endless },
    { name: 'at least' },
  ],
  rows: [
    { name: 'equal', coefficients: [1, 1, 1, 1, 1], low: 6, high: 6 },
    { name: 'at most', coefficients: [2, 0, 0, 0, 1], high: 20 },
    { name: 'kept by the bounds', coefficients: [1, 1, 0, 0, 0], low: 3, high: 7 },
    { name: 'constant, for no pivot to mend', coefficients: [0, 1, 0, 0, 0], low: 2.5, high: 3 },
    { name: 'between', coefficients: [1, 0, -1, 0, 0], low: -1, high: 30 },
    { name: 'equal, from below by its bound', coefficients: [0, 0, 0, 0, 1], low: 0, high: 0 },
  ],
  sense: 'min',
  objective: [1, 10, 2, 3, -8],
};

describe('a program put to the pivot engine', () => {
  const form = unscaled(checkProgram(kinds));

  it('has a variable for each way a column can move from its bound, and none for a fixed column', () => {
    expect(plain(form.variableColumn)).toEqual([0, 2, 3, 3, 4]);
    expect(plain(form.variableFactor)).toEqual([1, -1, 1, -1, 1]);
    expect(plain(form.base)).toEqual([1, 2, 4, 0, 0]);
  });

  it('has a constraint for each side that the bounds do not keep, and for each second bound', () => {
    expect(plain(form.constraintRow)).toEqual([0, 0, 1, 4, 4, 5, -1]);
    expect(form.constraintSide).toEqual(['low', 'high', 'high', 'low', 'high', 'high', 'high']);
    expect(plain(form.problem.twin)).toEqual([1, 0, -1, -1, -1, -1, -1]);
    expect([form.problem.width, form.problem.height]).toEqual([6, 8]);
  });

  it('counts from the bounds, low sides turned round, costs in shares of the largest', () => {
    const { tableau, width } = form.problem;
    const lines = Array.from({ length: 8 }, (_, r) => plain(tableau.subarray(r * width, (r + 1) * width)));
    expect(lines).toEqual([
      [0, -1 / 8, 2 / 8, -3 / 8, 3 / 8, 1],
      [1, -1, 1, -1, 1, -1],
      [-1, 1, -1, 1, -1, 1],
      [18, 2, 0, 0, 0, 1],
      [-2, -1, -1, 0, 0, 0],
      [33, 1, 1, 0, 0, 0],
      [0, 0, 0, 0, 0, 1],
      [4, 1, 0, 0, 0, 0],
    ]);
    expect(form.costUnit).toBe(8);
  });

  it('is read back: points, directions, prices and multipliers', () => {
    const values = Float64Array.of(1, 2, 3, 4, 5);
    expect(plain(columnsAt(form, values))).toEqual([2, 2, 2, -1, 5]);
    expect(plain(directionOf(form, values))).toEqual([1, 0, -2, -1, 5]);
    expect(plain(form.base)).toEqual([1, 2, 4, 0, 0]);
    const ones = Float64Array.of(1, 10, 100, 1000, 10_000, 0.5, 7);
    // The price of a high side is the engine's, that of a low side turned round; multipliers are > 0 for low sides.
    expect(plain(rowPrices(form, ones, 6))).toEqual([72, 800, 0, 0, 72_000, 4]);
    expect(plain(rowMultipliers(form, ones, 6))).toEqual([-9, -100, 0, 0, -9000, -0.5]);
  });

  it('costs nothing where nothing costs', () => {
    const free = unscaled(checkProgram({ ...kinds, objective: [0, 10, 0, 0, 0] }));
    expect(free.costUnit).toBe(1);
    expect(plain(free.problem.tableau.subarray(0, 6))).toEqual([0, 0, 0, 0, 0, 0]);
  });
});

describe('a scaled and shuffled tableau', () => {
  it('says of every point what the program says, each in its own units', () => {
    let compared = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const random = seededRandom(seed);
      const program = checkProgram(anyProgram(seed));
      const { rowCount, columnCount, matrix, low, high, upper, cost } = program;
      if (program.crossed !== undefined) continue;
      const order = { rows: shuffled(rowCount, seed), columns: shuffled(columnCount, seed + 1) };
      const scaling = scaleProgram(program, seed % 2 === 0 ? 'rows' : 'geometric');
      const form = tableauForm(program, scaling, order);
      const { width, tableau } = form.problem;
      form.variableFactor.forEach((factor, v) => {
        expect(Math.abs(factor)).toBe(scaling.unit * scaling.column[form.variableColumn[v]!]!);
      });
      const values = Float64Array.from(form.variableColumn, () => random.whole(0, 9));
      const x = columnsAt(form, values);
      const dot = (coefficients: Float64Array, offset: number, at: ArrayLike<number>): number =>
        Array.from(at).reduce((sum, value, j) => sum + value * coefficients[offset + j]!, 0);
      const engineCost = -dot(tableau, 1, values) * form.costUnit;
      expect(engineCost + dot(cost, 0, form.base)).toBeCloseTo(dot(cost, 0, x), 6);
      expect(Math.max(0, ...plain(tableau.subarray(1, width)).map(Math.abs))).toBeCloseTo(
        form.costUnit === 1 ? 0 : 1,
        9,
      );
      form.constraintRow.forEach((i, k) => {
        const room = tableau[(k + 1) * width]! - dot(tableau, (k + 1) * width + 1, values);
        if (i < 0) {
          const v = plain(tableau.subarray((k + 1) * width + 1, (k + 2) * width)).indexOf(1);
          const j = form.variableColumn[v]!;
          expect(room * form.variableFactor[v]!).toBeCloseTo(upper[j]! - x[j]!, 9);
          return;
        }
        const side = form.constraintSide[k] === 'high' ? high[i]! : low[i]!;
        const stated = (side - dot(matrix, i * columnCount, x)) * form.sideFactor[k]!;
        expect(Math.abs(room - stated)).toBeLessThan(1e-9 * (1 + Math.abs(room) + Math.abs(side)));
        expect(form.sideFactor[k]).toBe(
          ((form.constraintSide[k] === 'high' ? 1 : -1) * scaling.row[i]!) / scaling.unit,
        );
        expect(form.constraintFactor[k]).toBe(form.sideFactor[k]! * form.costUnit);
        compared++;
      });
    }
    expect(compared).toBeGreaterThan(150);
  });
});

describe('how far a side may move with its price unchanged', () => {
  const rangesOf = (program: LinearProgram, row = 1, column = 1, unit = 1) => {
    const checked = checkProgram(program);
    const { rowCount, columnCount } = checked;
    const scaling = {
      row: new Float64Array(rowCount).fill(row),
      column: new Float64Array(columnCount).fill(column),
      unit,
    };
    const form = tableauForm(checked, scaling, { rows: inOrder(rowCount), columns: inOrder(columnCount) });
    const outcome = runPivots(form.problem, { precision: 1e-9, pivotCap: 100 });
    if (outcome.status !== 'optimal') throw new Error(outcome.status);
    return rowPriceRanges(form, outcome, checked);
  };

  it('is said of the binding side only, whichever it is: min 2 x + 3 y, 4 <= x + y <= 9, x at most 3', () => {
    // At (3, 1) the sum may fall to 3, where y is 0, and rise to no end (y has none); the bound x <= 3 is no row.
    const columns = [{ name: 'x', upper: 3 }, { name: 'y' }];
    const sum = { name: 'sum', coefficients: [1, 1], low: 4, high: 9 };
    const idle = { name: 'idle', coefficients: [1, 0], high: 2.5 };
    const program: LinearProgram = { columns, rows: [sum], sense: 'min', objective: [2, 3] };
    expect(rangesOf(program)).toStrictEqual([{ from: 3, to: 9 }]);
    expect(rangesOf(program, 4, 0.5, 8)).toStrictEqual([{ from: 3, to: 9 }]);
    expect(rangesOf({ ...program, sense: 'max' })).toStrictEqual([{ from: 4, to: endless }]);
    // With x <= 2.5 as a row: its own price holds for x from 0 to 3, where the bound binds, the sum's from 2.5.
    expect(rangesOf({ ...program, rows: [idle, sum] })).toStrictEqual([
      { from: 0, to: 3 },
      { from: 2.5, to: 9 },
    ]);
    expect(rangesOf({ ...program, rows: [sum, { ...idle, high: 2.9 }, { ...idle, high: 2.95 }] })).toStrictEqual([
      { from: 2.9, to: 9 },
      { from: 0, to: 2.95 },
      undefined,
    ]);
  });

  it('of an equality moves both sides at once', () => {
    const columns = [
      { name: 'x', upper: 3 },
      { name: 'y', upper: 5 },
    ];
    const equal = { name: 'sum', coefficients: [1, 1], low: 4, high: 4 };
    expect(rangesOf({ columns, rows: [equal], sense: 'min', objective: [2, 3] })).toStrictEqual([{ from: 3, to: 8 }]);
  });
});
