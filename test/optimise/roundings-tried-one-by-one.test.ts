import { describe, expect, it } from 'vitest';
import { freshVolume } from '../../src/core/blend/properties/volume-and-weight.js';
import { propertyValue } from '../../src/core/blend/property.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import type { Target } from '../../src/core/blend/target.js';
import { type World, worldOf } from '../../src/core/blend/world.js';
import type { Knob } from '../../src/core/optimise/knobs.js';
import { better, missOf } from '../../src/core/optimise/miss.js';
import { AIMS, soughtValue } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { roundToScale } from '../../src/core/optimise/rounding.js';
import { settle } from '../../src/core/optimise/settle.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { binderIn, fullMould, LOOSE, VOLUME } from '../support/full-mould.js';
import { mouldFull, mouldsOf } from '../support/mould-full.js';
import { systemOf } from '../support/small-shelf.js';

/** What rounding finds, beside every rounding there is near the blend: judged by the forward model and the mould alone. */

interface Tried {
  readonly steps: readonly number[];
  readonly miss: number;
  readonly value: number | null;
}

const limitsOf = (question: Question): Target[] => [...question.targets, ...standingTargets(question.targets)];

/** The best of all roundings whose steps lie so near to these: of those within 2 % of the mould, where one of them will do. */
function byTryingAll(question: Question, world: World, at: readonly number[], near: number): Tried {
  const well = byTrying(question, world, at, near, 0.02);
  return well.miss === 0 ? well : byTrying(question, world, at, near, 1);
}

/** A mould may be off by half a step of each, or by a whole one, but no more than that share where half the least step is less. */
function byTrying(question: Question, world: World, at: readonly number[], near: number, filled: number): Tried {
  const { step } = question.batch;
  const { volume } = question.conditions;
  const { air } = stateOf(
    world,
    at.map((s) => Math.max(1, s) * step),
  );
  const rooms = world.materials.map((m) => (step * m.volume) / (1 - air));
  const usual = Math.max(...rooms, rooms.reduce((s, r) => s + r, 0) / 2);
  const give = Math.max(volume / 400, Math.min(usual, Math.max(filled * volume, Math.min(...rooms) / 2)));
  const aim = AIMS[question.objective];
  let best: Tried | null = null;
  const visit = (steps: readonly number[]): void => {
    if (steps.length < at.length) {
      for (let move = -near; move <= near; move++) visit([...steps, at[steps.length]! + move]);
      return;
    }
    if (steps.some((s) => s < 1)) return;
    const portion = steps.map((s) => s * step);
    const off = Math.abs(mouldsOf(world, portion) - 1) * volume - give;
    const state = stateOf(world, mouldFull(world, portion));
    const miss = missOf(limitsOf(question), world, state, 1e-9) + (off > 1e-6 * volume ? off / volume : 0);
    const tried = { steps, miss, value: soughtValue(aim, world, state) };
    if (best === null || better(tried, best, aim)) best = tried;
  };
  visit([]);
  return best!;
}

/** A strength and a flow in narrow windows, which curve. */
function windowed(objective: Question['objective'], window: number, volume: number, step: number): Question {
  const plain = fullMould({ 'casting-plaster': 0.001, 'limestone-flour': 0.0001 });
  return {
    ...plain,
    objective,
    conditions: { ...plain.conditions, waste: 0, volume },
    batch: { pieces: 1, step, fine: null },
    limits: { ingredients: null, leastDose: step },
    targets: [
      { property: 'strength', min: 8, max: 8 * (1 + 4 * window) },
      { property: 'flow', min: 0.9, max: 0.9 * (1 + 10 * window) },
    ],
  };
}

