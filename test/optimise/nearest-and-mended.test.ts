import { describe, expect, it } from 'vitest';
import type { Target } from '../../src/core/blend/target.js';
import type { BlendProgram, RowOrigin } from '../../src/core/optimise/blend-program.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import type { LinearProgram, Row } from '../../src/core/optimise/lp/types.js';
import { mendingProgram } from '../../src/core/optimise/mend.js';
import { nearestProgram } from '../../src/core/optimise/nearest.js';
import { NO_SIZE } from '../../src/core/optimise/rows.js';

/** Programs of one or two stuffs by hand: what a row stands for decides whether it may be missed. */
const fixed: RowOrigin = { kind: 'fixed' };
const asked = (kind: 'target' | 'standing', side: 'min' | 'max'): RowOrigin => {
  const target: Target = { property: 'flow', [side]: 1 };
  return { kind, target, side };
};
const programOf = (names: readonly string[], rows: readonly (readonly [Row, RowOrigin])[]): BlendProgram => ({
  columns: names.map((name) => ({ name })),
  rows: rows.map(([row]) => row),
  origins: rows.map(([, origin]) => origin),
});
const optimum = (program: LinearProgram) => {
  const answer = solveLp(program);
  if (answer.status !== 'optimal') throw new Error(answer.status);
  return answer;
};

describe('the nearest blend', () => {
  const FULL: Row = { name: 'full', coefficients: [1], low: 100, high: 100, scale: 100 };
  const LIGHT: Row = { name: 'light', coefficients: [1], high: 80, scale: 80 };
  const HEAVY: Row = { name: 'heavy', coefficients: [1], low: 120, scale: 120 };

  it('misses a target in shares of it, and never what is fixed', () => {
    const nearest = optimum(
      nearestProgram(
        programOf(
          ['x'],
          [
            [FULL, fixed],
            [LIGHT, asked('target', 'max')],
          ],
        ),
      ),
    );
    // 100 instead of 80: a quarter.
    expect(nearest.x[0]).toBeCloseTo(100, 9);
    expect(nearest.x[1]).toBeCloseTo(0.25, 9);
    expect(nearest.objective).toBeCloseTo(0.25, 9);
  });

  it('pays ten times as much for a standing limit', () => {
    const rows = [
      [FULL, fixed],
      [LIGHT, asked('target', 'max')],
      [HEAVY, asked('standing', 'min')],
    ] as const;
    const nearest = optimum(nearestProgram(programOf(['x'], rows)));
    // A quarter of the target and a sixth of the standing limit.
    expect(nearest.x.slice(1)).toEqual([expect.closeTo(0.25, 9), expect.closeTo(1 / 6, 9)]);
    expect(nearest.objective).toBeCloseTo(0.25 + 10 / 6, 9);
    // Free to choose, it keeps the standing limit and gives up the target.
    const free = optimum(nearestProgram(programOf(['x'], rows.slice(1))));
    expect(free.x[0]).toBeCloseTo(120, 6);
  });

  it('names the misses, asks for nothing else, and leaves the program it was made from as it is', () => {
    const program = programOf(
      ['x', 'y'],
      [
        [{ name: 'full', coefficients: [1, 1], low: 100, high: 100 }, fixed],
        [{ name: 'light', coefficients: [1, 0], high: 80, scale: 80 }, asked('target', 'max')],
        [{ name: 'sandy', coefficients: [0, 1], low: 30, scale: 40 }, asked('standing', 'min')],
      ],
    );
    const before = structuredClone(program);
    expect(nearestProgram(program)).toEqual({
      columns: [{ name: 'x' }, { name: 'y' }, { name: 'miss light' }, { name: 'miss sandy' }],
      rows: [
        { name: 'full', coefficients: [1, 1, 0, 0], low: 100, high: 100 },
        { name: 'light', coefficients: [1, 0, -80, 0], high: 80, scale: 80 },
        { name: 'sandy', coefficients: [0, 1, 0, 40], low: 30, scale: 40 },
      ],
      sense: 'min',
      objective: [0, 0, 1, 10],
    });
    expect(program).toEqual(before);
  });

  it('misses a row without a size of its own by the unit', () => {
    const bare: Row = { name: 'light', coefficients: [1], high: 80 };
    const { rows } = nearestProgram(programOf(['x'], [[bare, asked('target', 'max')]]));
    expect(rows).toEqual([{ name: 'light', coefficients: [1, -1], high: 80 }]);
  });

  it('gives up for nothing a limit on what the blend has nothing of', () => {
    const none: Row = { name: 'none', coefficients: [1], high: 80, scale: NO_SIZE };
    const program = programOf(
      ['x'],
      [
        [none, asked('target', 'max')],
        [HEAVY, asked('target', 'min')],
      ],
    );
    const nearest = nearestProgram(program);
    expect(nearest.columns.map((c) => c.name)).toEqual(['x', 'miss heavy']);
    expect(nearest.rows).toEqual([
      { name: 'none', coefficients: [1, 0] },
      { name: 'heavy', coefficients: [1, 120], low: 120, scale: 120 },
    ]);
    const least: Row = { ...none, scale: 2 * NO_SIZE };
    expect(nearestProgram(programOf(['x'], [[least, asked('target', 'max')]])).columns).toHaveLength(2);
  });
});

