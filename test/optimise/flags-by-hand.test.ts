import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import type { BlendProgram } from '../../src/core/optimise/blend-program.js';
import { type Flagged, flagsUp, mostOfEach, withFlags } from '../../src/core/optimise/flags.js';
import { solveMilp } from '../../src/core/optimise/lp/milp.js';
import type { LinearProgram, Row } from '../../src/core/optimise/lp/types.js';
import { questionOf } from '../support/hand-question.js';

/** Three stuffs that fill 100 g between them; the first is the cheapest, then the second. */
const PROGRAM: LinearProgram = {
  columns: [{ name: 'a' }, { name: 'b' }, { name: 'c', upper: 80 }],
  rows: [{ name: 'full', coefficients: [1, 1, 1], low: 100, high: 100 }],
  sense: 'min',
  objective: [1, 2, 3],
};
const flag = (material: number, more: Partial<Flagged> = {}): Flagged => ({
  material,
  least: 5,
  most: 60,
  counted: true,
  kept: false,
  ...more,
});

describe('a program with flags', () => {
  it('has a 0/1 column for each ingredient that may be left out, and rows that tie its grams to it', () => {
    const flagged = [flag(0), flag(2, { least: 0, most: 80, counted: false, kept: true })];
    expect(withFlags(PROGRAM, flagged, 1, [[0], [0, 2]])).toEqual({
      columns: [
        ...PROGRAM.columns,
        { name: 'uses a', lower: 0, upper: 1, integer: true },
        { name: 'uses c', lower: 1, upper: 1, integer: true },
      ],
      rows: [
        { name: 'full', coefficients: [1, 1, 1, 0, 0], low: 100, high: 100 },
        { name: 'a only if used', coefficients: [1, 0, 0, -60, 0], high: 0, scale: 60 },
        { name: 'a at least', coefficients: [1, 0, 0, -5, 0], low: 0, scale: 5 },
        { name: 'c only if used', coefficients: [0, 0, 1, 0, -80], high: 0, scale: 80 },
        // Only the first is counted.
        { name: 'ingredients', coefficients: [0, 0, 0, 1, 0], high: 1 },
        // Of the first alone: its flag up and the other down, once too often.
        { name: 'not set 0 again', coefficients: [0, 0, 0, 1, -1], high: 0 },
        { name: 'not set 1 again', coefficients: [0, 0, 0, 1, 1], high: 1 },
      ],
      sense: 'min',
      objective: [1, 2, 3, 0, 0],
    });
  });

  it('counts nothing where as many may be used as it takes, and leaves the program it was made from as it is', () => {
    const before = structuredClone(PROGRAM);
    const { rows } = withFlags(PROGRAM, [flag(1)], null, []);
    expect(rows.map((r) => r.name)).toEqual(['full', 'b only if used', 'b at least']);
    expect(PROGRAM).toEqual(before);
  });

  it('has rows of a size even where nothing of an ingredient fits', () => {
    const [, only] = withFlags(PROGRAM, [flag(1, { most: 0 })], null, []).rows;
    expect(only!.scale).toBe(1e-6);
  });

  it('fills 100 g with 60 g of the first and 40 g of the second, and with the next best sets in turn', () => {
    const flagged = [0, 1, 2].map((i) => flag(i));
    const best = (ingredients: number | null, tried: readonly (readonly number[])[]) => {
      const answer = solveMilp(withFlags(PROGRAM, flagged, ingredients, tried));
      return answer.status === 'optimal' ? { cost: answer.objective, set: flagsUp(answer.x, 3, flagged) } : null;
    };
    expect(best(2, [])).toEqual({ cost: expect.closeTo(140, 6), set: [0, 1] });
    expect(best(2, [[0, 1]])).toEqual({ cost: expect.closeTo(180, 6), set: [0, 2] });
    expect(
      best(2, [
        [0, 1],
        [0, 2],
      ]),
    ).toEqual({ cost: expect.closeTo(240, 6), set: [1, 2] });
    // All three, the dearest at its least: 60 + 2 x 35 + 3 x 5.
    expect(best(3, [[0, 1]])).toEqual({ cost: expect.closeTo(145, 6), set: [0, 1, 2] });
    expect(best(1, [])).toBeNull();
  });
});

describe('the flags of a point', () => {
  it('are up from a half on', () => {
    const flagged = [flag(4), flag(2), flag(7)];
    expect(flagsUp([9, 9, 1, 0, 0.51], 2, flagged)).toEqual([4, 7]);
    expect(flagsUp([9, 9, 0.5, 0.49, 1], 2, flagged)).toEqual([7]);
  });
});

describe('the most of each stuff', () => {
  const question = questionOf(['water', 'portland-cement-grey', 'masonry-sand']);
  const world = worldOf(question);
  const [water, cement] = world.materials;
  const program = (rows: readonly Row[], uppers: readonly (number | undefined)[] = []): BlendProgram => ({
    columns: world.materials.map((m, i) =>
      uppers[i] === undefined ? { name: m.id } : { name: m.id, upper: uppers[i] },
    ),
    rows,
    origins: rows.map(() => ({ kind: 'fixed' })),
  });
  const HALF: Row = { name: 'cement at most half of the water', coefficients: [-0.5, 1, 0], high: 0 };
  const FULL: Row = { name: 'full', coefficients: [1, 1, 1], low: 90, high: 90 };

  it('is what the rows leave room for, a hair above so that no point is cut off', () => {
    const [most, half, sand] = mostOfEach(program([HALF, FULL]), world);
    expect(most).toBe(90 * (1 + 1e-7) + 1e-7);
    expect(half).toBeCloseTo(30 * (1 + 1e-7) + 1e-7, 12);
    expect(sand).toBe(most);
  });

  it('is never more than the mould holds or than there is', () => {
    const [most, half, sand] = mostOfEach(program([HALF], [undefined, undefined, 12]), world);
    expect(most).toBeCloseTo(300 / water!.volume, 9);
    expect(half).toBeCloseTo(300 / cement!.volume, 9);
    expect(sand).toBe(12);
    expect(mostOfEach(program([HALF], [100]), world)[1]).toBeCloseTo(50 * (1 + 1e-7) + 1e-7, 9);
  });

  it('is all the mould where the rows contradict each other, and nothing where a stuff is barred', () => {
    const heavy: Row = { name: 'too heavy', coefficients: [1, 1, 1], low: 1000 };
    expect(mostOfEach(program([FULL, heavy], [undefined, 0, 7]), world)).toEqual([300 / water!.volume, 0, 7]);
    const light: Row = { name: 'less than nothing', coefficients: [1, 1, 1], high: -1 };
    expect(mostOfEach(program([light], [undefined, 0, 7]), world)).toEqual([300 / water!.volume, 0, 7]);
  });

  it('has no mould to fill where none is given', () => {
    const bare = worldOf({ ...question, conditions: { ...question.conditions, volume: null } });
    expect(mostOfEach(program([FULL]), bare)[0]).toBe(90 * (1 + 1e-7) + 1e-7);
    expect(mostOfEach(program([]), bare)[0]).toBe(Number.POSITIVE_INFINITY);
  });
});
