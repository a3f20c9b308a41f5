import { describe, expect, it } from 'vitest';
import { groundOf, type Spot } from '../support/told-ground.js';

/** Far below, but broken by three times its limits: no use, and too far out to be brought back. */
const WRECK: Spot = [-5, 3];

describe('a descent', () => {
  it('walks on while steps help, never further than at first, and rests where they do not', () => {
    const { walk } = groundOf({ 0: [0], 1: [-1], 2: [-2] }, { steps: [1, 2] });
    const { best, still, solves, steps, mends } = walk();
    expect({ best, still, solves, mends }).toEqual({ best: 2, still: true, solves: 4, mends: [] });
    // Two steps, one that finds nothing, and a look about among all materials.
    expect(steps.map((s) => s.at)).toEqual([0, 1, 2, 2]);
    expect(steps.map((s) => s.reach)).toEqual([0.2, 0.2, 0.2, 0.05]);
    expect(steps.map((s) => s.only)).toEqual([[true, false], [true, false], [true, false], null]);
  });

  it('takes shorter steps where one does not help, longer ones again where they do', () => {
    const { walk } = groundOf({ 0: [0], 1: [-1], 2: [-2], 9: WRECK }, { steps: [9, 9, 1, 2, 9] });
    const { best, steps } = walk();
    expect(best).toBe(2);
    expect(steps.map((s) => s.at)).toEqual([0, 0, 0, 1, 2, 2, 2]);
    const reaches = [0.2, 0.07, 0.0245, 0.03675, 0.055125, 0.01929375, 0.05];
    steps.forEach(({ reach }, n) => {
      expect(reach).toBeCloseTo(reaches[n]!, 12);
    });
  });

  it('gives up once steps are a ten-thousandth long, also where none can be had at all', () => {
    for (const way of [9, null]) {
      const { walk } = groundOf({ 0: [0], 9: WRECK }, { steps: () => way });
      const { best, still, solves, steps } = walk();
      expect({ best, still, solves }).toEqual({ best: 0, still: true, solves: 9 });
      // 0.2 * 0.35^7 is 0.00013, and the next would be 0.00005.
      expect(steps[7]!.reach).toBeCloseTo(0.2 * 0.35 ** 7, 12);
      expect(steps[8]).toMatchObject({ reach: 0.05, only: null });
    }
  });

  it('does not go on for ever: twenty rounds, and as many after each of two looks about', () => {
    const { walk } = groundOf((n) => [-1.9e-3 * n], { steps: (n) => n + 1 });
    const { best, still, solves, steps } = walk();
    expect({ best, still, solves }).toEqual({ best: 62, still: false, solves: 62 });
    expect(steps.flatMap((s, n) => (s.only === null ? [n] : []))).toEqual([20, 41]);
    expect(steps[19]!.reach).toBe(0.2);
    expect(steps[21]!.reach).toBe(0.05);
  });

  it('counts a round that gains more than two thousandths for half of one', () => {
    const looksOf = (height: (n: number) => number) =>
      groundOf((n) => [height(n)], { steps: (n) => n + 1 })
        .walk()
        .steps.flatMap((s, n) => (s.only === null ? [n] : []));
    expect(looksOf((n) => -2.1e-3 * n)).toEqual([40, 81]);
    // Of one after a rich one only half is left, which is enough for another.
    expect(looksOf((n) => -1e-3 * n - (n > 0 ? 0.1 : 0))[0]).toBe(21);
    expect(looksOf((n) => -1e-3 * n - (n > 0 ? 0.1 : 0) - (n > 7 ? 0.1 : 0))[0]).toBe(21);
    expect(looksOf((n) => -1e-3 * n - (n > 0 ? 0.1 : 0) - (n > 7 ? 0.1 : 0) - (n > 8 ? 0.1 : 0))[0]).toBe(22);
  });

  it('rests at once where a sound blend is promised next to nothing', () => {
    const { walk } = groundOf({ 0: [0], 1: [-9e-6], 2: [-1] }, { steps: [1, 1, 2] });
    expect(walk()).toMatchObject({ best: 1, still: true, solves: 2 });
    // A little more is worth another step.
    const more = groundOf({ 0: [0], 1: [-1.1e-5], 2: [-1] }, { steps: [1, 2, 2, 2] });
    expect(more.walk()).toMatchObject({ best: 2, still: true, solves: 4 });
  });

  it('goes on for the misses of a blend, though the objective promises nothing', () => {
    const spots: Record<number, Spot> = { 0: [0, 2.5], 1: [0, 2], 2: [0, 1.5], 3: [1] };
    const { walk } = groundOf(spots, { steps: [1, 2, 3] });
    const { best, steps } = walk();
    expect(best).toBe(3);
    expect(steps.map((s) => s.at)).toEqual([0, 1, 2, 3, 3]);
  });

  it('rests where a step changes nothing, for better or worse', () => {
    for (const height of [-5e-8, 5e-8]) {
      const { walk } = groundOf({ 0: [0, 2], 1: [height, 2], 2: [0] }, { steps: [1, 1, 2] });
      expect(walk()).toMatchObject({ still: true, solves: 2 });
    }
    const { walk } = groundOf({ 0: [0, 2], 1: [-2e-7, 2], 2: [0] }, { steps: [1, 2] });
    expect(walk()).toMatchObject({ best: 2, still: true, solves: 4 });
  });

  it('pays with misses for the objective, a twentieth for all of it', () => {
    // Of two steps down by 2 the one that costs a miss of 0.08 is walked on from; the best stays what misses nothing.
    for (const [miss, at] of [
      [1.08, 1],
      [1.12, 0],
    ] as const) {
      const { walk } = groundOf({ 0: [0, 1], 1: [-2, miss], 9: WRECK }, { steps: [1, 9, 9, 9, 9, 9, 9, 9, 9] });
      expect(walk().steps[1]!.at).toBe(at);
    }
    const { walk } = groundOf({ 0: [0], 1: [-2, 0.08], 2: [-2, 0.08] }, { steps: [1] });
    const { best, steps } = walk();
    expect(best).toBe(0);
    expect(steps[1]!.at).toBe(1);
  });
});

