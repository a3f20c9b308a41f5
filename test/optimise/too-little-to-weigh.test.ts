import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { content, weighable } from '../../src/core/optimise/weighable.js';
import { binderIn, costOf, fullMould, LOOSE, RATIO, VOLUME, WASTE } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/** What is left of a blend that holds less of something than can be weighed: a mould of plaster with a pinch of flour. */

const DEAR = 0.001;
const CHEAP = 0.0001;
/** 5 g in the batch, so much in a piece. */
const LEAST = 5 * (1 - WASTE);
const WATER = { property: 'water-to-binder', max: RATIO };
const asked = (flour: number, more: Partial<Question> = {}): Question =>
  fullMould(
    { 'casting-plaster': DEAR, 'limestone-flour': flour },
    { limits: { ingredients: null, leastDose: 5 }, ...more },
  );
const settledOf = (question: Question): Settled =>
  settle(question, worldOf(question), systemOf('gypsum'), { aim: AIMS[question.objective] })!;
const kept = (question: Question, free = settledOf(question)) =>
  weighable(question, worldOf(question), systemOf('gypsum'), free, AIMS[question.objective]);
const sand = (sides: { min?: number; max?: number }) => [WATER, ...LOOSE, { property: 'sand-to-binder', ...sides }];
const PLASTER = binderIn('casting-plaster');

describe('a blend with too little of something to weigh', () => {
  it('does without it, where it may', () => {
    // At most 6 g of cheap flour to a kilogram of plaster: 3 g.
    const question = asked(CHEAP, { targets: sand({ max: 0.006 }) });
    expect(settledOf(question).grams[2]).toBeCloseTo(0.006 * binderIn('casting-plaster', RATIO, 0.006), 6);
    const { grams, value, feasible } = kept(question)!;
    expect(feasible).toBe(true);
    expect(grams[2]).toBe(0);
    expect(grams[1]).toBeCloseTo(PLASTER, 4);
    expect(value).toBeCloseTo(costOf(DEAR * PLASTER), 6);
  });

  it('does without it where there is less on hand than can be weighed', () => {
    for (const stock of [0.3, 3, 4.9]) {
      const question = asked(CHEAP, { stock: new Map([['limestone-flour', stock]]) });
      expect(settledOf(question).grams[2]).toBeCloseTo(stock * (1 - WASTE), 6);
      expect(kept(question)!.grams[2]).toBe(0);
    }
    const enough = asked(CHEAP, { stock: new Map([['limestone-flour', 5]]) });
    expect(kept(enough)!.grams[2]).toBeCloseTo(LEAST, 6);
  });

  it('takes the least of it where it needs some', () => {
    const question = asked(0.002, { targets: sand({ min: 0.005 }) });
    expect(settledOf(question).grams[2]).toBeCloseTo(0.005 * binderIn('casting-plaster', RATIO, 0.005), 6);
    const { grams, feasible } = kept(question)!;
    expect(feasible).toBe(true);
    expect(grams[2]).toBeCloseTo(LEAST, 6);
    // Four pieces to the batch share what is weighed.
    const batch = kept({
      ...question,
      batch: { pieces: 4, step: 0.1, fine: null },
      limits: { ingredients: null, leastDose: 20 },
    })!;
    expect(batch.grams[2]).toBeCloseTo(LEAST, 6);
  });

  it('is not kept where it can neither do without nor take the least', () => {
    const narrow = [...sand({ min: 0.005, max: 0.006 }), { property: 'water-to-binder', min: 0.59, max: RATIO }].slice(
      1,
    );
    expect(kept(asked(CHEAP, { targets: narrow }))).toBeNull();
    // Unless it breaks a limit anyway: then the one of the two that misses less.
    const strong = (sides: { min: number; max: number }) => {
      const targets = [
        ...narrow.filter((t) => t.property !== 'sand-to-binder'),
        { property: 'sand-to-binder', ...sides },
      ];
      const question = asked(CHEAP, { targets: [...targets, { property: 'cost', max: 0.3 }] });
      expect(settledOf(question).feasible).toBe(false);
      return kept(question)!;
    };
    // 0.0096 of at most 0.006 is nearer than nothing of at least 0.005; of at most 0.0045 it is further than nothing of 0.0001.
    expect(strong({ min: 0.005, max: 0.006 }).grams[2]).toBeCloseTo(LEAST, 6);
    expect(strong({ min: 0.0001, max: 0.0045 }).grams[2]).toBe(0);
  });

  it('does without one after another, where each makes room for the next', () => {
    const question = asked(CHEAP, { targets: sand({ max: 0.006 }) });
    const two: Question = {
      ...question,
      materials: [...question.materials, material('marble-flour')],
      prices: new Map([...question.prices, ['marble-flour', 1.5 * CHEAP]]),
    };
    expect(
      settledOf(two)
        .grams.slice(2)
        .map((g) => g > 1),
    ).toEqual([true, false]);
    const { grams } = kept(two)!;
    expect(grams.slice(2)).toEqual([0, 0]);
    expect(grams[1]).toBeCloseTo(PLASTER, 3);
  });
});