describe('a blend that is mended', () => {
  /** So far inside its limits, in shares of a row's size, that no solver's tolerance leads out again. */
  const INSIDE = 3e-5;
  const program = programOf(
    ['x', 'y'],
    [
      [{ name: 'full', coefficients: [1, 1], low: 10, high: 10, scale: 10 }, fixed],
      [{ name: 'light', coefficients: [1, 0], high: 4, scale: 4 }, asked('target', 'max')],
    ],
  );

  it('moves no further than the limit that was missed, and keeps what is fixed', () => {
    const mended = optimum(mendingProgram(program, [5, 5]));
    expect(mended.x[0]).toBeCloseTo(4 * (1 - INSIDE), 9);
    expect(mended.x[1]).toBeCloseTo(10 - 4 * (1 - INSIDE), 9);
    // Both move by as much, each a fifth of what is there per gram.
    // (beside a constant, 1 for each).
    expect(mended.objective - 2).toBeCloseTo((2 * (5 - 4 * (1 - INSIDE))) / 5, 9);
  });

  it('stays where it is when nothing is missed', () => {
    const mended = optimum(mendingProgram(program, [3, 7]));
    expect(mended.x.slice(0, 2)).toEqual([expect.closeTo(3, 9), expect.closeTo(7, 9)]);
    expect(mended.objective - 2).toBeCloseTo(0, 9);
  });

  it('counts a move in shares of what is there, at least of a thousandth of the whole', () => {
    const { columns, rows, objective, sense } = mendingProgram(program, [8, 0]);
    expect(sense).toBe('min');
    expect(columns.map((c) => c.name)).toEqual(['x', 'y', 'x down']);
    expect(objective).toEqual([1 / 8, 1 / 0.008, 2 / 8]);
    expect(rows.slice(2)).toEqual([{ name: 'move 0', coefficients: [1, 0, 1], low: 8, scale: 8 }]);
  });

  it('is put inside both sides of a limit, by a share of its size, or of one where it has none', () => {
    const window = programOf(
      ['x'],
      [
        [{ name: 'fixed', coefficients: [1], low: 1, high: 9, scale: 5 }, fixed],
        [{ name: 'window', coefficients: [2], low: 4, high: 6, scale: 50 }, asked('target', 'min')],
        [{ name: 'bare', coefficients: [3], high: 6 }, asked('standing', 'max')],
        // A limit on what the blend lacks holds as it is.
        [{ name: 'none', coefficients: [0], low: 0, high: 7, scale: NO_SIZE }, asked('standing', 'max')],
        [{ name: 'hardly', coefficients: [1], low: 0, scale: 2 * NO_SIZE }, asked('standing', 'min')],
      ],
    );
    expect(mendingProgram(window, [3]).rows.slice(0, 5)).toEqual([
      { name: 'fixed', coefficients: [1, 0], low: 1, high: 9, scale: 5 },
      { name: 'window', coefficients: [2, 0], low: 4 + 50 * INSIDE, high: 6 - 50 * INSIDE, scale: 50 },
      { name: 'bare', coefficients: [3, 0], high: 6 - INSIDE },
      { name: 'none', coefficients: [0, 0], low: 0, high: 7, scale: NO_SIZE },
      { name: 'hardly', coefficients: [1, 0], low: 2 * NO_SIZE * INSIDE, scale: 2 * NO_SIZE },
    ]);
  });
});
