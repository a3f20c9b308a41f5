import { describe, expect, it } from 'vitest';
import { search } from '../../../src/core/optimise/lp/branch-and-bound.js';
import { checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { solveMilp } from '../../../src/core/optimise/lp/milp.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';

/** What a mixed-integer answer says, word by word. */
const none = { nodes: 0, programs: 0, mended: 0, pivots: 0 };
const one = (
  column: { lower?: number; upper?: number; integer?: boolean },
  sense: 'min' | 'max' = 'max',
): LinearProgram => ({
  columns: [{ name: 'x', integer: true, ...column }],
  rows: [{ name: 'r', coefficients: [2], high: 5 }],
  sense,
  objective: [3],
});

describe('infeasible', () => {
  it('by crossed sides, which need no search', () => {
    expect(solveMilp(one({ lower: 2, upper: 1 }))).toStrictEqual({
      status: 'infeasible',
      crossed: { column: 0 },
      effort: none,
    });
  });

  it('by a column that holds no whole number, which needs none either', () => {
    const stated = one({ lower: 1.2, upper: 1.8 });
    expect(solveMilp(stated)).toStrictEqual({ status: 'infeasible', emptyColumn: 0, effort: none });
    expect(solveMilp(stated, { keepTree: true })).toStrictEqual({
      status: 'infeasible',
      emptyColumn: 0,
      effort: none,
      tree: [],
    });
    const options = { nodeLimit: 9, gap: 0, shouldStop: () => false, keepLeaves: true };
    expect(search(checkProgram(stated), [0], options)).toMatchObject({
      end: 'exhausted',
      bound: Number.POSITIVE_INFINITY,
    });
  });

  it('by multipliers, with the signs of a proof whatever the sense', () => {
    for (const sense of ['min', 'max'] as const) {
      expect(solveMilp(one({ lower: 3 }, sense), { keepTree: true })).toStrictEqual({
        status: 'infeasible',
        effort: { ...none, nodes: 1, programs: 1 },
        tree: [{ lower: [3], upper: [Number.POSITIVE_INFINITY], why: 'infeasible', rows: [-1] }],
      });
    }
  });
});

describe('optimal', () => {
  it('in the stated sense, prices of the leaves too', () => {
    expect(
      solveMilp({ ...one({}), rows: [{ name: 'r', coefficients: [2], high: 4 }] }, { keepTree: true }),
    ).toMatchObject({
      status: 'optimal',
      x: [2],
      objective: 6,
      bound: 6,
      gap: 0,
      tree: [{ why: 'bound', rows: [1.5] }],
    });
    expect(solveMilp(one({ lower: -1 }, 'min'))).toMatchObject({ x: [-1], objective: -3, bound: -3, gap: 0 });
  });

  it('at zero without a sign, with no gap', () => {
    const answer = solveMilp(one({ upper: 0 }));
    expect(answer).toMatchObject({ x: [0], objective: 0, bound: 0, gap: 0 });
  });

  it('keeps leaves only where they are asked for', () => {
    const options = { nodeLimit: 9, gap: 0, shouldStop: () => false };
    const leaves = (keepLeaves: boolean) =>
      search(checkProgram(one({})), [0], { ...options, keepLeaves }).leaves.length;
    expect(leaves(false)).toBe(0);
    expect(leaves(true)).toBeGreaterThan(0);
  });
});

it('unbounded, with the point and the ray in the columns', () => {
  expect(solveMilp({ ...one({}), rows: [], sense: 'max' })).toStrictEqual({
    status: 'unbounded',
    point: [0],
    ray: [1],
    effort: { ...none, nodes: 1, programs: 1 },
  });
});

describe('the limits that hold where none is stated', () => {
  // 2x + 2y is never odd: two boxes for each value of x, to see that none will do.
  const odd = (values: number): LinearProgram => ({
    columns: ['x', 'y'].map((name) => ({ name, upper: values, integer: true })),
    rows: [{ name: 'odd', coefficients: [2, 2], low: 2 * values + 1, high: 2 * values + 1 }],
    sense: 'min',
    objective: [1, 0],
  });

  it('let a search of hundreds of boxes and pivots come to its end', () => {
    const answer = solveMilp(odd(60));
    expect(answer.status).toBe('infeasible');
    expect(answer.effort.nodes).toBeGreaterThan(200);
    expect(solveMilp(odd(60), { nodeLimit: 200 })).toMatchObject({ status: 'stopped', effort: { nodes: 200 } });
  });

  it('are content with a millionth, and with no less than a billionth', () => {
    // One of x and y; the known point has x, and y is better by so much.
    const found = (gain: number, gap?: number) => {
      const program: LinearProgram = {
        columns: ['x', 'y'].map((name) => ({ name, upper: 1, integer: true })),
        rows: [{ name: 'one', coefficients: [2, 2], high: 2 }],
        sense: 'max',
        objective: [1, 1 + gain],
      };
      const answer = solveMilp(program, { incumbent: [1, 0], ...(gap === undefined ? {} : { gap }) });
      return answer.status === 'optimal' && answer.x[1] === 1;
    };
    expect([found(5e-7), found(2e-6)]).toEqual([false, true]);
    expect([found(5e-10, 0), found(2e-9, 0)]).toEqual([false, true]);
    expect([found(5e-3, 1e-2), found(2e-2, 1e-2)]).toEqual([false, true]);
  });
});
