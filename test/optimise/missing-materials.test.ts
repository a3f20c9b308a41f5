import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { leftOut } from '../../src/core/brief/play.js';
import type { Material } from '../../src/core/materials/schema.js';
import { anyFit } from '../../src/core/optimise/fitting.js';
import { missingMaterials } from '../../src/core/optimise/missing-materials.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { openSystems } from '../../src/core/optimise/systems.js';
import { randomQuestion } from '../support/random-shelf.js';
import { materials } from '../support/shipped-table.js';

/** All that a maker could take in: the shipped table, without what is never in play by itself. */
const shelf = materials.filter((m) => leftOut(m) === null);
const named = (id: string): Material => shelf.find((m) => m.id === id)!;

/** The brief with more materials; what has no price is free unless one is given. */
const taking = (question: Question, more: readonly Material[], price = 0): Question => ({
  ...question,
  materials: [...question.materials, ...more],
  prices: new Map([...more.map((m) => [m.id, price] as const), ...question.prices]),
});
const fits = (question: Question): boolean => anyFit(question, worldOf(question), AIMS[question.objective]) !== null;

/** Random briefs that nothing on their own shelf meets. */
const cases = Array.from({ length: 60 }, (_v, k) => k + 1).flatMap((seed) => {
  const question = randomQuestion(seed);
  if (openSystems(question, worldOf(question)).length === 0 || fits(question)) return [];
  return [{ seed, question, found: missingMaterials(question, shelf) }];
});
const suggested = cases.flatMap(({ seed, question, found }) => found.single.map((one) => ({ seed, question, one })));

describe('what a shelf lacks, on random briefs that nothing meets', () => {
  it('is told of enough of them, now one material, now several, now none', () => {
    expect(cases.length).toBeGreaterThan(12);
    expect(suggested.length).toBeGreaterThan(30);
    expect(cases.filter((c) => c.found.together.length > 0).length).toBeGreaterThan(1);
    for (const { question, found } of cases) {
      const own = new Set(question.materials.map((m) => m.id));
      for (const id of [...found.single.map((m) => m.material), ...found.together]) expect(own.has(id)).toBe(false);
      expect(found.single.length === 0 || found.together.length === 0).toBe(true);
    }
  });

  it('lets the brief be met when it is proposed anew with any one of those named', () => {
    let met = 0;
    for (const { seed, question, one } of suggested) {
      const name = `seed ${seed} with ${one.material}`;
      const proposal = propose(taking(question, [named(one.material)]), { draws: 0 });
      expect(proposal.conflict, name).toBeNull();
      // The scale may be too coarse for a blend that just fits.
      if (proposal.status === 'met') met++;
      const { ingredients } = proposal;
      if (proposal.status === 'met')
        expect(
          ingredients.map((i) => i.material),
          name,
        ).toContain(one.material);
    }
    expect(met / suggested.length).toBeGreaterThan(0.9);
  });

  it('leaves next to none out that would do by itself, by trying each of the shelf', () => {
    let could = 0;
    let left = 0;
    for (const { question, found } of cases) {
      for (const material of shelf) {
        if (question.materials.some((m) => m.id === material.id) || !fits(taking(question, [material]))) continue;
        could++;
        if (!found.single.some((m) => m.material === material.id)) left++;
      }
    }
    expect(could).toBeGreaterThan(30);
    expect(left / could).toBeLessThan(0.06);
  });

  it('is told together only where all are needed and no one would do', () => {
    let sets = 0;
    for (const { seed, question, found } of cases) {
      if (found.together.length === 0) continue;
      sets++;
      const all = found.together.map(named);
      expect(all.length, `seed ${seed}`).toBeGreaterThan(1);
      expect(fits(taking(question, all)), `seed ${seed}`).toBe(true);
      for (const one of all) {
        const fewer = all.filter((m) => m !== one);
        expect(fits(taking(question, fewer)), `seed ${seed} without ${one.id}`).toBe(false);
      }
    }
    expect(sets).toBeGreaterThan(1);
  });

  it('is told with the most it may cost just where the brief limits cost and no price is known', () => {
    let limited = 0;
    for (const { seed, question, one } of suggested) {
      const name = `seed ${seed} ${one.material}`;
      const limit = question.targets.find((t) => t.property === 'cost')?.max;
      expect(one.priced, name).toBe(question.prices.has(one.material));
      expect(one.mostPrice !== null, name).toBe(limit !== undefined && !one.priced);
      if (one.mostPrice === null) continue;
      limited++;
      const at = (price: number): boolean => fits(taking(question, [named(one.material)], price));
      expect(at(0.99 * one.mostPrice), name).toBe(true);
      // A dearer one is used more sparingly, so a little more may still do; far more may not.
      expect(at(4 * one.mostPrice), name).toBe(false);
    }
    expect(limited).toBeGreaterThan(3);
  });
});
