import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { anyFit, bestFit, type Fit } from '../../src/core/optimise/fitting.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { binderIn, costOf, fillerBeside, fullMould, LEANEST, RATIO, WASTE } from '../support/full-mould.js';

/** Some blend that keeps every limit, and the best one, on shelves of one binder a system: told by hand. */

const SHELF = { 'casting-plaster': 0.001, 'portland-cement-grey': 0.0004, 'csa-rapid-cement': 0.003 };
const FILLER = 0.0001;
const any = (question: Question, first?: string) => anyFit(question, worldOf(question), AIMS.cheapest, first);
const best = (question: Question) => bestFit(question, worldOf(question), AIMS[question.objective]);
const told = (fit: Fit | null) => [fit?.system.id, fit?.answer.feasible];

describe('any blend that keeps every limit', () => {
  const question = fullMould(SHELF);

  it('is looked for in the system guessed, and else in the first that has one', () => {
    expect(told(any(question, 'csa'))).toEqual(['csa', true]);
    expect(told(any(question, 'portland'))).toEqual(['portland', true]);
    expect(told(any(question))).toEqual(['gypsum', true]);
    expect(told(any(question, 'aluminate'))).toEqual(['gypsum', true]);
  });

  it('is found in another system where the one guessed has none', () => {
    // Only plaster is strong within the hour.
    const early = { ...question, targets: [...question.targets, { property: 'demould-time', max: 60 }] };
    expect(told(any(early, 'portland'))).toEqual(['gypsum', true]);
  });

  it('is none where nothing can be met, or no binder is open', () => {
    const strong = { ...question, targets: [{ property: 'strength', min: 500 }] };
    expect(any(strong)).toBeNull();
    expect(best(strong)).toBeNull();
    const nothing = fullMould({ 'limestone-flour': FILLER });
    expect(any(nothing)).toBeNull();
    expect(best(nothing)).toBeNull();
    // Not enough on hand to fill the mould: no blend at all.
    const short = { ...question, stock: new Map([...Object.keys(SHELF), 'water'].map((id) => [id, 5])) };
    expect(any(short)).toBeNull();
    expect(best(short)).toBeNull();
  });
});

describe('the best blend that keeps every limit', () => {
  it('is the cheapest of all systems, whichever stands first', () => {
    const portland = best(fullMould(SHELF))!;
    expect(portland.system.id).toBe('portland');
    expect(portland.answer.value).toBeCloseTo(costOf(0.0004 * binderIn('portland-cement-grey')), 6);
    const plaster = best(fullMould({ ...SHELF, 'casting-plaster': 0.0002 }))!;
    expect(plaster.system.id).toBe('gypsum');
    expect(plaster.answer.value).toBeCloseTo(costOf(0.0002 * binderIn('casting-plaster')), 6);
    expect(best({ ...fullMould(SHELF), objective: 'quickest' })!.system.id).toBe('gypsum');
  });

  it('does with as few ingredients as may be: the filler goes where there may be but one', () => {
    const question = fullMould({ ...SHELF, 'limestone-flour': FILLER });
    const lean = binderIn('portland-cement-grey', RATIO, LEANEST);
    expect(best(question)!.answer.value).toBeCloseTo(costOf(lean * (0.0004 + LEANEST * FILLER)), 6);
    const one = { ...question, limits: { ingredients: 1, leastDose: null } };
    const alone = costOf(0.0004 * binderIn('portland-cement-grey'));
    expect(best(one)!.answer.value).toBeCloseTo(alone, 6);
    const some = any(one, 'portland')!;
    expect(some.system.id).toBe('portland');
    expect(some.answer.grams.filter((g) => g > 0)).toHaveLength(2);
  });

  it('is none where so few ingredients leave no blend', () => {
    const question = fullMould({ ...SHELF, 'limestone-flour': FILLER });
    const lean = { ...question, targets: [...question.targets, { property: 'sand-to-binder', min: 1 }] };
    const one = { ...lean, limits: { ingredients: 1, leastDose: null } };
    expect(best(lean)).not.toBeNull();
    expect(best(one)).toBeNull();
    expect(any(one)).toBeNull();
  });

  it('weighs out no less of an ingredient than its least dose', () => {
    const question = fullMould({ 'portland-cement-grey': 0.0004, 'limestone-flour': FILLER });
    const held = (leastDose: number): Question => ({ ...question, limits: { ingredients: null, leastDose } });
    // More than the mould holds.
    expect(best(held(5000))).toBeNull();
    expect(any(held(5000))).toBeNull();
    // The lean blend has less binder than this: it is raised to it, and the filler gives way.
    const binder = 1.3 * binderIn('portland-cement-grey', RATIO, LEANEST);
    const filler = fillerBeside('portland-cement-grey', binder);
    for (const fit of [best(held(binder / (1 - WASTE)))!, any(held(binder / (1 - WASTE)))!]) {
      expect(fit.answer.value).toBeCloseTo(costOf(0.0004 * binder + FILLER * filler), 6);
    }
  });

  it('looks among other sets than the one at hand with its little made more or left out', () => {
    // The cheap cement on hand is not enough, and there may not be just a little of the dearer beside it.
    const prices = { 'portland-cement-grey': 0.0004, 'portland-cement-white': 0.00045, 'limestone-flour': FILLER };
    const question = {
      ...fullMould(prices),
      stock: new Map([['portland-cement-grey', 170]]),
      limits: { ingredients: null, leastDose: 160 },
    };
    const white = binderIn('portland-cement-white', RATIO, LEANEST);
    const found = best(question)!.answer;
    expect(found.grams[1]).toBe(0);
    expect(found.value).toBeCloseTo(costOf(white * (0.00045 + LEANEST * FILLER)), 6);
  });
});
