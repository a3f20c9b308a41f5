import { describe, expect, it } from 'vitest';
import { toTheEnd } from '../../src/core/optimise/descent.js';
import { AIMS, type Sought } from '../../src/core/optimise/objective.js';
import { fence, groundOf, type Spot } from '../support/told-ground.js';

/** When a descent leaves off: calm rounds, one try without what it learnt, refusals, and what ends a rough one. */

/** Far below, but broken by three times its limits: no use, and too far out to be brought back. */
const WRECK: Spot = [-5, 3];
/** No scale tells a gain of less than two ten-thousandths. */
const CALM = 1.9e-4;
const NOT_CALM = 2.1e-4;
const CURVES = { curves: () => true };
const onwards = (n: number): number => n + 1;
/** Spots that each gain so much on the one before. */
const gaining =
  (...gains: readonly number[]) =>
  (n: number): Spot => [-gains.slice(0, n).reduce((s, g) => s + g, 0)];

describe('a descent that gains next to nothing', () => {
  const looksOf = (spots: (n: number) => Spot, told: Parameters<typeof groundOf>[1]) => {
    const { steps, still } = groundOf(spots, told).walk();
    return { looks: steps.flatMap((s, n) => (s.only === null ? [n] : [])), still };
  };

  it('leaves off after three rounds in a row', () => {
    const calm = looksOf((n) => [-CALM * n], { steps: onwards });
    expect(calm).toEqual({ looks: [3, 7], still: true });
    const more = looksOf((n) => [-NOT_CALM * n], { steps: onwards });
    expect(more).toEqual({ looks: [20, 41], still: false });
    const between = gaining(CALM, CALM, NOT_CALM, CALM, CALM, CALM, CALM);
    expect(looksOf(between, { steps: onwards }).looks[0]).toBe(6);
  });

  it('or after two that keep next to nothing of a promise, but not on a ridge, where it may stand and go on', () => {
    const looksAfter = (kept: number, aim?: Sought): number => {
      // Each step promises half of CALM by itself, runs into misses, and is brought back to where it gains what is kept.
      const spots = (n: number): Spot => (n < 100 ? [-kept * n] : [-kept * (n - 100) - CALM / 2, 0.5]);
      const ground = groundOf(spots, { steps: (n) => 100 + n, mends: [1, 2, 3, 4, 5] });
      return ground.walk(0.2, 0, [true, false], false, aim).steps.findIndex((s) => s.only === null);
    };
    expect(looksAfter(0.9e-5)).toBe(2);
    expect(looksAfter(-0.9e-5)).toBe(2);
    expect(looksAfter(1.1e-5)).toBe(3);
    expect(looksAfter(0.9e-5, { ...AIMS.cheapest, ridged: true })).toBe(3);
  });

  it('or loses as little', () => {
    const losing = (height: number) => groundOf({ 0: [0], 1: [height] }, { steps: () => 1 }).walk();
    expect(losing(CALM)).toMatchObject({ best: 0, still: true, solves: 4 });
    // Otherwise it is tried ever nearer.
    expect(losing(NOT_CALM)).toMatchObject({ best: 0, still: true, solves: 9 });
  });

  it('but not while its steps promise more than they keep, or lose more by themselves', () => {
    // Each step runs into misses, so much higher or lower, and is brought back to hardly less than it came from.
    const walked = (by: number) => {
      const spots = (n: number): Spot => (n < 100 ? [-CALM * n] : [-CALM * (n - 100) + by, 0.5]);
      const { steps } = groundOf(spots, { steps: (n) => 100 + n, mends: [1, 2, 3, 4, 5] }).walk();
      return steps.slice(0, 5).map((s) => (s.only === null ? 'looks about' : s.at));
    };
    for (const by of [-0.5, -NOT_CALM, NOT_CALM]) expect(walked(by)).toEqual([0, 1, 2, 3, 4]);
    for (const by of [-CALM, CALM]) expect(walked(by).slice(0, 4)).toEqual([0, 1, 2, 'looks about']);
  });

  it('nor while they bring more than they promised', () => {
    // Each runs into misses, a little lower, and is brought back to where it is lower by far.
    const spots = (n: number): Spot => (n < 100 ? [-1e-3 * n] : [-1e-3 * (n - 100) - 1e-4, 0.5]);
    const { steps } = groundOf(spots, { steps: (n) => 100 + n, mends: [1, 2, 3, 4, 5] }).walk();
    expect(steps.slice(0, 6).map((s) => [s.at, s.only === null])).toEqual([0, 1, 2, 3, 4, 5].map((at) => [at, false]));
  });

  it('nor while the blend still misses', () => {
    const missing = (n: number): Spot => [-CALM * n, n < 4 ? 2 : 0];
    // The miss that is gone is the gain of the fourth round; three calm ones follow.
    expect(looksOf(missing, { steps: onwards }).looks[0]).toBe(7);
    expect(looksOf((n) => [-CALM * n, 2], { steps: onwards })).toEqual({ looks: [20, 41], still: false });
  });
});