describe('a blend is left as it is', () => {
  it('where it has enough of everything, water apart', () => {
    const question = asked(CHEAP);
    const free = settledOf(question);
    expect(kept(question, free)).toBe(free);
    // Less water than 400 g is no matter, less plaster than that would be.
    const much = { ...question, targets: [...question.targets.slice(0, 3), { property: 'sand-to-binder', max: 0 }] };
    const pure = settledOf(much);
    expect(pure.grams[0]).toBeLessThan(400 * (1 - WASTE));
    expect(kept({ ...much, limits: { ingredients: null, leastDose: 400 } }, pure)).toBe(pure);
    expect(kept({ ...much, limits: { ingredients: null, leastDose: 600 } }, pure)!.grams[1]).toBeCloseTo(
      600 * (1 - WASTE),
      4,
    );
  });

  it('where what is little was asked for', () => {
    const question = asked(CHEAP, { doses: [{ material: 'limestone-flour', percent: 0.5, of: 'binder' }] });
    const free = settledOf(question);
    expect(free.grams[2]).toBeCloseTo(0.005 * free.grams[1]!, 6);
    expect(free.grams[2]).toBeLessThan(LEAST);
    expect(kept(question, free)).toBe(free);
  });

  it('where it is short by a hair, or holds but the dust of arithmetic', () => {
    const question = asked(CHEAP, { targets: sand({ max: 0.006 }) });
    const free = settledOf(question);
    const holding = (flour: number): Settled => ({ ...free, grams: [free.grams[0]!, free.grams[1]!, flour] });
    for (const flour of [LEAST, LEAST * (1 - 0.9e-5), 0.9e-9 * 800 * 0.9]) {
      const blend = holding(flour);
      expect(kept(question, blend)).toBe(blend);
    }
    for (const flour of [LEAST * (1 - 1.1e-5), 1.1e-9 * 800]) {
      expect(kept(question, holding(flour))).not.toBe(free);
      expect(kept(question, holding(flour))!.grams[2]).toBe(0);
    }
    expect(free.grams[0]! + free.grams[1]!).toBeCloseTo(0.99 * 800, -1);
  });

  it('but not where it has more ingredients than are asked for', () => {
    const question = asked(CHEAP);
    const free = settledOf(question);
    const most = (ingredients: number) => kept({ ...question, limits: { ingredients, leastDose: 5 } }, free);
    expect(most(2)).toBe(free);
    expect(most(3)).toBe(free);
    expect(most(1)).toBeNull();
    // Dust is no ingredient, nor is water.
    const dusty: Settled = { ...free, grams: [free.grams[0]!, free.grams[1]!, 1e-8] };
    expect(kept({ ...question, limits: { ingredients: 1, leastDose: 5 } }, dusty)).toBe(dusty);
  });

  it('and brings it to as few as are asked for by what is too little, if that will do', () => {
    const question = asked(CHEAP, { targets: sand({ max: 0.006 }), limits: { ingredients: 1, leastDose: 5 } });
    // Two ingredients are too many from the start: for the search that looks harder.
    expect(kept(question)).toBeNull();
  });
});

describe('a blend kept to limits of ingredients is good enough', () => {
  const blend = (value: number | null, feasible = true) => ({ value, feasible }) as Settled;
  const CLOSE = { sense: 'min', wanted: [], thrift: 0 } as const;

  it('while it loses less than a thousandth of itself', () => {
    expect(content(AIMS.cheapest, blend(1.0009), blend(1))).toBe(true);
    expect(content(AIMS.cheapest, blend(1.0011), blend(1))).toBe(false);
    expect(content(AIMS.cheapest, blend(0.5), blend(1))).toBe(true);
    expect(content(AIMS.strongest, blend(9.995), blend(10))).toBe(true);
    expect(content(AIMS.strongest, blend(9.985), blend(10))).toBe(false);
    expect(content(AIMS.cheapest, blend(1, false), blend(1))).toBe(false);
  });

  it('or three hundredths of a tolerance, where it is to be close to something', () => {
    expect(content(CLOSE, blend(0.229), blend(0.2))).toBe(true);
    expect(content(CLOSE, blend(0.231), blend(0.2))).toBe(false);
    expect(VOLUME).toBeGreaterThan(0);
  });
});
