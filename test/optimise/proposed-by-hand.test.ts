import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { propose, proposeFrom, refuseWithoutBlend } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { type SystemReport, settleSystems } from '../../src/core/optimise/settle-systems.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { InputProblems } from '../../src/core/problems/problem.js';
import { binderIn, costOf, fullMould, LEANEST, LOOSE, RATIO, WASTE } from '../support/full-mould.js';

/** A proposal from end to end, on moulds that are told by hand. */

const DEAR = 0.001;
const CHEAP = 0.0001;
const question = fullMould({ 'casting-plaster': DEAR, 'limestone-flour': CHEAP });
const proposed = (asked: Question) => propose(asked, { draws: 0 });
const PLASTER = binderIn('casting-plaster', RATIO, LEANEST);
const COST = costOf(PLASTER * (DEAR + LEANEST * CHEAP));

describe('a proposal', () => {
  const told = proposed(question);

  it('lists what goes in on the steps of the scale, and nothing that does not', () => {
    expect(told.ingredients.map((i) => i.material)).toEqual(['water', 'casting-plaster', 'limestone-flour']);
    told.ingredients.forEach(({ batchGrams, pieceGrams }, i) => {
      expect(batchGrams * 10).toBeCloseTo(Math.round(batchGrams * 10), 6);
      expect(pieceGrams).toBeCloseTo(batchGrams / told.fills, 9);
      expect(Math.abs(pieceGrams - [RATIO, 1, LEANEST][i]! * PLASTER)).toBeLessThan(3);
    });
    expect(Math.abs(told.fills * (1 - WASTE) - 1)).toBeLessThan(0.0025);
    const pure = proposed({ ...question, targets: [...question.targets, { property: 'sand-to-binder', max: 0 }] });
    expect(pure.ingredients.map((i) => i.material)).toEqual(['water', 'casting-plaster']);
  });

  it('says what it costs exactly and as weighed, what it is judged by and what it keeps besides', () => {
    expect(told).toMatchObject({ status: 'met', system: 'gypsum', conflict: null });
    expect(told.objective.property).toBe('cost');
    expect(told.objective.exact).toBeCloseTo(COST, 6);
    const { value } = told.assessment.properties.find((p) => p.property === 'cost')!;
    expect(told.objective.weighed).toBe(value);
    expect(value! / COST).toBeCloseTo(1, 2);
    expect(told.assessment.verdicts.map((v) => v.property)).toEqual(['water-to-binder', 'flow', 'strength']);
    expect(told.standing).toEqual(standingTargets(question.targets));
    expect(told.systems.find((s) => s.system === 'gypsum')!.outcome).toBe('chosen');
    expect(told.solves).toBeGreaterThan(0);
    expect(told.limits).toMatchObject({ ingredients: null, used: 2, without: null, enough: null });
    for (const key of ['parts', 'coarse']) expect(key in told).toBe(false);
  });

  it('says the nearest blend, and what collides, where nothing fits', () => {
    const strong = proposed({ ...question, targets: [...LOOSE.slice(0, 1), { property: 'strength', min: 500 }] });
    expect(strong.status).toBe('nearest');
    expect(strong.conflict).not.toBeNull();
    expect(strong.coarse).toBeUndefined();
  });

  it('says how many ingredients would do where so few do not', () => {
    const one = proposed({
      ...question,
      targets: [...question.targets, { property: 'sand-to-binder', min: 1 }],
      limits: { ingredients: 1, leastDose: null },
    });
    expect(one.status).toBe('nearest');
    expect(one.limits).toMatchObject({ ingredients: 1, used: 1, enough: 2 });
    expect(one.limits!.without).not.toBeNull();
  });

  it('names a scale that is too coarse, and is nearest then', () => {
    const coarse = proposed({
      ...question,
      targets: [{ property: 'water-to-binder', min: 0.6005, max: 0.6025 }, ...LOOSE],
      batch: { pieces: 1, step: 50, fine: null },
      limits: { ingredients: null, leastDose: 50 },
    });
    expect(coarse.status).toBe('nearest');
    expect(coarse.conflict).toBeNull();
    expect(coarse.coarse!.step).toBe(50);
  });
});