describe('a descent that has learnt something', () => {
  const stepsOf = (spots: (n: number) => Spot, told: Parameters<typeof groundOf>[1] = { ...CURVES, steps: onwards }) =>
    groundOf(spots, told).walk().steps;

  it('goes on once without it before it leaves off, nearer, and one more calm round is the end', () => {
    const steps = stepsOf((n) => [-CALM * n]);
    expect(steps.slice(0, 5).map((s) => [s.at, s.faces.join(), s.only === null])).toEqual([
      [0, '', false],
      [1, '0', false],
      [2, '0,1', false],
      [3, '', false],
      [4, '', true],
    ]);
    expect(steps.slice(0, 4).map((s) => s.reach)).toEqual([0.2, 0.2, 0.2, expect.closeTo(0.07, 12)]);
  });

  it('leaves off with the next calm round too where it was no calm that made it go on', () => {
    // The second step stands still.
    const steps = stepsOf(gaining(1, CALM, CALM, CALM), { ...CURVES, steps: [1, 1, 2, 3, 4] });
    expect(steps.slice(0, 4).map((s) => [s.at, s.faces.join(), s.only === null])).toEqual([
      [0, '', false],
      [1, '0', false],
      [1, '', false],
      [2, '', true],
    ]);
  });

  it('goes on without it again only after a gain', () => {
    const bareOf = (spots: (n: number) => Spot) => {
      const steps = stepsOf(spots);
      const look = steps.findIndex((s) => s.only === null);
      return { bare: steps.flatMap((s, n) => (n > 0 && n < look && s.faces.length === 0 ? [n] : [])), look };
    };
    expect(bareOf(gaining(CALM, CALM, CALM, NOT_CALM, CALM, CALM, CALM, CALM, CALM))).toEqual({
      bare: [3, 7],
      look: 8,
    });
    expect(bareOf(gaining(CALM, CALM, CALM, CALM, CALM, CALM, CALM, CALM))).toEqual({ bare: [3], look: 4 });
    // The bare step of the fourth round promises much and keeps little: neither calm, nor a gain.
    const spots = (n: number): Spot => (n === 100 ? [-0.5, 0.5] : [-CALM * n]);
    const steps = stepsOf(spots, { ...CURVES, steps: (n) => (n === 3 ? 100 : n + 1), mends: [4] });
    expect(steps.slice(0, 8).map((s) => [s.at, s.faces.join(), s.only === null])).toEqual([
      [0, '', false],
      [1, '0', false],
      [2, '0,1', false],
      [3, '', false],
      [4, '3', false],
      [5, '3,4', false],
      [6, '3,4,5', false],
      [7, '', true],
    ]);
  });

  it('is held by none of it after a look', () => {
    const steps = stepsOf(gaining(1, 0.01, CALM, CALM, CALM, CALM, 1, 1));
    const look = steps.findIndex((s) => s.only === null);
    expect([look, look + 1].map((n) => steps[n]!.faces)).toEqual([[], []]);
    expect(steps[look + 2]!.faces).toEqual([look + 1]);
  });

  it('leaves off with it where steps are too short for another', () => {
    const { walk } = groundOf(gaining(1, 1), { ...CURVES, steps: [1] });
    const { steps } = walk(0.99e-4);
    expect(steps.map((s) => s.only === null)).toEqual([false, true]);
    const longer = groundOf(gaining(1, 1), { ...CURVES, steps: [1] }).walk(1.01e-4);
    expect(longer.steps.map((s) => [s.faces.join(), s.only === null])).toEqual([
      ['', false],
      ['0', false],
      ['', true],
    ]);
  });
});

describe('a descent that misses much', () => {
  const REFUSED = { steps: () => null };
  const refusalsAt = (miss: number) => groundOf({ 0: [0, miss] }, REFUSED).walk().solves - 1;

  it('leaves off after four refused steps in a row', () => {
    expect(refusalsAt(0.051)).toBe(4);
    expect(refusalsAt(2)).toBe(4);
    expect(groundOf({ 0: [0, 2] }, REFUSED).walk()).toMatchObject({ best: 0, still: true });
    // From a little or no miss there are as many as get short, and a last try to take off the little.
    expect(refusalsAt(0.05)).toBe(8);
    expect(refusalsAt(0)).toBe(8);
    expect(groundOf({ 0: [0], 9: WRECK }, { steps: () => 9 }).walk().solves).toBe(9);
  });

  it('of which one that helps between begins the count anew', () => {
    const spots: Record<number, Spot> = { 0: [0, 2], 1: [-1, 2] };
    const { steps } = groundOf(spots, { steps: (n) => (n === 3 ? 1 : null) }).walk();
    expect(steps.map((s) => [s.at, s.only === null])).toEqual([
      ...[0, 0, 0, 0, 1, 1, 1, 1].map((at) => [at, false]),
      [1, true],
    ]);
  });

  it('tries one more without what it learnt', () => {
    const spots: Record<number, Spot> = { 0: [0, 0.06], 1: [0, 0.5] };
    const into = ['a', 'b', 'c', 'd', 'e'].map((name) => [fence(name)]);
    const { steps } = groundOf(spots, { steps: () => 1, into }).walk();
    expect(steps.map((s) => [s.fences.join(), s.only === null])).toEqual([
      ['', false],
      ['a', false],
      ['a,b', false],
      ['a,b,c', false],
      ['', false],
      ['', true],
    ]);
  });
});

