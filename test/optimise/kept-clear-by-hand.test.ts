import { describe, expect, it } from 'vitest';
import { EXPONENTIAL, FROM_NOTHING, IDENTITY, type Link } from '../../src/core/blend/property.js';
import type { Draws } from '../../src/core/blend/sampling.js';
import type { Material } from '../../src/core/materials/schema.js';
import {
  backedOff,
  breaks,
  clearance,
  jointChance,
  type SideSpread,
  sideSpreads,
  sidesOf,
} from '../../src/core/optimise/back-off.js';
import type { Question } from '../../src/core/optimise/question.js';
import { questionOf } from '../support/hand-question.js';

const side = (more: Partial<SideSpread> & { moves: readonly number[] }): SideSpread => ({
  target: { property: 'sulfate', max: 3 },
  side: 'max',
  limit: 3,
  link: IDENTITY,
  margin: 1,
  slack: 0,
  size: 1,
  ...more,
});

describe('the sides of some targets', () => {
  it('are told one by one, a limit of nothing too', () => {
    const window = { property: 'flow', min: 1, max: 1.1 };
    const none = { property: 'cost', max: 0 };
    expect(sidesOf([window, none, { property: 'strength' }])).toEqual([
      { target: window, side: 'min', limit: 1 },
      { target: window, side: 'max', limit: 1.1 },
      { target: none, side: 'max', limit: 0 },
    ]);
    expect(sidesOf([])).toEqual([]);
  });
});

