import { describe, expect, it } from 'vitest';
import { type CheckedProgram, checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { climb, type LadderAnswer } from '../../../src/core/optimise/lp/ladder.js';
import { pricedIn } from '../../../src/core/optimise/lp/priced-in.js';
import type { Column, Row } from '../../../src/core/optimise/lp/types.js';

/** How columns are priced in, with the engine watched, or replaced by one that stalls or lies. */

const endless = Number.POSITIVE_INFINITY;
const of = (
  columns: readonly Omit<Column, 'name'>[],
  rows: readonly Omit<Row, 'name'>[],
  objective: readonly number[],
): CheckedProgram =>
  checkProgram({
    columns: columns.map((c, j) => ({ name: `x${j}`, ...c })),
    rows: rows.map((r, i) => ({ name: `r${i}`, ...r })),
    sense: 'min',
    objective,
  });
const times = <T>(n: number, make: (k: number) => T): T[] => Array.from({ length: n }, (_, k) => make(k));

/** Solves each part as usual and notes it. */
function watched(program: CheckedProgram, solve: (part: CheckedProgram) => LadderAnswer = climb) {
  const parts: CheckedProgram[] = [];
  const answer = pricedIn(program, (part) => {
    parts.push(part);
    return solve(part);
  });
  return { parts, answer };
}
const effort = { rung: 0, rungName: 'made up', pivots: 3, capped: 1 };
/** As plain numbers, no zero with a sign. */
const array = (values: ArrayLike<number>): number[] => Array.from(values, (value) => value + 0);

describe('the columns of the first part', () => {
  it('are those that cannot stand at zero or may move both ways from there', () => {
    const must = [
      { lower: 1, upper: 9 },
      { lower: -endless, upper: endless },
      { lower: -1, upper: 2 },
      { lower: -9, upper: -1 },
      { lower: 2, upper: 2 },
    ];
    const may = [{}, { upper: 7 }, { lower: -8, upper: 0 }, { lower: -endless, upper: 0 }, { upper: 0 }];
    const columns = [...may, ...must].map((c) => ({ lower: 0, upper: endless, ...c }));
    const { parts } = watched(
      of(
        columns,
        [],
        columns.map(() => 0),
      ),
    );
    expect(parts.length).toBe(1);
    expect(array(parts[0]!.lower)).toEqual(must.map((c) => c.lower));
    expect(array(parts[0]!.upper)).toEqual(must.map((c) => c.upper));
  });

  it('may be six in ten; with more the whole program is as quick', () => {
    const program = (must: number) =>
      of(
        times(10, (j) => (j < must ? { lower: 1 } : {})),
        [],
        times(10, () => 1),
      );
    expect(watched(program(6)).answer).toMatchObject({ status: 'optimal', optimum: { cost: 6 } });
    const seven = watched(program(7));
    expect(seven.answer).toBeUndefined();
    expect(seven.parts).toEqual([]);
  });
});

describe('a part', () => {
  it('has the rows that its columns could break, in the figures of the whole', () => {
    const program = of(
      [{ lower: 1, upper: 3 }, {}, { lower: 2, upper: 4 }, {}, {}],
      [
        { coefficients: [1, 1, 1, 1, 1], low: 3, high: 9 },
        { coefficients: [1, 9, 2, 9, 9], low: 6, scale: 5 },
        { coefficients: [2, 9, -1, 9, 9], high: 3.5, scale: 6 },
        { coefficients: [0, 1, 0, 1, 1], low: 0, high: 0 },
      ],
      [4, 50, 3, 50, 50],
    );
    const { parts, answer } = watched(program);
    expect(parts[0]).toEqual({
      rowCount: 2,
      columnCount: 2,
      matrix: Float64Array.of(1, 2, 2, -1),
      low: Float64Array.of(6, -endless),
      high: Float64Array.of(endless, 3.5),
      lower: Float64Array.of(1, 2),
      upper: Float64Array.of(3, 4),
      cost: Float64Array.of(4, 3),
      sign: 1,
      scale: Float64Array.of(5, 6),
    });
    // x0 + 2 x2 >= 6 at 1 and 2.5; the row's price stands in the place it has in the whole.
    expect(answer).toMatchObject({ status: 'optimal', optimum: { cost: 11.5 } });
    expect(answer?.status === 'optimal' && array(answer.optimum.x)).toEqual([1, 0, 2.5, 0, 0]);
    expect(answer?.status === 'optimal' && array(answer.optimum.rowPrices)).toEqual([0, 1.5, 0, 0]);
  });
});

describe('the columns that are taken in', () => {
  // One unit has to be made; column 0 makes it at 100, the others at 90, 89, 88 ...
  const makers = (count: number) => {
    const objective = times(count, (j) => (j === 0 ? 100 : 90 - (j % 60)));
    const columns = times(count, (j) => (j === 0 ? { lower: 0.01 } : {}));
    return of(columns, [{ coefficients: times(count, () => 1), low: 1 }], objective);
  };

  it('are the twenty that help most, until none does', () => {
    const { parts, answer } = watched(makers(60));
    expect(parts.map((part) => part.columnCount)).toEqual([1, 21]);
    expect(array(parts[1]!.cost)).toEqual([100, ...times(20, (k) => 50 - k)]);
    expect(answer).toMatchObject({ status: 'optimal', optimum: { cost: 0.99 * 31 + 1 } });
  });

  it('are counted with the pivots and loops of all rounds', () => {
    const { parts, answer } = watched(makers(60), (part) => ({ ...climb(part), effort }));
    expect(parts.length).toBe(2);
    expect(answer?.effort).toEqual({ rung: 0, rungName: 'made up', pivots: 6, capped: 2 });
  });

  it('are measured by their reduced cost in shares of its terms', () => {
    // At a price of 10 the first would save 4 of 16, the second 6 of 74, which is less; both at least help.
    const columns = [{ lower: 0.01 }, {}, {}, ...times(30, () => ({}))];
    const idle = times(30, () => 0);
    const program = of(columns, [{ coefficients: [1, 1, 4, ...idle], low: 1 }], [10, 6, 34, ...times(30, () => 1)]);
    const helpful: number[][] = [];
    watched(program, (part) => {
      helpful.push(array(part.cost));
      return climb(part);
    });
    expect(helpful).toEqual([[10], [10, 6, 34]]);
    const { parts } = watched(
      of(columns, [{ coefficients: [1, 1, 4, ...idle], low: 1 }], [10, 10 - 5e-9, 40, ...idle]),
    );
    expect(parts.length).toBe(1);
  });

  it('help by rising or falling only as far as their bounds let them', () => {
    // Column 0 has to be at most -1, at a price of 10 for each unit it falls. Column 1 may fall for it at a cost of 4.
    // So would the next, but it may only rise; and the last would rise at a gain, but may only fall, or not at all.
    const columns = [{ lower: -endless }, { lower: -5, upper: 0 }, {}, { lower: -endless, upper: 0 }];
    const still = { upper: 0 };
    const program = of(
      [...columns, still, still],
      [{ coefficients: [1, 1, 1, 1, 1, 1], high: -1 }],
      [-10, -4, -4, -11, -99, 99],
    );
    const { parts, answer } = watched(program);
    expect(parts.map((part) => array(part.cost))).toEqual([[-10], [-10, -4]]);
    expect(answer).toMatchObject({ status: 'optimal', optimum: { cost: -20 } });
  });

  it('are those that would break a proof that nothing holds', () => {
    // 0.5 of the first and 20 to be made: nothing holds until column 3, which is dear, is let in.
    const columns = [{ lower: 0.1, upper: 0.5 }, {}, {}, {}];
    const program = of(columns, [{ coefficients: [1, -1, 0, 2], low: 20 }], [1, 0, 0, 50]);
    const { parts, answer } = watched(program);
    expect(parts.map((part) => array(part.cost))).toEqual([[1], [1, 50]]);
    expect(answer).toMatchObject({ status: 'optimal', optimum: { cost: 0.5 + 19.5 * 25 } });
    const without = watched(of(columns.slice(0, 3), [{ coefficients: [1, -1, 0], low: 20 }], [1, 0, 0]));
    expect(without.parts.length).toBe(1);
    expect(without.answer).toMatchObject({ status: 'infeasible' });
    expect(without.answer?.status === 'infeasible' && array(without.answer.rowProof).map(Math.sign)).toEqual([1]);
    expect(without.answer?.status === 'infeasible' && array(without.answer.columnProof).map(Math.sign)).toEqual([
      -1, 1, 0,
    ]);
  });
});

describe('an engine that does not deliver', () => {
  const program = of([{ lower: 1 }, {}, {}], [{ coefficients: [1, 1, 0], low: 2 }], [1, 2, 3]);
  const told = (answer: LadderAnswer) => watched(program, () => answer);
  const zeros = Float64Array.of(0);

  it('and says so: the whole program has to be solved', () => {
    const { answer, parts } = told({ status: 'uncertified', reason: 'none', effort });
    expect(answer).toBeUndefined();
    expect(parts.length).toBe(1);
  });

  it('and claims an optimum, a contradiction or a ray that is none', () => {
    const optimum = { x: Float64Array.of(1.5), rowPrices: Float64Array.of(1), reducedCosts: zeros, cost: 1.5 };
    expect(told({ status: 'optimal', optimum, effort }).answer).toBeUndefined();
    const proof = { rowProof: Float64Array.of(-1), columnProof: zeros };
    expect(told({ status: 'infeasible', ...proof, effort }).answer).toBeUndefined();
    const ray = { point: Float64Array.of(2), ray: Float64Array.of(1) };
    expect(told({ status: 'unbounded', ...ray, effort }).answer).toBeUndefined();
  });

  it('is believed where what it says holds in the whole', () => {
    const optimum = { x: Float64Array.of(2), rowPrices: Float64Array.of(1), reducedCosts: zeros, cost: 2 };
    expect(told({ status: 'optimal', optimum, effort }).answer).toMatchObject({ optimum: { cost: 2 }, effort });
    const paid = of([{ lower: 1 }, {}, {}], [{ coefficients: [1, 1, 0], low: 2 }], [-1, 2, 3]);
    const { answer } = watched(paid, () => ({
      status: 'unbounded',
      point: Float64Array.of(2),
      ray: Float64Array.of(4),
      effort,
    }));
    expect(answer).toEqual({
      status: 'unbounded',
      point: Float64Array.of(2, 0, 0),
      ray: Float64Array.of(1, 0, 0),
      effort,
    });
  });

  it('and lets in one column a round is given up after sixty rounds', () => {
    // Each column serves a row of its own; the engine names a price for one row after another.
    const n = 120;
    const columns = times(n, () => ({}));
    const rows = times(n, (i) => ({ coefficients: times(n, (j) => Number(i === j)), low: -1, high: 1 }));
    const endlessly = of(
      [{ lower: 1 }, ...columns],
      [...rows.map((row) => ({ ...row, coefficients: [2, ...row.coefficients] }))],
      times(n + 1, () => 1),
    );
    let round = 0;
    const { answer, parts } = watched(endlessly, (part) => {
      const rowPrices = new Float64Array(part.rowCount);
      rowPrices[round++] = 5;
      const optimum = { x: new Float64Array(part.columnCount), rowPrices, reducedCosts: rowPrices, cost: 0 };
      return { status: 'optimal', optimum, effort };
    });
    expect(answer).toBeUndefined();
    expect(parts.map((part) => part.columnCount)).toEqual(times(60, (k) => k + 1));
  });
});
