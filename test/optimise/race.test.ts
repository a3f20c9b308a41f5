import { describe, expect, it } from 'vitest';
import { type World, worldOf } from '../../src/core/blend/world.js';
import type { Candidate } from '../../src/core/optimise/ground.js';
import { better } from '../../src/core/optimise/miss.js';
import { AIMS, type Sought } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle, type Trail } from '../../src/core/optimise/settle.js';
import { race, refineWorthwhile, settleSystems } from '../../src/core/optimise/settle-systems.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { BINDER_SYSTEMS, openSystems } from '../../src/core/optimise/systems.js';
import { randomQuestion } from '../support/random-shelf.js';

/** Binder systems walk side by side. Made-up trails go through a list of blends and rest at the last. */

/** Closeness counts as it is: a value of 1 is a burden of 1. */
const PLAIN: Sought = { sense: 'min', wanted: [], thrift: 0 };

type Told = number | { readonly value: number | null; readonly miss: number };
const HELD = {} as Candidate['state'];

class Walked extends Error {}

/** Trails through these blends, and how many strides each has been given. */
function made(scripts: readonly (readonly Told[])[]): { readonly trails: Trail[]; readonly strides: number[] } {
  const strides = scripts.map(() => 0);
  const trails = scripts.map((script, t): Trail => {
    const blends = script.map((told): Candidate => {
      const judged = typeof told === 'number' ? { value: told, miss: 0 } : told;
      return { grams: [], state: HELD, ...judged };
    });
    const still = () => strides[t]! === blends.length - 1;
    return {
      get best() {
        return blends[strides[t]!]!;
      },
      get still() {
        return still();
      },
      stride: () => {
        if (!still()) strides[t]!++;
      },
      settled: (): Settled => {
        throw new Walked();
      },
    };
  });
  return { trails, strides };
}

/** How many strides each of these trails is given. */
function raced(scripts: readonly (readonly Told[])[], aim: Sought = PLAIN, every = false): number[] {
  const { trails, strides } = made(scripts);
  race(trails, aim, every);
  return strides;
}

/** So many strides at one pace, from a value. */
const steady = (from: number, gain: number, strides: number): number[] =>
  Array.from({ length: strides + 1 }, (_, k) => from - k * gain);
const standing = (value: number, strides = 20): number[] => steady(value, 0, strides);

