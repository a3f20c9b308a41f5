import { describe, expect, it } from 'vitest';
import { fence, groundOf, type Spot } from '../support/told-ground.js';

/** What a descent remembers of limits it ran into, how it looks about at rest, and how it brings what is left in order. */

/** Broken by half: a step worth bringing back, and no gain however far below. */
const BROKEN: Spot = [-1, 0.5];

describe('limits that a step ran into', () => {
  const ran = (allows?: (name: string, at: number) => boolean) =>
    groundOf(
      { 0: [0], 1: BROKEN, 2: [-1], 3: [-1.5] },
      {
        steps: [1, 1, 2, 3],
        into: [[fence('a')], [fence('b'), fence('c')]],
        ...(allows === undefined ? {} : { allows: (f, at) => allows(f.row.name, at) }),
      },
    ).walk();

  it('are kept for the next steps, which are as long again the first time', () => {
    const { steps, mends } = ran();
    expect(steps.slice(0, 5).map((s) => [s.at, s.fences.join()])).toEqual([
      [0, ''],
      [0, 'a'],
      [0, 'a,b,c'],
      [2, 'a,b,c'],
      [3, 'a,b,c'],
    ]);
    // Refused once with something learnt: as far again. Refused twice: nearer.
    const reaches = [0.2, 0.2, 0.07, 0.105, 0.1575];
    reaches.forEach((reach, n) => {
      expect(steps[n]!.reach).toBeCloseTo(reach, 12);
    });
    expect(mends.map((m) => m.fences.join())).toEqual(['', 'a']);
    // Who looks about at rest is held by none of them.
    expect(steps.find((s) => s.only === null)).toMatchObject({ fences: [] });
  });

  it('fall where the walk would end among them: it goes on without, nearer', () => {
    // At -1 nothing is promised any more, but 'a' still stands.
    const { steps } = groundOf({ 0: [0], 1: BROKEN, 2: [-1] }, { steps: [1, 2, 2, 2], into: [[fence('a')]] }).walk();
    expect(steps.slice(0, 4).map((s) => [s.at, s.fences.join(), s.only === null])).toEqual([
      [0, '', false],
      [0, 'a', false],
      [2, 'a', false],
      [2, '', false],
    ]);
    // Once for the step that gained nothing, once more for the fences.
    expect(steps[3]!.reach / steps[2]!.reach).toBeCloseTo(0.35 ** 2, 12);
  });

  it('give the next step its length again after one that helped', () => {
    const { walk } = groundOf(
      { 0: [0], 1: [-3, 0.5], 2: [-1] },
      { steps: [1, 2, 1, 1], into: [[fence('a')], [fence('b')]] },
    );
    expect(
      walk()
        .steps.slice(0, 5)
        .map((s) => [s.at, s.reach]),
    ).toEqual([
      [0, 0.2],
      [0, 0.2],
      [2, 0.2],
      [2, 0.2],
      [2, expect.closeTo(0.07, 12)],
    ]);
  });

  it('are forgotten where they would shut out the blend that is walked on from', () => {
    const asked: string[] = [];
    const { steps } = ran((name, at) => {
      asked.push(`${name} at ${at}`);
      return name !== 'a' || at < 2;
    });
    expect(steps.slice(2, 5).map((s) => s.fences.join())).toEqual(['a,b,c', 'b,c', 'b,c']);
    expect(asked.slice(0, 7)).toEqual(['a at 0', 'a at 0', 'b at 0', 'c at 0', 'a at 2', 'b at 2', 'c at 2']);
  });

  it('are at most thirty, the newest', () => {
    const many = (from: number) => Array.from({ length: 20 }, (_v, i) => fence(String(from + i)));
    const { walk } = groundOf({ 0: [0], 1: BROKEN }, { steps: [1, 1], into: [many(0), many(20)] });
    const { fences } = walk().steps[2]!;
    expect(fences).toHaveLength(30);
    expect([fences[0], fences[29]]).toEqual(['10', '39']);
  });

  it('are kept of steps that help too, and of those that could be brought back', () => {
    const { walk } = groundOf({ 0: [0, 1], 1: [-1, 0.9], 2: [-2] }, { steps: [1], mends: [2], into: [[fence('a')]] });
    expect(walk().steps[1]).toMatchObject({ at: 2, fences: ['a'], reach: 0.2 });
  });
});