/** A quarter of a cement with 3 % of sulfate and three quarters of one with 2 %: the binder holds 2.25 %. */
describe('how the sulfate of two cements fares in five draws', () => {
  const withSulfate = (material: Material, value: number): Material => ({
    ...material,
    so3: { value, low: value - 1, high: value + 1, unit: 'percent', source: 'none', status: 'ours' },
  });
  const plain = questionOf(['water', 'portland-cement-grey', 'portland-cement-white', 'casting-plaster']);
  const question: Question = {
    ...plain,
    materials: plain.materials.map((m, i) => (i === 1 ? withSulfate(m, 3) : i === 2 ? withSulfate(m, 2) : m)),
  };
  const GRAMS = [80, 50, 150, 0];
  /** Draws that say only what the first cement holds. */
  const saying = (percents: readonly number[]): Draws => ({
    count: percents.length,
    reading: (j) => (key, figure) => (key === 'portland-cement-grey.so3' ? percents[j]! : figure.value),
    column: () => undefined,
    keys: () => [],
  });
  const spread = (target: { property: string; min?: number; max?: number }, percents: readonly number[]) =>
    sideSpreads(question, GRAMS, sidesOf([target]), saying(percents))[0]!;

  it('moves a quarter as much as the first cement does, towards the limit', () => {
    const most = spread({ property: 'sulfate', max: 2.5 }, [3, 3.4, 2.6, 5, 3]);
    expect(most.margin).toBeCloseTo(0.25, 12);
    expect(most.moves.map((m) => Number(m.toFixed(9)))).toEqual([0, 0.1, -0.1, 0.5, 0]);
    // Their mean is 0.1 and the mean of their squares 0.054.
    expect(most.size).toBeCloseTo(Math.sqrt(0.054 - 0.01), 12);
    // Settling may miss a limit by two parts in a hundred thousand.
    expect(most.slack).toBeCloseTo(2.5 * 2e-5, 12);
    expect([0, 1, 2, 3, 4].filter((j) => breaks(most, j))).toEqual([3]);

    const least = spread({ property: 'sulfate', min: 2 }, [3, 3.4, 2.6, 5, 1]);
    expect(least.margin).toBeCloseTo(0.25, 12);
    expect(least.moves.map((m) => Number(m.toFixed(9)))).toEqual([0, -0.1, 0.1, -0.5, 0.5]);
    expect([0, 1, 2, 3, 4].filter((j) => breaks(least, j))).toEqual([4]);
  });

  it('is on the wrong side from the start where the limit is missed', () => {
    expect(spread({ property: 'sulfate', max: 2 }, [3]).margin).toBeCloseTo(-0.25, 12);
    expect(spread({ property: 'sulfate', min: 2.5 }, [3]).margin).toBeCloseTo(-0.25, 12);
  });

  it('holds in a draw without a figure just where the limit stands unbroken there', () => {
    const kept = spread({ property: 'sulfate', max: 2.5 }, [3, Number.NaN, 3.4]);
    expect(kept.moves[1]).toBe(Number.NEGATIVE_INFINITY);
    expect(breaks(kept, 1)).toBe(false);
    // Only the draws that have one tell the spread: 0 and 0.1.
    expect(kept.size).toBeCloseTo(0.05, 12);
    const missed = spread({ property: 'sulfate', max: 2 }, [3, Number.NaN]);
    expect(missed.moves[1]).toBe(Number.POSITIVE_INFINITY);
    expect(breaks(missed, 1)).toBe(true);
    expect(spread({ property: 'sulfate', max: 2.5 }, [Number.NaN]).size).toBe(0);
  });

  it('of what the blend has nothing of holds in every draw or in none', () => {
    const none = { link: FROM_NOTHING, slack: 0, size: 0 };
    expect(spread({ property: 'water-to-plaster', min: 0.3 }, [3, 4])).toMatchObject({
      ...none,
      margin: Number.POSITIVE_INFINITY,
      moves: [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
    });
    expect(spread({ property: 'water-to-plaster', max: 0.5 }, [3, 4])).toMatchObject({
      ...none,
      margin: Number.NEGATIVE_INFINITY,
      moves: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    });
  });

  it('is told side by side, each on the scale of its own ratio', () => {
    const sides = sidesOf([
      { property: 'strength', min: 0 },
      { property: 'sulfate', min: 2, max: 2.5 },
      { property: 'strength', min: 20 },
    ]);
    const [anything, least, most, strong] = sideSpreads(question, GRAMS, sides, saying([3]));
    expect([least!.side, most!.side]).toEqual(['min', 'max']);
    expect(most!.margin).toBeCloseTo(0.25, 12);
    // A strength of nothing at least is held by any distance, on a scale of logarithms.
    expect(anything).toMatchObject({ margin: Number.POSITIVE_INFINITY, slack: 0 });
    expect(breaks(anything!, 0)).toBe(false);
    expect(strong!.slack).toBeCloseTo(2e-5, 9);
  });

  it('of a property that falls as its ratio rises counts towards the limit too', () => {
    const shrinks: Draws = {
      ...saying([1, 1]),
      reading: (j) => (key, figure) => figure.value * (key === 'model.paste-shrinkage' && j === 1 ? 1.5 : 1),
    };
    const at = (target: { property: string; min?: number; max?: number }) =>
      sideSpreads(question, GRAMS, sidesOf([target]), shrinks)[0]!;
    const first = at({ property: 'drying-shrinkage', max: 1 });
    const shrinkage = first.link.of(0);
    const near = at({ property: 'drying-shrinkage', max: 1.2 * shrinkage });
    expect(near.link.rising).toBe(false);
    expect(near.margin).toBeGreaterThan(0);
    expect(near.moves[0]).toBeCloseTo(0, 12);
    expect([breaks(near, 0), breaks(near, 1)]).toEqual([false, true]);
    const far = at({ property: 'drying-shrinkage', min: 0.8 * shrinkage });
    expect(far.margin).toBeGreaterThan(0);
    expect(breaks(far, 1)).toBe(false);
    expect(far.moves[1]).toBeLessThan(0);
  });
});

describe('the chance that all sides hold at once', () => {
  const one = side({ moves: [0, 1, 1.5, 2], margin: 1 });
  const two = side({ moves: [3, 0, 3, 0], margin: 2, slack: 1 });

  it('is the share of the draws that break none', () => {
    // At the limit and its slack a side still holds.
    expect([0, 1, 2, 3].map((j) => breaks(one, j))).toEqual([false, false, true, true]);
    expect([0, 1, 2, 3].map((j) => breaks(two, j))).toEqual([false, false, false, false]);
    const other = side({ moves: [3.1, 0, 3.1, 0], margin: 2, slack: 1 });
    expect(jointChance([one], 4)).toBe(0.5);
    expect(jointChance([one, other], 4)).toBe(0.25);
    expect(jointChance([other], 4)).toBe(0.5);
    expect(jointChance([], 4)).toBe(1);
  });
});

describe('the clearance that a wanted chance takes', () => {
  it('is the quantile, over the draws, of the furthest that breaks a side, in its own spread', () => {
    const one = side({ moves: [20, 0, 4, 6], margin: 1, size: 2 });
    const two = side({ moves: [1, 9, 1.5, 0], margin: 0.5, size: 1 });
    // By draw: max(20/2, 1), 9, max(4/2, 1.5), 6/2: in order 2, 3, 9 and 10.
    expect([0.25, 0.5, 0.51, 0.75, 1].map((wanted) => clearance([one, two], 4, wanted))).toEqual([2, 3, 9, 9, 10]);
  });

  it('asks for nothing in draws that break nothing, however near they come', () => {
    expect(clearance([side({ moves: [1, 1, 1, 5] })], 4, 0.75)).toBe(0);
    expect(clearance([], 4, 1)).toBe(0);
  });

  it('is without end where a side breaks that does not move', () => {
    const stuck = side({ moves: [2, 0], size: 0 });
    expect(clearance([stuck], 2, 0.5)).toBe(0);
    expect(clearance([stuck], 2, 1)).toBe(Number.POSITIVE_INFINITY);
    // Missed from the start, in every draw alike.
    expect(clearance([side({ moves: [0, 0], margin: -1, size: 0 })], 2, 0.5)).toBe(Number.POSITIVE_INFINITY);
  });

  it('of less than nothing or more than all is that of the easiest or the hardest draw', () => {
    const one = side({ moves: [3, 5] });
    expect(clearance([one], 2, 0)).toBe(3);
    expect(clearance([one], 2, 1.2)).toBe(5);
  });
});

describe('targets that are kept clear of', () => {
  const falling: Link = { of: (x) => -x, inverse: (y) => -y, rising: false };
  const at = (property: string, which: 'min' | 'max', limit: number, link: Link): SideSpread =>
    side({ target: { property, [which]: limit }, side: which, limit, link, moves: [] });

  it('have every side moved inwards by its own distance, on the scale of its ratio', () => {
    const targets = [
      { property: 'flow', min: 1, max: 2, path: 'targets.flow' },
      { property: 'cost', max: 5 },
    ];
    const spreads = [
      at('flow', 'min', 1, IDENTITY),
      at('flow', 'max', 2, IDENTITY),
      at('demould-time', 'max', 60, EXPONENTIAL),
    ];
    expect(backedOff(targets, spreads, [0.1, 0.25, 7])).toEqual([
      { property: 'flow', min: 1.1, max: 1.75, path: 'targets.flow' },
      { property: 'cost', max: 5 },
    ]);
    const times = [{ property: 'demould-time', min: 60, max: 90 }];
    const [held] = backedOff(
      times,
      [at('demould-time', 'min', 60, EXPONENTIAL), at('demould-time', 'max', 90, EXPONENTIAL)],
      [Math.log(1.2), Math.log(1.2)],
    );
    expect(held!.min).toBeCloseTo(72, 9);
    expect(held!.max).toBeCloseTo(75, 9);
  });

  it('move inwards where the property falls as its ratio rises too', () => {
    const spreads = [at('drying-shrinkage', 'min', 1, falling), at('drying-shrinkage', 'max', 2, falling)];
    expect(backedOff([{ property: 'drying-shrinkage', min: 1, max: 2 }], spreads, [0.1, 0.25])).toEqual([
      { property: 'drying-shrinkage', min: 1.1, max: 1.75 },
    ]);
  });

  it('stay where they are when no number is as far', () => {
    const spreads = [at('demould-time', 'min', 60, EXPONENTIAL)];
    expect(backedOff([{ property: 'demould-time', min: 60 }], spreads, [Number.POSITIVE_INFINITY])).toEqual([
      { property: 'demould-time', min: 60 },
    ]);
  });
});