describe('a race', () => {
  it('ends when all rest', () => {
    expect(raced([standing(1, 4), standing(1, 0), standing(1, 9)])).toEqual([4, 0, 9]);
    expect(raced([standing(1, 0)])).toEqual([0]);
    expect(raced([])).toEqual([]);
  });

  it('leaves one that is far behind and slow after its first three strides', () => {
    expect(raced([standing(0), standing(5)])).toEqual([20, 3]);
    expect(raced([standing(0), steady(5, 0.1, 40)])).toEqual([20, 3]);
    // Not one that rests before.
    expect(raced([standing(0), standing(5, 2)])).toEqual([20, 2]);
  });

  it('keeps one that would catch up in ten strides more at its pace', () => {
    // After three strides of 0.384 it is 3.848 behind, of 0.385 only 3.845: ten of these are 3.84 and 3.85.
    expect(raced([standing(0, 99), steady(5, 0.384, 12)])).toEqual([99, 3]);
    expect(raced([standing(0, 99), steady(5, 0.385, 12)])).toEqual([99, 12]);
  });

  it('tells its pace by its last two strides', () => {
    // Fast at first and then no more: half as fast after a stride, and not at all after two.
    const slackens = [5, 4.5, 4, 3.5, 3, ...standing(2.7)];
    // 2.7 behind at (3.5 - 2.7) / 2, and then at (3 - 2.7) / 2.
    expect(raced([standing(0), slackens])).toEqual([20, 6]);
    // Slow at first and then fast.
    expect(raced([standing(0), [5, 5, 4.5, 4, ...steady(3.5, 0.5, 5)]])).toEqual([20, 9]);
  });

  it('keeps those that are closer than a hundredth, slow as they may be', () => {
    expect(raced([standing(0), standing(0.0099), standing(0.0101)])).toEqual([20, 20, 3]);
    // Of a property: a hundredth of it.
    expect(raced([standing(100), standing(100.9), standing(101.1)], AIMS.cheapest)).toEqual([20, 20, 3]);
    expect(raced([standing(100), standing(99.1), standing(98.9)], AIMS.heaviest)).toEqual([20, 20, 3]);
  });

  it('is more patient on a ridge, where walks stand before they climb', () => {
    // A tenth, told by logarithms: 0.0987 and 0.1009.
    expect(raced([standing(100), standing(90.6), standing(90.4)], AIMS.strongest)).toEqual([20, 20, 3]);
    expect(raced([standing(100), [2, 2, 50, 101, ...standing(101, 5)]], AIMS.strongest)).toEqual([20, 9]);
  });

  it('does not wait three strides for one that misses by a tenth and stands, but on a ridge', () => {
    const missing = (miss: number, strides = 20) => Array.from({ length: strides + 1 }, () => ({ value: 1, miss }));
    // Twenty times over, 1.98 and 2.02 behind.
    expect(raced([standing(1), missing(0.099), missing(0.101)], AIMS.cheapest)).toEqual([20, 3, 1]);
    expect(raced([standing(1), missing(0.099), missing(0.101)], AIMS.strongest)).toEqual([20, 3, 3]);
    expect(raced([standing(1), missing(0.099), missing(0.101)])).toEqual([20, 3, 3]);
    // At such a pace it may come up: 0.5 in a stride, 4.5 behind; 0.4, 4.6 behind, is too slow.
    const mending = (gain: number) => steady(0.25, gain / 20, 6).map((miss) => ({ value: 1, miss }));
    expect(raced([standing(1), mending(0.5), mending(0.4)], AIMS.cheapest)).toEqual([20, 6, 1]);
  });

  it('does not set out with one whose jumps are outdone by half of what keeps every limit, but on a ridge', () => {
    // By logarithms: 0.495 and 0.507.
    expect(raced([standing(100), standing(164), standing(166)], AIMS.cheapest)).toEqual([20, 3, 0]);
    expect(raced([standing(166), standing(102), standing(100)], AIMS.heaviest)).toEqual([20, 3, 0]);
    expect(raced([standing(166), standing(102), standing(100)], AIMS.strongest)).toEqual([20, 3, 3]);
    expect(raced([standing(100), standing(166)], AIMS.cheapest, true)).toEqual([20, 20]);
    // Not by one that misses a limit itself, nor where it has no value to tell of.
    const missing = Array.from({ length: 21 }, () => ({ value: 100, miss: 1e-3 }));
    expect(raced([missing, standing(166)], AIMS.cheapest)).toEqual([20, 20]);
    expect(raced([standing(0.4), [{ value: null, miss: 0.5 }, ...standing(0.39, 2)]], AIMS.cheapest)[1]).toBe(3);
  });

  it('is patient while none keeps every limit: one that misses a quarter of a limit more may turn a corner', () => {
    const missing = (miss: number, strides = 20) => Array.from({ length: strides + 1 }, () => ({ value: 1, miss }));
    expect(raced([missing(0.5), missing(0.74), missing(0.76)], AIMS.cheapest)).toEqual([20, 20, 1]);
    // Until one keeps them all.
    expect(raced([[...missing(0.5, 5), ...standing(1)], missing(0.74)], AIMS.cheapest)).toEqual([26, 6]);
  });

  it('counts shares of a property and tolerances of closeness', () => {
    // From 8 to 5.8 in three strides: ten of 0.7 tolerances make up for the 4.8 that are left, ten tenths of itself
    // not for what 5.8 is times 1.
    const gaining = [8, 7.2, 6.5, 5.8, ...standing(5.8)];
    expect(raced([standing(1), gaining])).toEqual([20, 4]);
    const late = [{ value: 1, miss: 1e-3 }, ...standing(1)];
    expect(raced([late, gaining], AIMS.cheapest)).toEqual([21, 3]);
  });

  it('counts what is missed, twenty times over', () => {
    const missing = (...misses: readonly number[]) => misses.map((miss) => ({ value: 1, miss }));
    const long = (miss: number) => Array.from({ length: 20 }, () => miss);
    expect(raced([standing(1), missing(0, ...long(4e-4)), missing(0, ...long(6e-4))])).toEqual([20, 20, 3]);
    // Less and less of it is a pace as well: 20 behind at 2 a stride.
    const mending = missing(...steady(1, 0.1, 10));
    expect(raced([standing(1), mending])).toEqual([20, 10]);
    expect(raced([standing(1), missing(...steady(1, 0.05, 20))])).toEqual([20, 3]);
  });

  it('never leaves the best, however long it stands', () => {
    expect(raced([standing(3, 60)])).toEqual([60]);
    expect(raced([standing(3, 60), standing(3, 40), standing(4, 60)])).toEqual([60, 40, 3]);
    // Until another has come past it, which takes ten strides: then it is behind, and stands.
    expect(raced([standing(0, 60), steady(5, 0.5, 30)])).toEqual([11, 30]);
  });

  it('measures by one that rests, too', () => {
    expect(raced([standing(0, 0), standing(1)])).toEqual([0, 3]);
    expect(raced([standing(0, 5), steady(1, 0.2, 4), standing(0.2)])).toEqual([5, 4, 3]);
  });

  it('does not set out with one whose jumps missed by more than five limits, and ten times as much as another', () => {
    const mending = (from: number) => steady(from, from / 10, 10).map((miss) => ({ value: 1, miss }));
    expect(raced([standing(1), mending(5), mending(5.1)])).toEqual([20, 10, 0]);
    // However many where the others miss as much.
    expect(raced([mending(0.6), mending(5.9), mending(6.1)])).toEqual([10, 10, 0]);
    expect(raced([mending(90), mending(70)])).toEqual([10, 10]);
  });

  it('leaves none where every one is asked for', () => {
    const lost = Array.from({ length: 5 }, () => ({ value: 1, miss: 99 }));
    expect(raced([standing(0), standing(5, 30), standing(900, 7), lost], PLAIN, true)).toEqual([20, 30, 7, 4]);
  });

  it('leaves none where ingredients are limited: without the limit it cannot be told who is ahead', () => {
    const question = randomQuestion(1);
    const walked = (limits: Question['limits'], aim: Sought): readonly number[] => {
      const { trails, strides } = made([standing(1), standing(1.5, 30)]);
      const systems = trails.map((trail, i) => ({ system: BINDER_SYSTEMS[i]!, trail }));
      const refined = () =>
        refineWorthwhile({ ...question, ...(limits && { limits }) }, worldOf(question), systems, aim);
      expect(refined).toThrow(Walked);
      return strides;
    };
    expect(walked({ ingredients: 4, leastDose: null }, AIMS.cheapest)).toEqual([20, 30]);
    expect(walked({ ingredients: null, leastDose: 5 }, AIMS.cheapest)).toEqual([20, 3]);
    expect(walked(undefined, AIMS.cheapest)).toEqual([20, 3]);
    expect(walked({ ingredients: 4, leastDose: null }, PLAIN)).toEqual([20, 3]);
  });

  it('goes the same in whatever order they are', () => {
    const scripts = [standing(0, 25), standing(5), steady(5, 0.5, 30), steady(1, 0.04, 20), standing(0.005, 8)];
    const expected = raced(scripts);
    expect(expected).toEqual([11, 3, 30, 3, 8]);
    const orders = (of: readonly number[]): number[][] =>
      of.length === 0 ? [[]] : of.flatMap((x) => orders(of.filter((y) => y !== x)).map((rest) => [x, ...rest]));
    for (const order of orders([0, 1, 2, 3, 4])) {
      expect(raced(order.map((t) => scripts[t]!)), order.join()).toEqual(order.map((t) => expected[t]));
    }
  });
});

