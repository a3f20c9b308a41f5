import { describe, expect, it } from 'vitest';
import { type MilpAnswer, type MilpOptions, solveMilp } from '../../../src/core/optimise/lp/milp.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';
import { programOf as of } from '../../support/hand-program.js';

const endless = Number.POSITIVE_INFINITY;
const whole = { integer: true };

/** Taha, Operations Research, ch. 9 (from memory): 23 at (3, 2), relaxation 23.75 at (3.75, 1.25). */
const taha = of(
  'max',
  [5, 4],
  [whole, whole],
  [
    { coefficients: [1, 1], high: 5 },
    { coefficients: [10, 6], high: 45 },
  ],
);

describe('a tree walked by hand', () => {
  /*
   * 1  root 23.75 at (3.75, 1.25); rounded (4, 1) and (4, 2) break a row, (3, 1) is the first point: 19.
   * 2  x >= 4: 23 1/3 at (4, 5/6); from 7 on x costs more than the 4 1/3 there is room for: that slab is closed.
   * 3  x 4 to 6, y >= 1: 40 + 6 > 45, empty.
   * 4  x <= 3: 23 at (3, 2), whole and the best.
   * 5  x 4 to 6, y = 0: 22.5, no better.
   */
  it('has five boxes and the leaves that tile the plane', () => {
    expect(solveMilp(taha, { keepTree: true })).toEqual({
      status: 'optimal',
      x: [3, 2],
      objective: 23,
      bound: 23,
      gap: 0,
      effort: { nodes: 5, programs: 8, mended: 0, pivots: 7 },
      tree: [
        { lower: [7, 0], upper: [endless, endless], why: 'bound', rows: [0, expect.closeTo(2 / 3, 12)] },
        { lower: [4, 1], upper: [6, endless], why: 'infeasible', rows: [0, -1] },
        { lower: [0, 0], upper: [3, endless], why: 'bound', rows: [4, 0] },
        { lower: [4, 0], upper: [6, 0], why: 'bound', rows: [0, 0.5] },
      ],
    });
  });

  it('is cut short where what is left is within the gap, and says how far it may be off', () => {
    const answer = solveMilp(taha, { gap: 0.05 });
    expect(answer).toMatchObject({ status: 'optimal', x: [3, 2], effort: { nodes: 4, programs: 7 } });
    expect(answer.status === 'optimal' && answer.bound).toBeCloseTo(70 / 3, 9);
    expect(answer.status === 'optimal' && answer.gap).toBeCloseTo(1 / 69, 9);
    // A box closed unopened is closed by what its parent proved.
    const tree = solveMilp(taha, { gap: 0.05, keepTree: true });
    expect(tree.status === 'optimal' && tree.tree?.at(-1)).toMatchObject({
      lower: [4, 0],
      upper: [6, 0],
      rows: [0, expect.closeTo(2 / 3, 12)],
    });
    expect('tree' in answer).toBe(false);
  });

  it.each<[string, MilpOptions, object]>([
    ['after one box', { nodeLimit: 1 }, { best: { x: [3, 1], objective: 19 }, bound: 23.75, gap: 0.25 }],
    ['after two boxes', { nodeLimit: 2 }, { effort: { nodes: 2, programs: 5, mended: 0, pivots: 4 } }],
    ['after one pivot, at the next box', { pivotLimit: 1 }, { why: 'node-limit', effort: { nodes: 1 } }],
    ['after just as many pivots as were made', { pivotLimit: 2 }, { why: 'node-limit', effort: { nodes: 1 } }],
    ['after one more', { pivotLimit: 3 }, { why: 'node-limit', effort: { nodes: 2 } }],
    ['after no pivot', { pivotLimit: 0 }, { effort: { nodes: 0, programs: 0 } }],
    ['when asked', { shouldStop: () => true }, { why: 'asked', gap: endless, effort: { nodes: 0 } }],
    ['knowing a worse point than it finds', { nodeLimit: 1, incumbent: [0, 0] }, { best: { x: [3, 1] } }],
    [
      'knowing a better point than it finds',
      { nodeLimit: 1, incumbent: [3, 2] },
      { best: { x: [3, 2], objective: 23 } },
    ],
  ])('stops %s', (_, options, expected) => {
    expect(solveMilp(taha, options)).toMatchObject({ status: 'stopped', ...expected });
  });

  it('knows no point that breaks a row, is too short, or is whole in part only', () => {
    for (const incumbent of [[5, 1], [3], [1, 0.5], [0.5, 1]]) {
      expect('best' in solveMilp(taha, { nodeLimit: 0, incumbent })).toBe(false);
    }
    expect(solveMilp(taha, { nodeLimit: 0, incumbent: [1, 1] })).toMatchObject({ best: { x: [1, 1], objective: 9 } });
  });
});

