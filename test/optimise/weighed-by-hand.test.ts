import { describe, expect, it } from 'vitest';
import { type World, worldOf } from '../../src/core/blend/world.js';
import type { Knob } from '../../src/core/optimise/knobs.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import type { RoundingOptions } from '../../src/core/optimise/rounding.js';
import { settle } from '../../src/core/optimise/settle.js';
import { weighedBlend } from '../../src/core/optimise/weighed.js';
import { fullMould, LEANEST, LOOSE } from '../support/full-mould.js';
import { systemOf } from '../support/small-shelf.js';

/** Where rounding costs a limit, the blend is settled anew with that much held back: on scales that only round one way. */

const plain = fullMould({ 'casting-plaster': 0.001, 'limestone-flour': 0.0001 });
const asked = (targets: Question['targets'], more: Partial<Question> = {}): Question => ({
  ...plain,
  conditions: { ...plain.conditions, waste: 0 },
  targets: [...targets, ...LOOSE],
  batch: { pieces: 1, step: 1, fine: null },
  limits: { ingredients: null, leastDose: 1 },
  ...more,
});
/** A scale that weighs each material on these steps, and always up or always down. */
const oneWay =
  (steps: readonly number[], ways: readonly ('up' | 'down')[]) =>
  (batch: readonly number[]): Knob[] =>
    batch.flatMap((grams, i): Knob[] => {
      if (grams <= 0) return [];
      const at = (ways[i] === 'up' ? Math.ceil : Math.floor)(grams / steps[i]!);
      return [{ perStep: [[i, steps[i]!]], exact: at, least: at, most: at }];
    });
const weigh = (question: Question, options: RoundingOptions, grams?: readonly number[]) => {
  const world: World = worldOf(question);
  const settled = settle(question, world, systemOf('gypsum'), { aim: AIMS.cheapest })!;
  const answer = grams === undefined ? settled : { ...settled, grams };
  return { settled, weighed: weighedBlend(question, world, systemOf('gypsum'), answer, AIMS.cheapest, options) };
};
const ratio = ({ pieceGrams: [water, plaster] }: { pieceGrams: readonly number[] }) => water! / plaster!;

