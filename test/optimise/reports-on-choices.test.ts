import { describe, expect, it } from 'vitest';
import { stateOf } from '../../src/core/blend/state/state.js';
import type { Target } from '../../src/core/blend/target.js';
import { worldOf } from '../../src/core/blend/world.js';
import { coarseReport, limitsReport, partsReport } from '../../src/core/optimise/choices.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { PartsBlend } from '../../src/core/optimise/parts.js';
import type { Question } from '../../src/core/optimise/question.js';
import type { Weighable } from '../../src/core/optimise/rounding.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import type { Supported } from '../../src/core/optimise/support.js';
import { binderIn, fullMould, LOOSE, RATIO, VOLUME } from '../support/full-mould.js';
import { questionOf } from '../support/hand-question.js';
import { mouldsOf } from '../support/mould-full.js';
import { systemOf } from '../support/small-shelf.js';

/** What is told of limits on ingredients, of parts and of a scale too coarse, from blends written out by hand. */

const blend = (more: Partial<Settled>): Settled =>
  ({ grams: [200, 300, 50, 0], value: 10, miss: 0, feasible: true, ...more }) as Settled;
const kept = (answer: Partial<Settled>, free: Partial<Settled> | null = null): Supported => ({
  answer: blend(answer),
  free: free === null ? null : blend(free),
  tried: 0,
});

describe('what the limits of ingredients made of a blend', () => {
  const question = questionOf(['water', 'casting-plaster', 'limestone-flour', 'silica-sand-fine']);
  const report = (one: Supported, others: readonly Supported[] = [], asked: Question = question, enough = 3) =>
    limitsReport(asked, one, () => enough, AIMS.cheapest, others);

  it('counts dry ingredients, and says what was asked for', () => {
    expect(report(kept({}))).toEqual({ ingredients: null, used: 2, leastDose: 0.5, without: null, enough: null });
    const limited = { ...question, limits: { ingredients: 3, leastDose: 7 } };
    expect(report(kept({}), [], limited)).toMatchObject({ ingredients: 3, used: 2, leastDose: 7 });
  });

  it('tells the objective without them, where they changed the blend and something fits without', () => {
    expect(report(kept({ value: 10 }, { value: 8 })).without).toBe(8);
    expect(report(kept({ value: 10 }, { value: 8, feasible: false, miss: 1 })).without).toBeNull();
    expect(report(kept({ value: 10 }, { value: null })).without).toBeNull();
  });

  it('counts what else was settled, if it is better than the answer and holds: the best of all', () => {
    const other = (value: number, more: Partial<Settled> = {}) => kept({ value: 12 }, { value, ...more });
    expect(report(kept({ value: 10 }), [other(7)]).without).toBe(7);
    expect(report(kept({ value: 10 }), [other(7), other(6), other(9)]).without).toBe(6);
    expect(report(kept({ value: 10 }, { value: 8 }), [other(9)]).without).toBe(8);
    expect(report(kept({ value: 10 }, { value: 8 }), [other(7.5)]).without).toBe(7.5);
    // One that is no better, or holds not all limits.
    expect(report(kept({ value: 10 }), [other(11)]).without).toBeNull();
    expect(report(kept({ value: 10 }), [other(5, { feasible: false, miss: 1 })]).without).toBeNull();
    // Unlimited in itself, it stands for itself.
    expect(report(kept({ value: 10 }), [kept({ value: 9 })]).without).toBe(9);
    expect(limitsReport(question, kept({ value: 10 }), () => 1, AIMS.strongest, [other(11), other(7)]).without).toBe(
      11,
    );
  });

  it('asks how many would do only where so few do not and more do', () => {
    const misses = { feasible: false, miss: 1 };
    expect(report(kept(misses, {})).enough).toBe(3);
    expect(report(kept(misses, misses)).enough).toBeNull();
    expect(report(kept({}, {})).enough).toBeNull();
    expect(report(kept(misses)).enough).toBeNull();
  });
});

describe('a blend in whole-number parts', () => {
  const question = questionOf(['water', 'casting-plaster', 'limestone-flour', 'citric-acid'], {
    parts: { by: 'scoop', most: 5 },
  });
  const weighed = { batchGrams: [200, 300, 100, 0.5] } as unknown as Weighable;
  const parts = {
    by: 'scoop',
    parts: [
      { material: 1, parts: 3 },
      { material: 2, parts: 1 },
    ],
    partOf: (grams: readonly number[]) => grams[2]! / 3,
  } as unknown as PartsBlend;

  it('is told by name, with what is weighed beside and what a part holds', () => {
    expect(partsReport(question, parts, blend({ value: 4 }), weighed)).toEqual({
      by: 'scoop',
      parts: [
        { material: 'casting-plaster', parts: 3 },
        { material: 'limestone-flour', parts: 1 },
      ],
      part: 33.333333,
      apart: ['water', 'citric-acid'],
      without: 4,
      found: true,
    });
    const without = { batchGrams: [200, 300, 100, 0] } as unknown as Weighable;
    expect(partsReport(question, parts, blend({}), without).apart).toEqual(['water']);
  });

  it('is told as not found where there is nothing to count out: all is weighed', () => {
    expect(partsReport(question, null, blend({ value: null }), weighed)).toEqual({
      by: 'scoop',
      parts: [],
      part: 0,
      apart: ['water', 'casting-plaster', 'limestone-flour', 'citric-acid'],
      without: null,
      found: false,
    });
  });
});