describe('a descent at rest', () => {
  it('looks about among all materials, and walks on with what it found worth it', () => {
    const { walk } = groundOf({ 0: [0], 1: [-1], 2: [-1.5], 3: [-1.7] }, { steps: [1, 1, 2, 3, 3], both: [2, 3] });
    const { best, still, solves, steps } = walk();
    expect({ best, still, solves }).toEqual({ best: 3, still: true, solves: 6 });
    expect(steps.map((s) => [s.at, s.reach, s.only])).toEqual([
      [0, 0.2, [true, false]],
      [1, 0.2, [true, false]],
      [1, 0.05, null],
      [2, 0.05, [true, true]],
      [3, 0.05, [true, true]],
      [3, 0.05, null],
    ]);
  });

  it('moves no material that a look about did not take in, and keeps those that it has lost', () => {
    const { walk } = groundOf({ 1: [0], 2: [-1], 0: [-2] }, { steps: [1, 2, 2, 0] });
    const only = walk(0.2, 1).steps.map((s) => s.only);
    expect(only).toEqual([[true, false], null, [true, false], null, [true, false]]);
    // 0 holds nothing of the first material any more.
    const lost = groundOf({ 1: [0], 0: [-1] }, { steps: [1, 0, 0] }).walk(0.2, 1);
    expect(lost.steps.map((s) => s.only)).toEqual([[true, false], null, [true, false], null]);
  });

  it('is not moved by what brings less than a hundred-thousandth', () => {
    const lookOf = (height: number) => groundOf({ 0: [0], 1: [height] }, { steps: [0, 1] }).walk();
    expect(lookOf(-0.9e-5)).toMatchObject({ best: 0, solves: 2 });
    expect(lookOf(-1.1e-5)).toMatchObject({ best: 1, solves: 4 });
    expect(groundOf({ 0: [0] }, { steps: [0, null] }).walk()).toMatchObject({ best: 0, solves: 2 });
  });

  it('keeps the best it had where what a look found only led astray', () => {
    // 1 is much lower, and misses a little: it is walked on from, but no answer.
    const { walk } = groundOf({ 0: [0], 1: [-3, 0.1] }, { steps: [0, 1] });
    const { best, steps } = walk();
    expect(best).toBe(0);
    expect(steps.map((s) => s.at)).toEqual([0, 0, 1, 1]);
    // What the look itself found is the answer where it is better.
    expect(groundOf({ 0: [0], 1: [-3] }, { steps: [0, 1, null] }).walk().best).toBe(1);
  });

  it('counts what a look brought back as two', () => {
    const { walk } = groundOf({ 0: [0], 1: [-1, 0.5], 2: [-1] }, { steps: [0, 1], mends: [2] });
    const { best, solves, mends } = walk();
    expect({ best, solves }).toEqual({ best: 2, solves: 1 + 2 + 1 + 1 });
    // The look was among all; what it takes to come back is what it used.
    expect(mends).toEqual([{ at: 1, only: [true, false], fences: [] }]);
  });
});

describe('what a descent still misses at the end', () => {
  const REST = { steps: () => null };
  /** At rest on the first spot: nine steps that cannot be had, and one look about. */
  const SOLVES = 9;

  it('is taken off by bringing it to its limits, three times at most, among what was moved', () => {
    const spots: Record<number, Spot> = { 0: [0, 0.04], 1: [0, 0.03], 2: [0, 0.02], 3: [0, 0.01], 4: [0] };
    const { best, solves, mends } = groundOf(spots, { ...REST, mends: [1, 2, 3, 4] }).walk();
    expect({ best, solves }).toEqual({ best: 3, solves: SOLVES + 3 });
    expect(mends).toEqual([0, 1, 2].map((at) => ({ at, only: [true, false], fences: [] })));
    const done = groundOf(spots, { ...REST, mends: [1, 4] }).walk();
    expect(done).toMatchObject({ best: 4, solves: SOLVES + 2 });
  });

  it('is left where it cannot be, and where it is no matter of curves', () => {
    for (const [miss, tries] of [
      [0, 0],
      [0.049, 1],
      [0.05, 0],
    ] as const) {
      const { best, solves } = groundOf({ 0: [0, miss] }, REST).walk();
      expect({ best, solves }).toEqual({ best: 0, solves: SOLVES + tries });
    }
    // Such a blend is not even walked from more than four times.
    const { best, mends } = groundOf({ 0: [0, 0.051] }, REST).walk();
    expect({ best, mends }).toEqual({ best: 0, mends: [] });
  });

  it('is not made worse: the best stays, though a nearer point is tried from the one that came out', () => {
    const { best, mends } = groundOf(
      { 0: [0, 0.02], 1: [0, 0.04], 2: [0, 0.01] },
      { ...REST, mends: [1, 2, null] },
    ).walk();
    expect(best).toBe(2);
    expect(mends.map((m) => m.at)).toEqual([0, 1, 2]);
    expect(groundOf({ 0: [0, 0.02], 1: [0, 0.04] }, { ...REST, mends: [1, null] }).walk().best).toBe(0);
  });

  it('moves what a look about took in too', () => {
    const spots: Record<number, Spot> = { 0: [0], 1: [-1, 0.04], 2: [-1] };
    const { walk } = groundOf(spots, { steps: [0, 1, 1], mends: [null, null, null, 2], both: [1, 2] });
    const { best, mends } = walk();
    expect(best).toBe(2);
    expect(mends.at(-1)).toEqual({ at: 1, only: [true, true], fences: [] });
  });
});
