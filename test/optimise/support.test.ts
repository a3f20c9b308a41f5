import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { isDry, LEAST_STEPS, leastDose } from '../../src/core/optimise/least-dose.js';
import { better } from '../../src/core/optimise/miss.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { portions } from '../../src/core/optimise/portions.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import type { Bound, Settled } from '../../src/core/optimise/settled.js';
import { fewestIngredients, supported } from '../../src/core/optimise/support.js';
import type { BinderSystem } from '../../src/core/optimise/systems.js';
import { isBinderOf, smallQuestion, subsets } from '../support/small-shelf.js';

const CASES = 45;

/** The best blend of at most so many ingredients, by settling every set there is. */
function byTryingAll(question: Question, system: BinderSystem, most: number): Settled | null {
  const world = worldOf(question);
  const aim = AIMS[question.objective];
  const least = leastDose(question) / portions(question.batch, question.conditions.waste);
  const dry = question.materials.flatMap((_m, i) => (isDry(question, i) ? [i] : []));
  let best: Settled | null = null;
  for (const set of subsets(dry, most)) {
    if (!set.some((i) => isBinderOf(system.families, question, i))) continue;
    const bounds = question.materials.map((m, i): Bound => {
      if (m.kind === 'water') return { lower: 0, upper: Number.POSITIVE_INFINITY };
      return set.includes(i) ? { lower: least, upper: Number.POSITIVE_INFINITY } : { lower: 0, upper: 0 };
    });
    const answer = settle(question, world, system, { aim, bounds });
    if (answer !== null && (best === null || better(answer, best, aim))) best = answer;
  }
  return best;
}

const limited = (question: Question, ingredients: number | null): Question => ({
  ...question,
  limits: { ingredients, leastDose: null },
});

describe('at most so many ingredients', () => {
  it.each([1, 2])('of %i are chosen as well as by trying every set', (most) => {
    let compared = 0;
    let alike = 0;
    let narrowed = 0;
    for (let seed = 1; seed <= CASES; seed++) {
      const { question, system } = smallQuestion(seed);
      const world = worldOf(question);
      const aim = AIMS[question.objective];
      const free = settle(question, world, system, { aim });
      if (free === null) continue;
      const kept = supported(limited(question, most), world, system, free, aim);
      const best = byTryingAll(question, system, most);
      if (kept === null || best === null) continue;
      const used = kept.answer.grams.filter((g, i) => g > 1e-9 && isDry(question, i)).length;
      expect(used, `seed ${seed}`).toBeLessThanOrEqual(most);
      expect(kept.answer.feasible, `seed ${seed}`).toBe(best.feasible);
      if (!best.feasible) continue;
      compared++;
      if (kept.free !== null) narrowed++;
      const worse = (aim.sense === 'min' ? 1 : -1) * (kept.answer.value! - best.value!);
      if (worse <= 2e-3 * Math.abs(best.value!)) alike++;
      // The rows are straight and the blends are not: a set may be missed, but never by much.
      expect(worse / Math.abs(best.value!), `seed ${seed}`).toBeLessThan(0.05);
    }
    console.log(`at most ${most}: ${alike} of ${compared} as good as by trying every set, ${narrowed} really narrowed`);
    expect(compared).toBeGreaterThan(15);
    expect(narrowed).toBeGreaterThan(5);
    expect(alike / compared).toBeGreaterThanOrEqual(0.85);
  });

  it('never make the blend better than without a limit, and change nothing where it has so few', () => {
    let same = 0;
    let costs = 0;
    for (let seed = 30; seed < 60; seed++) {
      const { question, system } = smallQuestion(seed);
      const world = worldOf(question);
      const aim = AIMS[question.objective];
      const free = settle(question, world, system, { aim });
      if (free === null || !free.feasible) continue;
      const used = free.grams.filter((g, i) => g > 1e-6 && isDry(question, i)).length;
      const wide = supported(limited(question, 6), world, system, free, aim)!;
      if (wide.free === null) {
        // Less a trace of something, or what is of no use at a limit, if anything.
        expect(wide.answer.feasible).toBe(true);
        expect(wide.answer.value! / free.value!).toBeCloseTo(1, 2);
        expect(wide.answer.grams.filter((g) => g > 1e-6).length).toBeLessThanOrEqual(
          free.grams.filter((g) => g > 1e-6).length,
        );
        if (wide.answer === free) same++;
      }
      if (used < 2) continue;
      const narrow = supported(limited(question, used - 1), world, system, free, aim);
      if (narrow === null || !narrow.answer.feasible) continue;
      expect((aim.sense === 'min' ? 1 : -1) * (narrow.answer.value! - free.value!)).toBeGreaterThan(
        -5e-3 * Math.abs(free.value!),
      );
      costs++;
    }
    expect(same).toBeGreaterThan(8);
    expect(costs).toBeGreaterThan(4);
  });

  it('says how many would do where so few do not', () => {
    let told = 0;
    for (let seed = 1; seed <= 60 && told < 4; seed++) {
      const { question, system } = smallQuestion(seed);
      const world = worldOf(question);
      const aim = AIMS[question.objective];
      const free = settle(question, world, system, { aim });
      if (free === null || !free.feasible) continue;
      if (byTryingAll(question, system, 1)?.feasible !== false) continue;
      const enough = fewestIngredients(question, world, system, free, aim);
      expect(enough, `seed ${seed}`).not.toBeNull();
      expect(enough!).toBeGreaterThan(1);
      expect(byTryingAll(question, system, enough!)!.feasible).toBe(true);
      told++;
    }
    expect(told).toBeGreaterThan(1);
  });
});

describe('the least dose', () => {
  it('is five steps of the scale that weighs it, or what the maker says', () => {
    const { question } = smallQuestion(1);
    expect(leastDose(question)).toBeCloseTo(LEAST_STEPS * 0.1, 12);
    expect(leastDose({ ...question, batch: { pieces: 1, step: 2, fine: null } })).toBe(10);
    expect(leastDose({ ...question, limits: { ingredients: null, leastDose: 3 } })).toBe(3);
  });

  it('is kept by what is weighed out, or the ingredient is left out', () => {
    let broken = 0;
    let weighed = 0;
    for (let seed = 100; seed < 140; seed++) {
      const { question, system } = smallQuestion(seed);
      const coarse: Question = { ...question, batch: { pieces: 1, step: 5, fine: null } };
      const world = worldOf(coarse);
      const free = settle(coarse, world, system, { aim: AIMS[coarse.objective] });
      const least = leastDose(coarse);
      const tooLittle = (grams: readonly number[]) =>
        grams.some((g, i) => coarse.materials[i]!.kind !== 'water' && g > 1e-6 && g < least * (1 - 1e-6));
      if (free === null || !free.feasible || !tooLittle(free.grams)) continue;
      broken++;
      const { ingredients } = propose(coarse, { draws: 0 });
      for (const { material, batchGrams } of ingredients) {
        if (material !== 'water') expect(batchGrams, `seed ${seed}, ${material}`).toBeGreaterThanOrEqual(least);
        weighed++;
      }
    }
    expect(broken).toBeGreaterThan(3);
    expect(weighed).toBeGreaterThan(10);
  });
});