describe('a scale too coarse', () => {
  const plain = fullMould({ 'casting-plaster': 0.001, 'limestone-flour': 0.0001 });
  const plaster = binderIn('casting-plaster', 0.6005, 0.1);
  const grams = [0.6005 * plaster, plaster, 0.1 * plaster];
  const asked = (step: number, targets: readonly Target[], fine: Question['batch']['fine'] = null): Question => ({
    ...plain,
    conditions: { ...plain.conditions, waste: 0 },
    targets: [...targets, ...LOOSE],
    batch: { pieces: 1, step, fine },
    limits: { ingredients: null, leastDose: 1 },
  });
  const weighedAt = (at: readonly number[]): Weighable =>
    ({
      batchGrams: at,
      pieceGrams: at,
      state: stateOf(worldOf(plain), at),
      fills: mouldsOf(worldOf(plain), at),
      miss: 1,
    }) as Weighable;
  const report = (question: Question, at: readonly number[]) =>
    coarseReport(question, worldOf(question), systemOf('gypsum'), blend({ grams }), weighedAt(at), AIMS.cheapest);
  const window: Target = { property: 'water-to-binder', min: 0.6, max: 0.601, path: 'targets' };

  it('is told with the sides that its best rounding misses, and by how much', () => {
    // 305 to 500 and 295 to 500.
    const over = report(asked(50, [window]), [305, 500, 50]);
    expect(over.step).toBe(50);
    expect(over.sides).toEqual([
      { property: 'water-to-binder', side: 'max', limit: 0.601, value: 0.61, missedBy: expect.closeTo(0.009, 9) },
    ]);
    const under = report(asked(50, [window]), [295, 500, 50]);
    expect(under.sides).toEqual([
      { property: 'water-to-binder', side: 'min', limit: 0.6, value: 0.59, missedBy: expect.closeTo(0.01, 9) },
    ]);
    const two = report(asked(50, [window, { property: 'sand-to-binder', min: 0.2 }]), [305, 500, 50]);
    expect(two.sides.map((s) => [s.property, s.side])).toEqual([
      ['water-to-binder', 'max'],
      ['sand-to-binder', 'min'],
    ]);
    // A standing limit too; what the blend has nothing of is no side.
    const lean = report(asked(50, [window, { property: 'pigment-share', max: 1 }]), [300.2, 500, 1600]);
    expect(lean.sides.map((s) => [s.property, s.missedBy])).toEqual([['sand-to-binder', expect.closeTo(0.2, 9)]]);
  });

  it('names the mould where every limit is kept and only that is not', () => {
    const { sides } = report(asked(50, [{ property: 'water-to-binder', max: RATIO }]), [250, 450, 50]);
    expect(sides).toEqual([
      { property: 'fresh-volume', side: 'min', limit: VOLUME, value: expect.any(Number), missedBy: expect.any(Number) },
    ]);
    expect(sides[0]!.value + sides[0]!.missedBy).toBeCloseTo(VOLUME, 9);
    const more = report(asked(50, [{ property: 'water-to-binder', max: RATIO }]), [300, 500, 100]);
    expect(more.sides.map((s) => s.side)).toEqual(['max']);
    // A hair is no miss, and a side that is kept is none.
    expect(
      report(asked(50, [{ property: 'water-to-binder', max: 0.6 * (1 - 0.5e-9) }]), [300, 500, 100]).sides[0]!.property,
    ).toBe('fresh-volume');
    expect(
      report(asked(50, [{ property: 'water-to-binder', max: 0.6 * (1 - 2e-9) }]), [300, 500, 100]).sides[0]!.property,
    ).toBe('water-to-binder');
  });

  it('is told the coarsest step that would do', () => {
    // Whole grams: 298 to 496 is 0.6008; on 25 g there are 300 to 500, which fill the mould as well.
    expect(report(asked(50, [{ ...window, min: 0.59, max: 0.61 }]), [305, 500, 50]).stepThatWould).toBe(25);
    // 0.602 is 295 to 490; on tens there are 0.6 and 0.604.
    const narrow: Target = { ...window, min: 0.6005, max: 0.6025 };
    const step = (fine: Question['batch']['fine']) => report(asked(50, [narrow], fine), [305, 500, 50]).stepThatWould;
    expect(step(null)).toBe(5);
    // A finer scale beside it weighs all there is, but only while it is the finer one.
    expect(step({ step: 1, most: 1000 })).toBe(25);
    expect(step({ step: 10, most: 1000 })).toBe(5);
    // Nothing keeps what the blend itself breaks.
    expect(report(asked(50, [{ property: 'strength', min: 500 }]), [305, 500, 50]).stepThatWould).toBeNull();
  });
});
