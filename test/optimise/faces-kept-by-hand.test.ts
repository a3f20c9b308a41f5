import { describe, expect, it } from 'vitest';
import { fence, groundOf, type Spot } from '../support/told-ground.js';

/** What a descent remembers of the objective: how it looked from the blends it left, and from where it lost. */

/** Heights one below the other, with a face at each. */
const DOWN = (n: number): Spot => [-n];
const CURVES = { curves: () => true };
const MOVING = [true, false];

describe('the objective as it looked from elsewhere', () => {
  it('is kept of each blend that was left, for the next steps and not for a look about', () => {
    const { walk } = groundOf(DOWN, { ...CURVES, steps: [1, 2, 3, 3, 3, 3] });
    const { steps, looked, mends } = walk();
    expect(steps.map((s) => [s.at, s.faces.join(), s.only === null])).toEqual([
      [0, '', false],
      [1, '0', false],
      [2, '0,1', false],
      [3, '0,1,2', false],
      // On without what was learnt, and then a look.
      [3, '', false],
      [3, '', true],
    ]);
    expect(looked).toEqual([0, 1, 2].map((at) => ({ at, only: MOVING })));
    expect(mends).toEqual([]);
  });

  it('is kept of where a step lost by itself, and the next is as long again the first time', () => {
    const spots: Record<number, Spot> = { 0: [0], 1: [0.5], 2: [-1] };
    const { steps, looked } = groundOf(spots, { ...CURVES, steps: [1, 1, 1, 2] }).walk();
    expect(steps.slice(0, 5).map((s) => [s.at, s.faces.join()])).toEqual([
      [0, ''],
      [0, '1'],
      // The same again: kept once.
      [0, '1'],
      [0, '1'],
      [2, '1,0'],
    ]);
    expect(looked.slice(0, 4)).toEqual([1, 1, 1, 0].map((at) => ({ at, only: MOVING })));
    // Refused once with a face learnt: as far again. Refused twice: nearer.
    const reaches = [0.2, 0.2, 0.07, 0.0245, 0.03675];
    reaches.forEach((reach, n) => {
      expect(steps[n]!.reach).toBeCloseTo(reach, 12);
    });
    // Where the objective is straight there is nothing to learn: nearer at once.
    const straight = groundOf(spots, { steps: [1, 1] }).walk();
    expect(straight.steps[1]).toMatchObject({ at: 0, faces: [], reach: expect.closeTo(0.07, 12) });
    expect(straight.looked.slice(0, 1)).toEqual([{ at: 1, only: MOVING }]);
  });

  it('is not looked at from a step that only broke limits, nor from one that lost next to nothing', () => {
    // The second is lower, but broken three times over; the others lose by more and by less than a hundred-thousandth.
    const spots: Record<number, Spot> = { 0: [0, 2], 1: [-1, 3], 2: [1.1e-5, 2], 3: [0.9e-5, 2], 4: [0.9e-5, 3] };
    const lookedAt = (steps: readonly (number | null)[]) =>
      groundOf(spots, { ...CURVES, steps: [...steps, null, null, null] })
        .walk()
        .looked.map((l) => l.at);
    expect(lookedAt([1])).toEqual([]);
    expect(lookedAt([3])).toEqual([]);
    expect(lookedAt([4])).toEqual([]);
    expect(lookedAt([2])).toEqual([2]);
    expect(lookedAt([1, 3, 2])).toEqual([2]);
  });

  it('is seen from the step’s own end, though the step was brought back, and from the blend left if that helped', () => {
    const spots: Record<number, Spot> = { 0: [0, 0.9], 1: [0.5, 0.5], 2: [0.4], 3: [0, 2] };
    const lost = groundOf({ ...spots, 0: [0] }, { ...CURVES, steps: [1], mends: [2] }).walk();
    expect(lost.looked[0]!.at).toBe(1);
    // Dearer, but with fewer misses: a help.
    const helped = groundOf(spots, { ...CURVES, steps: [1], mends: [2] }).walk();
    expect(helped.looked[0]!.at).toBe(0);
    expect(helped.steps[1]).toMatchObject({ at: 2, faces: [0] });
  });

  it('is forgotten where it would promise less than the blend has that is walked on from', () => {
    const asked: string[] = [];
    const { steps } = groundOf(DOWN, {
      steps: [1, 2, 3],
      ...CURVES,
      reaches: (face, at) => {
        asked.push(`${face} at ${at}`);
        return face !== 0 || at < 2;
      },
    }).walk();
    expect(steps.slice(0, 4).map((s) => s.faces.join())).toEqual(['', '0', '1', '1,2']);
    expect(asked.slice(0, 5)).toEqual(['0 at 1', '0 at 2', '1 at 2', '1 at 3', '2 at 3']);
    // Also when it has only just been seen.
    const none = groundOf(DOWN, { steps: [1, 2], ...CURVES, reaches: () => false }).walk();
    expect(none.steps.map((s) => s.faces.join())).toEqual(['', '', '', '']);
  });

  it('is kept of eight blends, the newest', () => {
    const { steps } = groundOf(DOWN, { ...CURVES, steps: (n) => n + 1 }).walk();
    expect(steps[8]!.faces).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(steps[10]!.faces).toEqual([2, 3, 4, 5, 6, 7, 8, 9]);
    // Of those that still reach.
    const even = groundOf(DOWN, { ...CURVES, steps: (n) => n + 1, reaches: (face, at) => face % 2 === 0 || at < 12 });
    expect(even.walk().steps[12]!.faces).toEqual([4, 6, 8, 10]);
    const one = groundOf(DOWN, { ...CURVES, steps: (n) => n + 1, reaches: (face, at) => face !== 5 || at < 9 });
    expect(one.walk().steps[9]!.faces).toEqual([0, 1, 2, 3, 4, 6, 7, 8]);
  });

  it('is handed on beside the limits that were run into, which alone a blend is brought back to', () => {
    const spots: Record<number, Spot> = { 0: [0], 1: [0.5, 0.5], 2: [-1], 3: [-2, 0.5] };
    const { steps, mends } = groundOf(spots, { ...CURVES, steps: [1, 2, 3], into: [[fence('a')]] }).walk();
    expect(steps[2]).toMatchObject({ at: 2, faces: [1, 0], fences: ['a'] });
    expect(mends[1]).toEqual({ at: 3, only: MOVING, fences: ['a'] });
  });
});