describe('a rough descent', () => {
  const rough = (spots: Parameters<typeof groundOf>[0], told: Parameters<typeof groundOf>[1]) =>
    groundOf(spots, told).walk(0.2, 0, [true, false], true);

  it('leaves off with the first round that gains less than a hundredth, and looks about no more', () => {
    const { best, still, solves, steps } = rough(gaining(0.011, 0.011, 0.009, 0.011), { steps: onwards });
    expect({ best, still, solves }).toEqual({ best: 3, still: true, solves: 3 });
    expect(steps.every((s) => s.only !== null)).toBe(true);
    // A refused step gains nothing.
    expect(rough({ 0: [0], 9: WRECK }, { steps: () => 9 })).toMatchObject({ best: 0, still: true, solves: 1 });
    expect(rough({ 0: [0] }, { steps: () => null })).toMatchObject({ best: 0, still: true, solves: 1 });
    // Who is not rough goes on.
    const fine = groundOf(gaining(0.011, 0.011, 0.009, 0.011), { steps: onwards }).walk();
    expect(fine.steps.slice(0, 5).map((s) => s.at)).toEqual([0, 1, 2, 3, 4]);
  });

  it('does not go on without what it learnt', () => {
    const { steps } = rough(gaining(1, 0.009, 1), { ...CURVES, steps: onwards });
    expect(steps.map((s) => s.faces.join())).toEqual(['', '0']);
  });

  it('walks on while its blend misses, and mends what is left', () => {
    const spots: Record<number, Spot> = { 0: [0, 2], 1: [-0.005, 2], 2: [-0.01, 2], 3: [-0.02], 4: [-0.025] };
    const { best, steps } = rough(spots, { steps: [1, 2, 3, 4, 4] });
    expect(best).toBe(4);
    expect(steps.map((s) => s.at)).toEqual([0, 1, 2, 3]);
    const { best: mended, mends } = rough({ 0: [0, 0.04], 1: [0] }, { steps: [0], mends: [null, 1] });
    expect(mended).toBe(1);
    expect(mends).toEqual([0, 0].map((at) => ({ at, only: [true, false], fences: [] })));
  });
});

describe('a descent that can be left', () => {
  /** The third is far lower, but misses: walked on from, and not the best. */
  const SPOTS: Record<number, Spot> = { 0: [0], 1: [-1], 2: [-4, 0.1], 3: [-1.5] };
  const TOLD = { steps: [1, 2, 3, 3] };

  it('tells the best so far after every step, and in the end how it came out', () => {
    const { walking, steps } = groundOf(SPOTS, TOLD);
    const walk = walking();
    expect(steps).toHaveLength(0);
    const told: unknown[] = [];
    let next = walk.next();
    for (; !next.done; next = walk.next()) told.push([next.value.grams[0], next.value.miss, steps.length]);
    expect(told.slice(0, 2)).toEqual([
      [1, 0, 1],
      [1, 0, 2],
    ]);
    // No more than one step apart, but for looks about.
    const { best, still, solves } = groundOf(SPOTS, TOLD).walk();
    expect(next.value).toMatchObject({ still, solves });
    expect(next.value.best.grams[0]).toBe(best);
    expect(steps.filter((s) => s.only !== null)).toHaveLength(told.length);
  });

  it('tells of the blends it found after a look about too', () => {
    const { walking } = groundOf({ 0: [0], 1: [-1], 2: [-2], 3: [-3] }, { steps: [1, 1, 2, 3, 3, 3] });
    expect([...walking()].map((c) => c.grams[0])).toEqual([1, 1, 3, 3]);
  });

  it('is walked to its end in one go by who does not leave it', () => {
    const made = () => groundOf(gaining(1, 1, 1), { steps: onwards });
    const whole = toTheEnd(made().walking());
    const { best, still, solves } = made().walk();
    expect({ ...whole, best: whole.best.grams[0] }).toEqual({ best, still, solves });
    function* counted() {
      yield whole.best;
      yield whole.best;
      return 7;
    }
    expect(toTheEnd(counted())).toBe(7);
  });
});