describe('rounding', () => {
  it.each([
    ['cheapest', 0.01, 90, 5],
    ['cheapest', 0.001, 90, 5],
    ['cheapest', 0.003, 120, 7],
    ['cheapest', 0.003, 150, 7],
    ['strongest', 0.01, 120, 3],
    ['strongest', 0.001, 90, 7],
    ['strongest', 0.01, 90, 7],
    ['lightest', 0.003, 120, 5],
    ['lightest', 0.01, 150, 7],
  ] as const)(
    'for the %s with windows of %d in %d cm³ on a scale of %d g finds what trying all finds',
    (objective, window, volume, step) => {
      const question = windowed(objective, window, volume, step);
      const world = worldOf(question);
      const aim = AIMS[question.objective];
      const { grams, feasible } = settle(question, world, systemOf('gypsum'), { aim })!;
      expect(feasible).toBe(true);
      const at = grams.map((g) => Math.round(g / question.batch.step));
      const found = roundToScale(question, world, systemOf('gypsum'), grams, aim, { reach: 3 });
      const all = byTryingAll(question, world, at, 3);
      expect(found.miss === 0).toBe(all.miss === 0);
      expect(found.miss).toBeLessThanOrEqual(all.miss + 1e-9);
      const value = soughtValue(aim, world, found.state)!;
      if (all.miss === 0) expect(Math.abs(value / all.value! - 1)).toBeLessThan(1e-6);
    },
  );
});

