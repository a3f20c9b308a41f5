import { describe, expect, it } from 'vitest';
import { search } from '../../../src/core/optimise/lp/branch-and-bound.js';
import { checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { solveMilp } from '../../../src/core/optimise/lp/milp.js';
import type { Column, Row } from '../../../src/core/optimise/lp/types.js';
import { programOf as of } from '../../support/hand-program.js';
import { blendProgram } from '../../support/random-programs.js';
import { treeFaults } from '../../support/recheck.js';

const endless = Number.POSITIVE_INFINITY;
const whole = { integer: true };

/** Boxes whose relaxation only looks whole, has no certificate, or was certified at a second try. */

describe('a value that only looks whole', () => {
  // x + y = 2.0000005 at 1 and 10 a unit: x alone is whole to a millionth, but with x = 2 the row needs a bit of y.
  const row = { coefficients: [1, 1], low: 2.0000005, high: 2.0000005 };
  const nearly = of('min', [1, 10], [{ ...whole, upper: 9 }, {}], [row]);

  it('is made whole, and solved for the rest', () => {
    const answer = solveMilp(nearly, { gap: 1e-9, keepTree: true });
    if (answer.status !== 'optimal') throw new Error(answer.status);
    expect(answer.x[0]).toBe(2);
    expect(answer.x[1]).toBeCloseTo(5e-7, 15);
    // The root and the two halves, and the one program with x fixed.
    expect(answer.effort).toMatchObject({ nodes: 3, programs: 4 });
    expect(treeFaults(nearly, answer.tree!, answer.objective, 1e-9)).toEqual([]);
    expect(answer.tree!.map(({ lower, upper, why }) => [lower[0], upper[0], why])).toEqual([
      [0, 2, 'bound'],
      [3, 9, 'infeasible'],
    ]);
  });

  it('is branched on only where nothing is clearly fractional', () => {
    // z = 1.5 is split first: its halves are the outermost leaves.
    const both = of(
      'min',
      [1, 10, 1],
      [whole, {}, { ...whole, upper: 5 }],
      [
        { ...row, coefficients: [1, 1, 0] },
        { coefficients: [0, 0, 2], low: 3 },
      ],
    );
    const answer = solveMilp(both, { gap: 1e-9, keepTree: true });
    expect(answer).toMatchObject({ status: 'optimal', x: [2, expect.closeTo(5e-7, 12), 2] });
    const below = answer.status === 'optimal' ? answer.tree!.filter((leaf) => leaf.upper[2] === 1) : [];
    expect(below).toMatchObject([{ lower: [0, 0, 0], upper: [endless, endless, 1], why: 'infeasible' }]);
  });
});

describe('a box without a certificate', () => {
  const options = { nodeLimit: 1000, gap: 1e-6, shouldStop: () => false, keepLeaves: true };
  /** A cost of NaN, which checkProgram would refuse: no program with it has an optimum that can be certified. */
  const uncertain = (columns: readonly Omit<Column, 'name'>[], rows: readonly Omit<Row, 'name'>[]) => {
    const checked = checkProgram(
      of(
        'min',
        columns.map(() => 1),
        columns,
        rows,
      ),
    );
    return search(
      { ...checked, cost: checked.cost.map(() => Number.NaN) },
      columns.map((_, j) => j),
      options,
    );
  };

  it('is split until nothing is left to split, and then the search says so', () => {
    const result = uncertain([{ upper: 1 }, { lower: 4, upper: 6 }], []);
    // Six points take five splits.
    expect(result).toMatchObject({
      end: 'uncertified',
      best: undefined,
      bound: -endless,
      nodes: 11,
      programs: 11,
      mended: 0,
      leaves: [],
    });
  });

  it('is split where it is widest, in the middle', () => {
    const upperHalf = (columns: readonly Omit<Column, 'name'>[], wide: number) => {
      const row = { coefficients: columns.map((_, j) => Number(j === wide)), high: 3.5 };
      return uncertain(columns, [row]).leaves.map(({ lower, upper }) => [Array.from(lower), Array.from(upper)]);
    };
    const narrow = { lower: 10, upper: 11 };
    const wide = { upper: 7 };
    expect(upperHalf([narrow, wide], 1)).toEqual([
      [
        [10, 4],
        [11, 7],
      ],
    ]);
    expect(upperHalf([wide, narrow], 0)).toEqual([
      [
        [4, 10],
        [7, 11],
      ],
    ]);
  });

  it('leaves what is proven of the others: the search ends without an answer, but with what it found', () => {
    const program = of('min', [1], [{ ...whole, lower: 10, upper: 20 }], [{ coefficients: [1e308], low: 1 }]);
    const answer = solveMilp(program);
    expect(answer).toMatchObject({ status: 'stopped', why: 'uncertified', bound: -endless, gap: endless });
    // Eleven points, ten splits; none was mended by a later rung.
    expect(answer.effort).toMatchObject({ nodes: 21, programs: 21, mended: 0 });
    expect(solveMilp({ ...program, sense: 'max' })).toMatchObject({ bound: endless });
  });
});

it('a program on which the engine loops is mended by a later rung and counted', () => {
  // The seed is that of solve.test.ts; another ladder may need another.
  expect(solveMilp(blendProgram(50_680).program).effort).toMatchObject({ nodes: 1, programs: 1, mended: 1 });
});