describe('a blend that is weighed out', () => {
  const most = { property: 'water-to-binder', max: 0.6 };

  it('is just rounded where that keeps every limit', () => {
    const { settled, weighed } = weigh(asked([most]), { knobs: oneWay([1, 1, 1], ['down', 'up', 'down']) });
    expect(weighed.miss).toBe(0);
    expect(weighed.batchGrams).toEqual([
      Math.floor(settled.grams[0]!),
      Math.ceil(settled.grams[1]!),
      Math.floor(settled.grams[2]!),
    ]);
  });

  it('is settled again with less water where the scale gives too much of it', () => {
    const { settled, weighed } = weigh(asked([most]), { knobs: oneWay([7, 1, 1], ['up', 'up', 'down']) });
    // 140.06 g become 147.
    expect(settled.grams[0]! % 7).toBeLessThan(1);
    expect(settled.grams[0]! / settled.grams[1]!).toBeCloseTo(0.6, 6);
    expect(weighed.miss).toBe(0);
    expect(ratio(weighed)).toBeLessThanOrEqual(0.6);
    expect(ratio(weighed)).toBeGreaterThan(0.55);
  });

  it('is settled again with more of it where the scale gives too little', () => {
    const least = { property: 'water-to-binder', min: 0.5, max: 0.55 };
    const lean = asked([least, { property: 'sand-to-binder', max: 1 }, { property: 'strength', min: 0.01 }]);
    const dry = { ...lean, objective: 'heaviest' as const };
    const world = worldOf(dry);
    const answer = settle(dry, world, systemOf('gypsum'), { aim: AIMS.heaviest })!;
    expect(answer.grams[0]! / answer.grams[1]!).toBeCloseTo(0.5, 6);
    const options = { knobs: oneWay([7, 1, 1], ['down', 'up', 'down']) };
    const weighed = weighedBlend(dry, world, systemOf('gypsum'), answer, AIMS.heaviest, options);
    expect(weighed.miss).toBe(0);
    expect(ratio(weighed)).toBeGreaterThanOrEqual(0.5);
    expect(ratio(weighed)).toBeLessThan(0.54);
  });

  it('holds back what each limit was missed by, standing limits too', () => {
    // Flour always up: three to one is passed.
    const { settled, weighed } = weigh(asked([most]), { knobs: oneWay([1, 1, 11], ['down', 'down', 'up']) });
    expect(settled.grams[2]! / settled.grams[1]!).toBeCloseTo(LEANEST, 6);
    expect(weighed.miss).toBe(0);
    expect(weighed.pieceGrams[2]! / weighed.pieceGrams[1]!).toBeLessThanOrEqual(LEANEST);
    expect(weighed.pieceGrams[2]! / weighed.pieceGrams[1]!).toBeGreaterThan(LEANEST - 0.3);
  });

  it('keeps to what it has: nothing comes in for what is held back', () => {
    // The cheap flour is left out of the answer; it would help, but it stays out.
    const question = asked([most]);
    const pure = settle(question, worldOf(question), systemOf('gypsum'), {
      aim: AIMS.cheapest,
      bounds: [0, 0, 1].map((shut) => ({ lower: 0, upper: shut ? 0 : 1e9 })),
    })!;
    const { weighed } = weigh(question, { knobs: oneWay([7, 1, 1], ['up', 'up', 'down']) }, pure.grams);
    expect(weighed.miss).toBe(0);
    expect(weighed.pieceGrams[2]).toBe(0);
    // And what it has stays in, at its least dose.
    const dear = {
      ...question,
      prices: new Map([
        ['casting-plaster', 0.0001],
        ['limestone-flour', 0.01],
      ]),
    };
    const some = { ...dear, limits: { ingredients: null, leastDose: 9 } };
    const [water, plaster] = pure.grams;
    const held = weigh(some, { knobs: oneWay([7, 1, 1], ['up', 'up', 'up']) }, [water!, plaster! - 15, 15]).weighed;
    expect(held.batchGrams[2]).toBeGreaterThanOrEqual(9);
    expect(held.batchGrams[2]).toBeLessThan(12);
    const less = weigh(some, { knobs: oneWay([7, 1, 1], ['up', 'up', 'up']) }, [water!, plaster! - 4, 4]).weighed;
    expect(less.batchGrams[2]).toBeGreaterThanOrEqual(4);
    expect(less.batchGrams[2]).toBeLessThan(7);
  });

  it('is settled again once where that will do, and what was kept with room is not let go for it', () => {
    let asks = 0;
    const counted = (steps: readonly number[], ways: readonly ('up' | 'down')[]) => (batch: readonly number[]) => {
      asks++;
      return oneWay(steps, ways)(batch);
    };
    // Flour is rounded down by up to 11 g, within its limit of one to one; water is rounded up.
    const question = asked([most, { property: 'sand-to-binder', max: 1 }]);
    const { weighed } = weigh(question, { knobs: counted([5, 1, 11], ['up', 'down', 'down']) });
    expect(asks).toBe(2);
    expect(weighed.miss).toBe(0);
    asks = 0;
    expect(weigh(asked([most]), { knobs: counted([1, 1, 1], ['down', 'up', 'down']) }).weighed.miss).toBe(0);
    expect(asks).toBe(1);
  });

  it('keeps its least dose by the piece', () => {
    const question = asked([most], {
      prices: new Map([
        ['casting-plaster', 0.0001],
        ['limestone-flour', 0.01],
      ]),
      limits: { ingredients: null, leastDose: 36 },
      batch: { pieces: 4, step: 1, fine: null },
    });
    const pure = settle(question, worldOf(question), systemOf('gypsum'), { aim: AIMS.cheapest })!.grams;
    const { weighed } = weigh(question, { knobs: oneWay([28, 1, 1], ['up', 'down', 'up']) }, [
      pure[0]!,
      pure[1]! - 20,
      20,
    ]);
    expect(weighed.batchGrams[2]).toBeGreaterThanOrEqual(36);
    expect(weighed.batchGrams[2]).toBeLessThanOrEqual(37);
  });

  it('is the best of five roundings where none keeps everything', () => {
    let asks = 0;
    // Whatever is settled: 10 % too much water.
    const wet = (batch: readonly number[]): Knob[] => {
      asks++;
      const grams = [200 + 100 * Math.min(1, asks === 3 ? 0.9 : 1), 480, 1];
      return grams.slice(0, batch.length).map((g, i): Knob => ({ perStep: [[i, 1]], exact: g, least: g, most: g }));
    };
    const { weighed } = weigh(asked([{ property: 'water-to-binder', max: 0.55 }]), { knobs: wet });
    expect(asks).toBe(5);
    expect(weighed.batchGrams[0]).toBe(290);
    expect(weighed.miss).toBeGreaterThan(0);
  });

  it('is not settled again where the blend itself keeps not everything', () => {
    let asks = 0;
    const counted = (batch: readonly number[]): Knob[] => {
      asks++;
      return oneWay([1, 1, 1], ['up', 'up', 'up'])(batch);
    };
    const { settled, weighed } = weigh(asked([{ property: 'strength', min: 500 }]), { knobs: counted });
    expect(settled.feasible).toBe(false);
    expect(weighed.miss).toBeGreaterThan(0);
    expect(asks).toBe(1);
  });
});
