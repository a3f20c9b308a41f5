import { describe, expect, it } from 'vitest';
import { type CheckedProgram, checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { type Certified, climb, LADDER, pivotCap, type Rung } from '../../../src/core/optimise/lp/ladder.js';
import { WIDE } from '../../../src/core/optimise/lp/priced-in.js';
import { solveChecked, solveLp } from '../../../src/core/optimise/lp/solve.js';
import type { Column, LinearProgram, Row } from '../../../src/core/optimise/lp/types.js';
import { blendProgram } from '../../support/random-programs.js';

const of = (
  columns: readonly Omit<Column, 'name'>[],
  rows: readonly Omit<Row, 'name'>[],
  objective: readonly number[],
): LinearProgram => ({
  columns: columns.map((c, j) => ({ name: `x${j}`, ...c })),
  rows: rows.map((r, i) => ({ name: `r${i}`, ...r })),
  sense: 'min',
  objective,
});
const checked = (...args: Parameters<typeof of>): CheckedProgram => checkProgram(of(...args));

/** An engine to which 0.75 is nothing: it sees neither that 0.75 x can grow nor what holds it back. */
const blunt: Rung = { name: 'blunt', precision: 1, scaling: 'rows' };
const sharp: Rung = { name: 'sharp', precision: 1e-9, scaling: 'rows' };
const least = { coefficients: [0.75], low: 1.3 };
const feasible = checked([{}], [least], [1]);
const clash = checked([{}], [least, { coefficients: [0.75], high: 0.9 }], [1]);
/** Nothing to solve, but no sum that is a number. */
const overflowing = of([{ lower: 10, upper: 20 }], [{ coefficients: [1e308], low: 1 }], [1]);

describe('the ladder', () => {
  it('names each rung for what it does', () => {
    const names = LADDER.map(({ name }) => name);
    expect(new Set(names).size).toBe(LADDER.length);
    expect(names.every((name) => name.length > 0)).toBe(true);
    for (const { name, precision, scaling, seed } of LADDER) {
      expect(['rows', 'geometric']).toContain(scaling);
      expect(name.includes('plain'), name).toBe(scaling === 'rows');
      expect(name.includes('shuffled'), name).toBe(seed !== undefined);
      expect(Number(/1e-\d+/.exec(name)?.[0] ?? 1e-9), name).toBe(precision);
    }
  });

  it('solves a plain program from any of its rungs, with price ranges if asked', () => {
    const plain = checked([{}, { upper: 3 }], [{ coefficients: [1, 1], low: 4, high: 9 }], [3, 2]);
    for (const rung of LADDER) {
      const answer = climb(plain, { ladder: [rung] });
      expect(answer).toMatchObject({
        status: 'optimal',
        optimum: { cost: 9 },
        effort: { rung: 0, rungName: rung.name },
      });
      expect('priceRanges' in answer).toBe(false);
      expect(climb(plain, { ladder: [rung], ranges: true })).toMatchObject({ priceRanges: [{ from: 3, to: 9 }] });
    }
    const stated = of([{}, { upper: 3 }], [{ coefficients: [1, 1], low: 4, high: 9 }], [3, 2]);
    expect(solveLp(stated, { ranges: true })).toMatchObject({ objective: 9, priceRanges: [{ from: 3, to: 9 }] });
    expect('priceRanges' in solveLp(stated)).toBe(false);
  });

  it('shuffles rows and columns by a rung’s seed: the path of the pivots changes, the answer does not', () => {
    const program = checkProgram(blendProgram(7, { size: 30 }).program);
    const pivots = new Set<number>();
    for (let seed = 0; seed < 8; seed++) {
      const { status, effort } = climb(program, { ladder: [{ ...sharp, seed }] });
      expect(status).toBe('infeasible');
      expect(climb(program, { ladder: [{ ...sharp, seed }] }).effort).toEqual(effort);
      pivots.add(effort.pivots);
    }
    expect(pivots.size).toBeGreaterThan(4);
  });

  it('gives a run 100 pivots, two a side and two a column, and each later rung as much again', () => {
    expect(pivotCap({ width: 40, height: 10 }, 0)).toBe(200);
    expect(pivotCap({ width: 41, height: 10 }, 0)).toBe(202);
    expect(pivotCap({ width: 40, height: 10 }, 2)).toBe(600);
  });

  it('counts the pivots of all rungs and says which one was believed', () => {
    const one = climb(feasible, { ladder: [sharp] });
    expect(one.effort).toEqual({ rung: 0, rungName: 'sharp', pivots: 1, capped: 0 });
    const second = climb(feasible, { ladder: [blunt, sharp] });
    expect(second).toMatchObject({ status: 'optimal' });
    expect(second.effort).toEqual({ rung: 1, rungName: 'sharp', pivots: 1, capped: 0 });
    // Seen as feasible by the engine that looks closer than a point is judged, and so each time anew.
    const twice = climb(checkProgram(overflowing), { ladder: [sharp, sharp] });
    expect(twice).toEqual({
      status: 'uncertified',
      reason: 'no certificate after 2 tries (optimal, optimal)',
      effort: { rung: 2, rungName: 'none', pivots: 0, capped: 0 },
    });
  });
});

describe('a claim that nothing holds, without a proof', () => {
  const asking = (program: CheckedProgram, ladder: readonly Rung[], proven?: Certified) => {
    let asked = 0;
    const answer = climb(program, {
      ladder,
      proveInfeasible: () => {
        asked += 1;
        return proven;
      },
    });
    return { asked, answer };
  };
  const proof: Certified = {
    status: 'infeasible',
    rowProof: Float64Array.of(1, -1),
    columnProof: Float64Array.of(0),
  };

  it('is followed up at once, and once only', () => {
    expect(asking(clash, [blunt, blunt], proof)).toEqual({
      asked: 1,
      answer: { ...proof, effort: { rung: 0, rungName: 'blunt, elastic proof', pivots: 0, capped: 0 } },
    });
    const refused = asking(clash, [blunt, blunt]);
    expect(refused.asked).toBe(1);
    expect(refused.answer).toMatchObject({ reason: 'no certificate after 2 tries (infeasible, infeasible)' });
  });

  it('is not believed: the next rung may know better', () => {
    const { asked, answer } = asking(feasible, [blunt, sharp]);
    expect(asked).toBe(1);
    expect(answer).toMatchObject({ status: 'optimal', effort: { rung: 1 } });
  });

  it('is asked for in the end though no rung made it', () => {
    expect(asking(clash, [], proof)).toEqual({
      asked: 1,
      answer: { ...proof, effort: { rung: 0, rungName: 'elastic proof', pivots: 0, capped: 0 } },
    });
    expect(asking(checkProgram(overflowing), [sharp]).asked).toBe(1);
  });

  it('is not asked for where a rung proves its claim', () => {
    const { asked, answer } = asking(clash, [sharp], proof);
    expect(asked).toBe(0);
    expect(answer.status === 'infeasible' && Array.from(answer.rowProof).map(Math.sign)).toEqual([1, -1]);
  });
});

describe('the elastic program proves what no rung does', () => {
  it('that nothing holds, with the weight of each row; rows of zeros are no hindrance', () => {
    const rows = [
      { coefficients: [0, 0], high: 1 },
      { coefficients: [8, -8], low: 16 },
      { coefficients: [1, 0], high: 1 },
    ];
    const answer = solveChecked(checked([{}, {}], rows, [1, 1]), { ladder: [] });
    if (answer.status !== 'infeasible') throw new Error(answer.status);
    const [idle, more, less] = answer.rowProof;
    // 8x - 8y >= 16 against 8x <= 8.
    expect(idle).toBe(0);
    expect(less! / more!).toBe(-8);
    expect(answer.effort.rungName).toBe('elastic proof');
  });

  it('and is silent where something holds, or where it has no certificate itself', () => {
    expect(solveChecked(feasible, { ladder: [] })).toMatchObject({
      status: 'uncertified',
      reason: 'no certificate after 0 tries ()',
    });
    expect(solveLp(overflowing)).toMatchObject({ status: 'uncertified', effort: { rung: LADDER.length, capped: 0 } });
  });
});

describe('a wide program', () => {
  it('is solved by few of its columns, unless ranges or another ladder are asked for', () => {
    const pivots = (size: number) => {
      const program = checkProgram(blendProgram(2, { size }).program);
      const answers = [{}, { ladder: LADDER }, { ranges: true }, { ranges: false }].map((options) =>
        solveChecked(program, options),
      );
      const costs = answers.map((answer) => (answer.status === 'optimal' ? answer.optimum.cost : Number.NaN));
      for (const cost of costs) expect(cost / costs[0]!).toBeCloseTo(1, 9);
      expect(answers.map((answer) => 'priceRanges' in answer)).toEqual([false, false, true, false]);
      return answers.map(({ effort }) => effort.pivots);
    };
    // The rounds of few columns show in the pivots, which are those of the whole program otherwise.
    const [few, whole, ranged, unranged] = pivots(WIDE);
    expect(few).not.toBe(whole);
    expect([ranged, unranged]).toEqual([whole, few]);
    expect(new Set(pivots(WIDE - 1)).size).toBe(1);
  });
});

describe('what is seen at once', () => {
  it('is a row or column of crossed sides: no proof but itself', () => {
    const crossed = of([{}, { lower: 3, upper: 2 }], [{ coefficients: [1, 1], low: 1 }], [1, 1]);
    expect(solveLp(crossed)).toStrictEqual({
      status: 'infeasible',
      rowProof: [0],
      columnProof: [0, 0],
      crossed: { column: 1 },
      effort: { rung: 0, rungName: 'seen at once', pivots: 0, capped: 0 },
    });
  });

  it('is a row that the bounds keep from its side, though others can be met', () => {
    const rows = [
      { coefficients: [1, 1], low: 2 },
      { coefficients: [0, -3], low: 1 },
      { coefficients: [1, 0], high: 9 },
    ];
    expect(solveLp(of([{}, {}], rows, [1, 1]))).toMatchObject({
      rowProof: [0, 1, 0],
      columnProof: [0, 3],
      effort: { rungName: 'seen at once' },
    });
  });

  it('is not a row that just reaches its side, from below or from above', () => {
    const upper = { upper: 3 };
    expect(solveLp(of([upper], [{ coefficients: [2], low: 6 }], [1]))).toMatchObject({ status: 'optimal', x: [3] });
    expect(solveLp(of([{ lower: 3 }], [{ coefficients: [2], high: 6 }], [-1]))).toMatchObject({ x: [3] });
    // A hair out of reach is no contradiction either: it is left to the ladder, which forgives it.
    const hair = of([upper], [{ coefficients: [2], low: 6 * (1 + 1e-12) }], [1]);
    expect(solveLp(hair)).toMatchObject({ status: 'optimal', x: [3], effort: { rungName: 'first' } });
  });
});