describe('the chosen system', () => {
  /** So fine a scale that whatever is settled can be weighed out. */
  const fine = (seed: number): Question => ({ ...randomQuestion(seed), batch: { pieces: 1, step: 1e-9, fine: null } });
  const bestAlone = (question: Question, world: World, aim: Sought): Settled | null =>
    openSystems(question, world)
      .map((system) => settle(question, world, system, { aim }))
      .reduce((a, b) => (a === null || (b !== null && better(b, a, aim)) ? b : a), null);

  it('is at least as good as the best of all open ones that are settled alone, each to its end', () => {
    let nearest = 0;
    let met = 0;
    let same = 0;
    for (let seed = 1; met < 60; seed++) {
      const question = fine(seed);
      const world = worldOf(question);
      if (openSystems(question, world).length < 2) continue;
      const aim = AIMS[question.objective];
      const alone = bestAlone(question, world, aim);
      const chosen = settleSystems(question, world, aim).ranked[0]?.answer ?? null;
      expect(chosen === null, `seed ${seed}`).toBe(alone === null);
      if (chosen === null || alone === null) continue;
      expect(chosen.feasible, `seed ${seed}`).toBe(alone.feasible);
      if (!alone.feasible) {
        // Where nothing keeps every limit, standing ones count more.
        const dear = bestAlone({ ...question, unmet: true }, world, aim)!;
        expect(chosen.miss, `seed ${seed}`).toBeLessThanOrEqual(1.02 * dear.miss + 1e-5);
        nearest++;
        continue;
      }
      met++;
      const [a, b] = [chosen.value!, alone.value!];
      const worse = aim.sense === 'min' ? a / b - 1 : b / a - 1;
      // All come to the very same, but where a second look without the doses finds better.
      expect(worse, `seed ${seed}`).toBeLessThan(1e-6);
      if (worse > -1e-6) same++;
      else expect(aim.rugged, `seed ${seed}`).toBe(true);
    }
    expect(met - same).toBeLessThan(4);
    expect(nearest).toBeGreaterThan(10);
  });
});