describe('a proposal in parts', () => {
  const inParts = (by: 'mass' | 'scoop', draws = 0) =>
    propose({ ...question, parts: { by, most: 6 } }, { draws, seed: 1 });

  it('weighs them out in whole numbers', () => {
    const { parts, ingredients } = inParts('mass');
    expect(parts).toMatchObject({ by: 'mass', found: true });
    expect(parts!.parts).toEqual([
      { material: 'limestone-flour', parts: 3 },
      { material: 'casting-plaster', parts: 1 },
    ]);
    const grams = new Map(ingredients.map((i) => [i.material, i.batchGrams]));
    expect(grams.get('limestone-flour')! / grams.get('casting-plaster')!).toBeCloseTo(3, 2);
    expect(parts!.without).toBeCloseTo(COST, 6);
    expect(inParts('mass').coarse).toBeUndefined();
  });

  it('by the scoop weigh what lies loose in one: their ranges are wider for it', () => {
    const wide = (by: 'mass' | 'scoop') => {
      const { low, high, value } = inParts(by, 64).assessment.properties.find((p) => p.property === 'sand-to-binder')!;
      return (high! - low!) / value!;
    };
    expect(wide('mass')).toBeLessThan(1e-6);
    expect(wide('scoop')).toBeGreaterThan(0.01);
  });

  it('are not found where there is nothing to count out', () => {
    const doses = [{ material: 'limestone-flour', percent: 10, of: 'binder' as const }];
    const alone = propose({ ...question, doses, parts: { by: 'mass', most: 6 } }, { draws: 0 });
    expect(alone.parts!.parts.length).toBeLessThanOrEqual(1);
  });
});

describe('a proposal from settled systems', () => {
  it('keeps to tighter limits in rounding, and is judged by its own', () => {
    const world = worldOf(question);
    const settled = settleSystems(question, world, AIMS.cheapest);
    const held = [{ property: 'water-to-binder', max: 0.59 }, ...LOOSE];
    const told = proposeFrom(question, world, settled, { draws: 0 }, held);
    // The blend stands at 0.6, so that no rounding of it keeps 0.59, but one settled anew does.
    const [water, plaster] = told.ingredients;
    expect(water!.batchGrams / plaster!.batchGrams).toBeLessThanOrEqual(0.59);
    expect(told.assessment.verdicts[0]!.max).toBe(RATIO);
  });
});

describe('no proposal', () => {
  const refused = (reports: readonly SystemReport[], of: Question = question) => {
    try {
      refuseWithoutBlend(of, reports);
    } catch (error) {
      if (error instanceof InputProblems) return error.problems[0]!;
    }
    throw new Error('not refused');
  };
  const report = (outcome: SystemReport['outcome'], why: string | null): SystemReport => ({
    system: 's',
    name: `system ${why}`,
    outcome,
    value: null,
    why,
  });

  it('is for want of a binder, with why each that is there may not be used', () => {
    const problem = refused([report('absent', 'no lime'), report('closed', 'too wet'), report('closed', 'too cold')]);
    expect(problem).toMatchObject({ code: 'brief-contradicts', where: { path: 'materials' } });
    expect(problem.found).toBe('no binder that may be used here');
    expect(problem.expected).toBe('at least one cement, gypsum or lime, and water');
    expect(problem.hint).toBe('system too wet: too wet; system too cold: too cold');
    expect('hint' in refused([report('absent', 'no lime')])).toBe(false);
    expect(() => proposed(fullMould({ 'limestone-flour': CHEAP }))).toThrow(InputProblems);
  });

  it('is for want of room where a binder might be used but no blend can be made', () => {
    const problem = refused([report('absent', 'no lime'), report('misses', 'nothing fills it')]);
    expect(problem.where).toEqual({ path: 'batch' });
    expect(problem.found).toBe('no blend that keeps its doses, fills the mould and can be weighed out');
    expect(problem.expected).toBe('more pieces at once, a finer scale, or fewer limits on what goes in');
    expect(problem.hint).toBe('system nothing fills it: nothing fills it');
    const written = { ...question, placeOf: (path: string) => ({ file: 'brief.yaml', line: 7, path }) };
    expect(refused([report('misses', 'nothing fills it')], written).where).toEqual({
      file: 'brief.yaml',
      line: 7,
      path: 'batch',
    });
    // What is the same of several is said once.
    const same = refused([report('misses', 'no room'), report('closed', 'too wet'), report('misses', 'no room')]);
    expect(same.hint).toBe('system no room, system no room: no room; system too wet: too wet');
  });
});