describe('a step that leaves the limits', () => {
  it('is brought back, among the same materials, and the better of the two is walked on from', () => {
    const spots: Record<number, Spot> = { 0: [0], 1: [-1, 0.5], 2: [-0.8], 3: [-0.5, 0.9] };
    const back = groundOf(spots, { steps: [1], mends: [2] }).walk();
    expect(back).toMatchObject({ best: 2, still: true, solves: 4 });
    expect(back.mends).toEqual([{ at: 1, only: [true, false], fences: [] }]);
    // A correction that is worse still is left alone, and 0.5 of misses is no gain: shorter steps.
    const worse = groundOf(spots, { steps: [1], mends: [3] }).walk();
    expect(worse.best).toBe(0);
    expect(worse.steps.map((s) => s.at)).toEqual([0, 0, 0]);
    expect(worse.steps[1]!.reach).toBeCloseTo(0.07, 12);
  });

  it('is walked on from as it is where the one brought back is no better, or there is none', () => {
    const spots: Record<number, Spot> = { 0: [0, 3], 1: [-1, 0.5], 2: [-1, 0.5] };
    for (const mend of [2, null]) {
      const { steps, solves } = groundOf(spots, { steps: [1, 1], mends: [mend, null, null] }).walk();
      expect(steps[1]!.at).toBe(1);
      expect(solves).toBe(6);
    }
  });

  it('is not brought back from beyond the limit’s own size, nor where it broke none', () => {
    // The last two are walked on from, and what is left at the end is mended as well.
    for (const [miss, mended] of [
      [1.001, 0],
      [1, 1],
      [0.001, 2],
      [0, 0],
    ] as const) {
      const { walk } = groundOf({ 0: [0], 1: [-1, miss] }, { steps: (n) => (n === 0 ? 1 : null) });
      const { solves, steps, mends } = walk();
      expect(mends.map((m) => m.at)).toEqual(Array.from({ length: mended }, () => 1));
      expect(solves).toBe(steps.length + mended);
    }
  });
});
