import { describe, expect, it } from 'vitest';
import { type PivotOutcome, type PivotProblem, runPivots } from '../../../src/core/optimise/lp/pivot-engine.js';

/** What is read off the engine's last tableau, on tableaux small enough to pivot by hand. */

/** Rows [0, -cost] and [right side, coefficients]. */
const tableau = (rows: readonly (readonly number[])[], twin: readonly number[] = rows.slice(1).map(() => -1)) => ({
  height: rows.length,
  width: rows[0]!.length,
  tableau: Float64Array.from(rows.flat()),
  twin: Int32Array.from(twin),
});
const run = <S extends PivotOutcome['status']>(
  problem: PivotProblem,
  status: S,
  precision = 1e-9,
): PivotOutcome & { status: S } => {
  const outcome = runPivots(problem, { precision, pivotCap: 100 });
  if (outcome.status !== status) throw new Error(outcome.status);
  return outcome as PivotOutcome & { status: S };
};
const plain = (values: Float64Array): number[] => Array.from(values, (value) => value + 0);
const endless = Number.POSITIVE_INFINITY;

describe('a program without an end', () => {
  it('comes with the point where it leaves the last corner and the direction it leaves in', () => {
    // min -3x - 4w + y + z, x - 3y <= 2, w - y/2 <= 1: from (2, 1, 0, 0) on, y by 1 lets x grow by 3 and w by 1/2.
    const outcome = run(
      tableau([
        [0, 3, 4, -1, -1],
        [2, 1, 0, -3, 0],
        [1, 0, 1, -0.5, 0],
      ]),
      'unbounded',
    );
    expect(plain(outcome.values)).toEqual([2, 1, 0, 0]);
    expect(plain(outcome.ray)).toEqual([3, 0.5, 1, 0]);
    expect(outcome.pivots).toBe(2);
  });

  it('may leave along the room of a row: min -x + 5y, x - y >= 1', () => {
    const outcome = run(
      tableau([
        [0, 1, -5],
        [-1, -1, 1],
      ]),
      'unbounded',
    );
    expect(plain(outcome.values)).toEqual([1, 0]);
    expect(plain(outcome.ray)).toEqual([1, 0]);
  });

  it('may leave from the start', () => {
    const outcome = run(tableau([[0, 3, -1]]), 'unbounded');
    expect(plain(outcome.values)).toEqual([0, 0]);
    expect(plain(outcome.ray)).toEqual([1, 0]);
    expect(outcome.pivots).toBe(0);
  });
});

describe('a contradiction', () => {
  it('is read off the row that misses most, whatever the costs: x <= 1 against x >= 4, x >= 2 has no part', () => {
    for (const cost of [-7, 0, 7]) {
      const outcome = run(
        tableau([
          [0, cost],
          [1, 1],
          [-2, -1],
          [-4, -1],
        ]),
        'infeasible',
      );
      expect(plain(outcome.multipliers)).toEqual([1, 0, 1]);
    }
  });

  it('weighs each row by what cancels: 2x + y <= 4 against x >= 2 and y >= 1', () => {
    const outcome = run(
      tableau([
        [0, -1, -1],
        [4, 2, 1],
        [-2, -1, 0],
        [-1, 0, -1],
      ]),
      'infeasible',
    );
    expect(plain(outcome.multipliers)).toEqual([1, 2, 1]);
  });

  it('of two is the worse one, and one row may do', () => {
    for (const [sides, multipliers] of [
      [
        [-1, -5],
        [0, 1],
      ],
      [
        [-5, -1],
        [1, 0],
      ],
    ] as const) {
      const outcome = run(
        tableau([
          [0, -1],
          [sides[0], 1],
          [sides[1], 1],
        ]),
        'infeasible',
      );
      expect(plain(outcome.multipliers)).toEqual(multipliers);
      expect(outcome.pivots).toBe(0);
    }
  });

  it('is none within the precision asked for', () => {
    const slight = tableau([
      [0, -1],
      [-0.5, 1],
    ]);
    run(slight, 'infeasible', 0.4);
    run(slight, 'optimal', 0.6);
  });
});

describe('an optimum', () => {
  it('has no price and no range for a constraint with room', () => {
    // min -x, x <= 4, x <= 9.
    const outcome = run(
      tableau([
        [0, 1],
        [4, 1],
        [9, 1],
      ]),
      'optimal',
    );
    expect(plain(outcome.values)).toEqual([4]);
    expect(plain(outcome.prices)).toEqual([-1, 0]);
    expect(plain(outcome.room().fall)).toEqual([4, Number.NaN]);
    expect(plain(outcome.room().rise)).toEqual([5, Number.NaN]);
    // 4x <= 8: may fall to 0, and rise to 36, where x is 9.
    const steep = run(
      tableau([
        [0, 1],
        [8, 4],
        [9, 1],
      ]),
      'optimal',
    );
    expect([steep.room().fall[0], steep.room().rise[0]]).toEqual([8, 28]);
  });

  it('lets the two halves of an equality move together, but not two sides that merely meet', () => {
    // min x + 3y with x + y = 4 in halves, x <= 3: the sum may fall by 1 and rise without end.
    const halves = [
      [0, -1, -3],
      [-4, -1, -1],
      [4, 1, 1],
      [3, 1, 0],
    ];
    const together = run(tableau(halves, [1, 0, -1]), 'optimal');
    const apart = run(tableau(halves), 'optimal');
    expect(plain(together.values)).toEqual([3, 1]);
    expect(plain(together.prices)).toEqual([-3, 0, -2]);
    // The right side of the low half is -4: it falls as the sum rises.
    expect(plain(together.room().fall)).toEqual([endless, Number.NaN, 3]);
    expect(plain(together.room().rise)).toEqual([1, Number.NaN, 1]);
    expect(plain(apart.room().fall)).toEqual([0, Number.NaN, 3]);
    expect(plain(apart.room().rise)).toEqual([1, Number.NaN, 1]);
  });

  it('takes what lies a hair below zero for zero room', () => {
    // min -y, y - x <= 0 and once more a hair tighter, x <= 1: the first binds, the second is missed by the hair.
    const outcome = run(
      tableau([
        [0, 0, 1],
        [0, -1, 1],
        [-1e-12, -1, 1],
        [1, 1, 0],
      ]),
      'optimal',
    );
    expect(plain(outcome.values)).toEqual([1, 1]);
    expect(outcome.room().rise[0]).toBe(0);
  });
});

describe('the engine', () => {
  it('is stopped after so many pivots, not before', () => {
    const three = tableau([
      [0, 1, 1, 1],
      [1, 1, 0, 0],
      [1, 0, 1, 0],
      [1, 0, 0, 1],
    ]);
    expect(runPivots(three, { precision: 1e-9, pivotCap: 2 })).toEqual({ status: 'capped', pivots: 3 });
    expect(runPivots(three, { precision: 1e-9, pivotCap: 3 })).toMatchObject({ status: 'optimal', pivots: 3 });
  });

  it('may fail for another reason, which is not taken for a loop', () => {
    const options = {
      precision: 1e-9,
      get pivotCap(): number {
        throw new RangeError('out of order');
      },
    };
    expect(() =>
      runPivots(
        tableau([
          [0, 1],
          [1, 1],
        ]),
        options,
      ),
    ).toThrow('out of order');
  });
});