/** A mould of plaster and water on whole grams, whose rounding starts some steps astray. */
describe('where the rows leave no rounding', () => {
  const plain = fullMould({ 'casting-plaster': 0.001 });
  const question: Question = {
    ...plain,
    conditions: { ...plain.conditions, waste: 0 },
    targets: [{ property: 'water-to-binder', min: 0.6, max: 0.602 }, ...LOOSE],
    batch: { pieces: 1, step: 1, fine: null },
  };
  const world = worldOf(question);
  const plaster = binderIn('casting-plaster', 0.601);
  const grams = [0.601 * plaster, plaster];
  const AT = grams.map(Math.round);
  const knob = (material: number, steps: number, more: Partial<Knob> = {}): Knob => ({
    perStep: [[material, 1]],
    exact: steps,
    least: 0,
    most: 1000,
    ...more,
  });
  const rounded = (knobs: readonly Knob[], asked = question, from = grams) =>
    roundToScale(asked, world, systemOf('gypsum'), from, AIMS.cheapest, { knobs: () => knobs, reach: 0 });

  it('the best of all about it is taken, as many steps each way as can be tried', () => {
    for (const astray of [
      [20, -20],
      [31, 31],
    ]) {
      const from = AT.map((s, i) => s + astray[i]!);
      const { miss, batchGrams } = rounded(from.map((s, i) => knob(i, s)));
      expect(miss).toBe(0);
      expect(batchGrams).toEqual(byTryingAll(question, world, from, 31).steps);
    }
    // Of 4000 tries two knobs have 63 each: 31 steps either way.
    expect(rounded(AT.map((s, i) => knob(i, s + 60))).miss).toBeGreaterThan(0);
  });

  it('and no more: the only rounding that holds is found 31 steps away on either side, not 32', () => {
    const only = [300, 500];
    const volume = propertyValue(freshVolume, world, stateOf(world, only)).value!;
    const exact: Question = {
      ...question,
      conditions: { ...question.conditions, volume },
      targets: [{ property: 'water-to-binder', min: 0.5999, max: 0.6001 }, ...LOOSE],
    };
    const from = (water: number) =>
      roundToScale(exact, worldOf(exact), systemOf('gypsum'), only, AIMS.cheapest, {
        knobs: () => [knob(0, 300 + water), knob(1, 500)],
        reach: 0,
      });
    for (const water of [-31, 31]) expect(from(water)).toMatchObject({ miss: 0, batchGrams: only });
    for (const water of [-32, 32]) expect(from(water).miss).toBeGreaterThan(0);
  });

  it('no knob is turned beyond its ends', () => {
    const from = AT.map((s) => s + 10);
    const ends = { least: AT[1]! + 5, most: AT[1]! + 30 };
    const { batchGrams } = rounded([knob(0, from[0]!), knob(1, from[1]!, ends)]);
    expect(batchGrams[1]).toBe(ends.least);
    expect(rounded([knob(0, from[0]!, { least: from[0]!, most: from[0]! }), knob(1, from[1]!)]).batchGrams[0]).toBe(
      from[0],
    );
    const low = rounded([knob(0, AT[0]! - 10, { most: AT[0]! - 6 }), knob(1, AT[1]! - 10)]);
    expect(low.batchGrams[0]).toBe(AT[0]! - 6);
  });

  it('of many knobs it is walked downhill, a step of one or of two against each other at a time', () => {
    // Eight knobs, four of water and four of plaster: too many to try all.
    const split = (total: number, material: number): Knob[] =>
      [0.1, 0.2, 0.3, 0.4].map((share, k) =>
        knob(material, k === 3 ? total - 3 * Math.round(total / 5) : Math.round(total / 5), {
          most: 1000 * share + 900,
        }),
      );
    const from = [...split(AT[0]! + 9, 0), ...split(AT[1]! - 9, 1)];
    const { miss, batchGrams } = rounded(from);
    expect(miss).toBe(0);
    expect(batchGrams[0]! / batchGrams[1]!).toBeGreaterThanOrEqual(0.6);
    expect(batchGrams[0]! / batchGrams[1]!).toBeLessThanOrEqual(0.602);
    // Held where they are they stay, and they stop where no step helps.
    const fast = from.map((k) => ({ ...k, least: k.exact, most: k.exact }));
    expect(rounded(fast).batchGrams).toEqual([AT[0]! + 9, AT[1]! - 9]);
    const wet = from.map((k, i) => (i < 4 ? { ...k, least: k.exact } : { ...k, most: k.exact }));
    expect(rounded(wet).batchGrams[0]).toBe(AT[0]! + 9);
  });

  it('one stuff gives way to another step by step, where neither may be more or less alone', () => {
    // A tenth of flour to the binder is asked for and held, so that plasters can only change places.
    const shelf = fullMould({ 'casting-plaster': 0.001, 'alpha-gypsum-cement': 0.002, 'limestone-flour': 0.0001 });
    const asked: Question = {
      ...shelf,
      conditions: { ...shelf.conditions, waste: 0 },
      doses: [{ material: 'limestone-flour', percent: 10, of: 'binder' }],
      // Half of each plaster costs 0.2 and 0.4, and the flour 0.004: that is too much.
      targets: [{ property: 'cost', max: 0.55 }, ...LOOSE],
      batch: { pieces: 1, step: 1, fine: null },
    };
    const fills = (weak: number, strong: number): number[] => {
      const dry = [0, weak, strong, 0.1 * (weak + strong)];
      const room = dry.reduce((s, g, i) => s + g * worldOf(shelf).materials[i]!.volume, 0);
      const { air } = stateOf(worldOf(shelf), dry);
      return [(VOLUME * (1 - air) - room) / worldOf(shelf).materials[0]!.volume, ...dry.slice(1)];
    };
    const dear = fills(200, 200);
    const cheap = fills(270, 130);
    const at = (steps: number, perStep: Knob['perStep'], free = false): Knob => ({
      perStep,
      exact: steps,
      least: free ? 0 : steps,
      most: free ? 1000 : steps,
    });
    const knobs = [
      at(40, [[1, 5]], true),
      at(40, [[2, 5]], true),
      at(80, [[3, 0.5]]),
      ...[1, 2, 3, 4, 5].map(() => at(1, [[0, dear[0]! / 5]])),
    ];
    const { miss, batchGrams } = roundToScale(asked, worldOf(asked), systemOf('gypsum'), cheap, AIMS.cheapest, {
      knobs: () => knobs,
      reach: 0,
    });
    expect(miss).toBe(0);
    // And no further than the limit asks for, though that would be cheaper still.
    expect(batchGrams[2]).toBeLessThanOrEqual(150);
    expect(batchGrams[2]).toBeGreaterThanOrEqual(135);
    expect(Math.abs(batchGrams[1]! + batchGrams[2]! - 400)).toBeLessThanOrEqual(10);
  });

  it('and not at all where the blend itself breaks a limit', () => {
    const wet = binderIn('casting-plaster', 0.65);
    const { miss, batchGrams } = rounded(
      AT.map((s, i) => knob(i, s + 10)),
      question,
      [0.65 * wet, wet],
    );
    expect(batchGrams).toEqual(AT.map((s) => s + 10));
    expect(miss).toBeGreaterThan(0);
    expect(VOLUME).toBe(question.conditions.volume);
  });
});
