import { describe, expect, test } from 'vitest';
import { elastic } from '../../../src/core/optimise/lp/elastic.js';
import { solveLp } from '../../../src/core/optimise/lp/solve.js';
import type { LinearProgram, Row } from '../../../src/core/optimise/lp/types.js';
import { highsReference } from '../../support/highs-reference.js';
import { anyProgram, blendProgram } from '../../support/random-programs.js';
import { boxOf, infeasibleFaults, pointFaults } from '../../support/recheck.js';

const clash: LinearProgram = {
  columns: [{ name: 'x' }, { name: 'y' }],
  rows: [
    { name: 'enough', coefficients: [1, 1], low: 10 },
    { name: 'x at most', coefficients: [1, 0], high: 4 },
    { name: 'y at most', coefficients: [0, 1], high: 2 },
  ],
  sense: 'min',
  objective: [1, 1],
};

/** The program with its sides moved by the relaxations: what the answer claims to be feasible. */
function relaxed(program: LinearProgram, answer: ReturnType<typeof elastic>): LinearProgram {
  if (answer.status !== 'measured') throw new Error(answer.status);
  const given = (what: 'row' | 'column', index: number, side: 'low' | 'high'): number =>
    answer.relaxations.filter((r) => r[what] === index && r.side === side).reduce((sum, r) => sum + r.amount, 0);
  const rows = program.rows.map((row, i): Row => {
    const low = (row.low ?? Number.NEGATIVE_INFINITY) - given('row', i, 'low');
    const high = (row.high ?? Number.POSITIVE_INFINITY) + given('row', i, 'high');
    return { ...row, low: Math.min(low, high), high };
  });
  const columns = program.columns.map((column, j) => ({
    ...column,
    lower: (column.lower ?? 0) - given('column', j, 'low'),
    upper: (column.upper ?? Number.POSITIVE_INFINITY) + given('column', j, 'high'),
  }));
  return { ...program, columns, rows };
}

/** The elastic program written out here once more, for HiGHS. */
function writtenOut(program: LinearProgram): LinearProgram {
  const n = program.columns.length;
  const sides = program.rows.flatMap((row, i) => [
    ...(row.low === undefined ? [] : [{ i, sign: 1 }]),
    ...(row.high === undefined ? [] : [{ i, sign: -1 }]),
  ]);
  const scale = (row: Row): number =>
    row.scale ?? Math.max(...[row.low, row.high].flatMap((s) => (s === undefined ? [] : [Math.abs(s)])), 0.01);
  const extend = (coefficients: readonly number[], row: (k: number) => number): number[] => [
    ...coefficients,
    ...sides.map((_, k) => row(k)),
  ];
  const rows = sides.map(({ i, sign }, k): Row => {
    const row = program.rows[i]!;
    const coefficients = extend(row.coefficients, (other) => (other === k ? sign * scale(row) : 0));
    return sign === 1
      ? { name: row.name, coefficients, low: row.low! }
      : { name: row.name, coefficients, high: row.high! };
  });
  return {
    columns: [...program.columns, ...sides.map((_, k) => ({ name: `give ${k}` }))],
    rows,
    sense: 'min',
    objective: extend(new Array<number>(n).fill(0), () => 1),
  };
}

describe('elastic', () => {
  test('gives way where it costs least in shares of the scale', () => {
    const answer = elastic(clash);
    // 4 are missing: 4/10 of "enough" is cheaper than 4/4 of x or 4/2 of y.
    expect(answer).toMatchObject({ status: 'measured', total: 0.4 });
    expect(answer.status === 'measured' && answer.relaxations).toEqual([
      { row: 0, side: 'low', amount: 4, weighed: 0.4 },
    ]);
  });

  test('heeds the stated scale, prices and hard rows', () => {
    const rows = clash.rows.map((row, i) => (i === 1 ? { ...row, scale: 100 } : row));
    const scaled = elastic({ ...clash, rows });
    expect(scaled.status === 'measured' && scaled.relaxations).toEqual([
      { row: 1, side: 'high', amount: 4, weighed: 0.04 },
    ]);
    const priced = elastic(clash, { rowPrice: (i) => (i === 0 ? 9 : 1) });
    expect(priced.status === 'measured' && priced.relaxations).toEqual([
      { row: 1, side: 'high', amount: 4, weighed: 1 },
    ]);
    const hard = elastic(clash, { relaxRow: (i) => i === 2 });
    expect(hard.status === 'measured' && hard.relaxations).toEqual([{ row: 2, side: 'high', amount: 4, weighed: 2 }]);
    expect(elastic(clash, { relaxRow: () => false }).status).toBe('infeasible');
  });

  test('bounds give way too, but not zero bounds: no negative amounts', () => {
    const columns = [
      { name: 'x', upper: 3 },
      { name: 'y', upper: 1 },
    ];
    const answer = elastic({ ...clash, columns, rows: clash.rows.slice(0, 1) }, { relaxRow: () => false });
    expect(answer.status === 'measured' && answer.relaxations).toEqual([
      { column: 0, side: 'high', amount: 6, weighed: 2 },
    ]);
    const negative = elastic({ ...clash, rows: [{ name: 'r', coefficients: [1, 1], high: -1 }] });
    expect(negative.status === 'measured' && negative.x).toEqual([0, 0]);
    const dear = elastic({ ...clash, rows: [{ name: 'r', coefficients: [1, 1], high: -1 }] }, { rowPrice: () => 1e6 });
    expect(dear.status === 'measured' && dear.x).toEqual([0, 0]);
  });

  test('crossed sides and bounds are measured like any others', () => {
    const rows = [{ name: 'window', coefficients: [1, 0], low: 3, high: 2 }];
    const answer = elastic({ ...clash, rows });
    expect(answer.status === 'measured' && answer.total).toBeCloseTo(1 / 3, 9);
    const columns = [{ name: 'x', lower: 2, upper: 1 }, { name: 'y' }];
    expect(elastic({ ...clash, columns, rows: [] })).toMatchObject({ status: 'measured', total: 0.5 });
    expect(elastic({ ...clash, columns, rows: [] }, { relaxBound: () => false }).status).toBe('infeasible');
  });

  test('random programs: total equals HiGHS on the elastic program written out, the point holds, the prices prove', async () => {
    const reference = await highsReference();
    let measured = 0;
    let feasible = 0;
    for (let seed = 1; seed <= 90; seed++) {
      const program = seed % 3 === 0 ? anyProgram(seed) : blendProgram(seed, { size: 8 + (seed % 20) }).program;
      const answer = elastic(program, { relaxBound: () => false });
      if (answer.status !== 'measured') throw new Error(`${seed}: ${answer.status}`);
      const expected = reference(writtenOut(program));
      expect(expected.status).toBe('optimal');
      expect(Math.abs(answer.total - expected.objective), `seed ${seed}`).toBeLessThanOrEqual(
        1e-7 * Math.max(1, expected.objective),
      );
      expect(answer.total === 0, `seed ${seed}`).toBe(solveLp(program).status !== 'infeasible');
      expect(pointFaults(relaxed(program, answer), answer.x), `seed ${seed}`).toEqual([]);
      if (answer.total === 0) feasible += 1;
      else {
        measured += 1;
        const crossed = program.rows.some((row) => (row.low ?? -Infinity) > (row.high ?? Infinity));
        if (!crossed) expect(infeasibleFaults(program, answer.rowPrices, boxOf(program))).toEqual([]);
      }
    }
    expect(measured).toBeGreaterThan(15);
    expect(feasible).toBeGreaterThan(45);
  });
});