describe('a point is looked for at once', () => {
  const first = (program: LinearProgram): MilpAnswer => solveMilp(program, { nodeLimit: 1 });
  const found = (program: LinearProgram): readonly number[] | undefined => {
    const answer = first(program);
    return answer.status === 'stopped' ? answer.best?.x : answer.status === 'optimal' ? answer.x : undefined;
  };

  it('by rounding up where rounding to the nearest breaks a row, and what is whole stays so', () => {
    // 3x >= 4: 4/3, and 2z = 4 as it stands.
    const up = of(
      'min',
      [1, 1],
      [whole, whole],
      [
        { coefficients: [3, 0], low: 4 },
        { coefficients: [0, 2], low: 4, high: 4 },
      ],
    );
    expect(found(up)).toEqual([2, 2]);
  });

  it('by rounding down likewise', () => {
    const down = of(
      'max',
      [1, 1],
      [whole, whole],
      [
        { coefficients: [3, 0], high: 5 },
        { coefficients: [0, 2], low: 4, high: 4 },
      ],
    );
    expect(found(down)).toEqual([1, 2]);
  });

  it('by rounding to the nearest where neither all up nor all down will do', () => {
    // x = 1.3 and z = 0.8: up breaks x + z <= 2.1, down breaks x + z >= 1.9; (1, 1) holds both.
    const near = of(
      'max',
      [1, 1],
      [{ ...whole, upper: 1.3 * 2 }, whole],
      [
        { coefficients: [10, 0], low: 8, high: 13 },
        { coefficients: [0, 10], low: 8, high: 8.5 },
        { coefficients: [1, 1], low: 1.9, high: 2.15 },
      ],
    );
    expect(solveMilp(near)).toMatchObject({ status: 'infeasible' });
    const wider = { ...near, rows: near.rows.map((row, i) => (i === 1 ? { ...row, high: 10.5 } : row)) };
    expect(found(wider)).toEqual([1, 1]);
  });

  it('and the other columns are solved for once more: x down to 1, y makes up for it', () => {
    const mixed = of(
      'min',
      [1, 3],
      [whole, { upper: 0.9 }],
      [
        { coefficients: [4, 4], low: 5.2 },
        { coefficients: [4, 0], high: 5.2 },
      ],
    );
    const answer = first(mixed);
    expect(answer).toMatchObject({ status: 'stopped', effort: { nodes: 1, programs: 4 } });
    expect(answer.status === 'stopped' && answer.best?.x[1]).toBeCloseTo(0.3, 9);
  });

  it('is not looked for where the relaxation is whole: one program is enough', () => {
    const program = of('max', [1, 1], [whole, {}], [{ coefficients: [1, 2], high: 4 }]);
    expect(first(program)).toMatchObject({ status: 'optimal', x: [4, 0], effort: { nodes: 1, programs: 1 } });
  });

  it('is looked for again only while none is known, and in forty boxes at most', () => {
    // 2x + 2y is never odd: each box but the last is split at a fraction, and none has a point.
    const odd = of(
      'min',
      [1, 0],
      [
        { ...whole, upper: 30 },
        { ...whole, upper: 30 },
      ],
      [{ coefficients: [2, 2], low: 61, high: 61 }],
    );
    const answer = solveMilp(odd, { keepTree: true });
    if (answer.status !== 'infeasible') throw new Error(answer.status);
    const { nodes, programs } = answer.effort;
    expect(nodes).toBeGreaterThan(100);
    // Three roundings in each of the forty that have a relaxation to round.
    const split = answer.tree!.length - 1;
    expect(nodes).toBe(split + answer.tree!.length);
    expect(programs - nodes).toBeLessThanOrEqual(3 * 40);
    expect(programs - nodes).toBeGreaterThanOrEqual(3 * 20);
  });
});
