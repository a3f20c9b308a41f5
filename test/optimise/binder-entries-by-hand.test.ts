import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { binderEntries } from '../../src/core/optimise/binder-entries.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import { type SystemAnswer, settleSystems } from '../../src/core/optimise/settle-systems.js';
import { binderIn, costOf, fullMould, LEANEST, RATIO } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/** What a binder of another system would have to cost for its cheapest blend to be even, by hand. */

const GREY = 'portland-cement-grey';
const PLASTER = 'casting-plaster';
const CSA = 'csa-rapid-cement';

const rankedOf = (question: Question): readonly SystemAnswer[] =>
  settleSystems(question, worldOf(question), AIMS.cheapest).ranked;
const entries = (question: Question, ranked = rankedOf(question)) => binderEntries(question, worldOf(question), ranked);
const answerOf = (question: Question, system: string): SystemAnswer => ({
  system: systemOf(system),
  answer: settle(question, worldOf(question), systemOf(system), { aim: AIMS.cheapest })!,
  free: null,
  tried: 0,
});

describe('the price at which another binder is even', () => {
  const shelf = { [PLASTER]: 0.001, [GREY]: 0.0004, [CSA]: 0.003 };

  it('is the cheapest piece’s cost over the grams of it that fill the mould', () => {
    const found = entries(fullMould(shelf));
    const best = 0.0004 * binderIn(GREY);
    expect(found.map((e) => [e.material, e.system, e.price, e.checked])).toEqual([
      [PLASTER, 'gypsum', 0.001, true],
      [CSA, 'csa', 0.003, true],
    ]);
    for (const [entry, id, price] of [
      [found[0]!, PLASTER, 0.001],
      [found[1]!, CSA, 0.003],
    ] as const) {
      // All is straight here: one step finds it.
      expect(entry.entersAt! / (best / binderIn(id))).toBeCloseTo(1, 6);
      expect(entry.loss / ((costOf(price * binderIn(id)) - costOf(best)) / binderIn(id))).toBeCloseTo(1, 6);
    }
  });

  it('comes out the same whether the other system was ranked or is settled anew', () => {
    const question = fullMould(shelf);
    const settled = [answerOf(question, 'portland'), answerOf(question, 'csa')];
    const found = entries(question, settled);
    expect(found).toEqual(entries(question, settled.slice(0, 1)));
    // A ranked answer is taken at its word.
    const dearer = { ...settled[1]!, answer: { ...settled[1]!.answer, feasible: false } };
    expect(entries(question, [settled[0]!, dearer]).map((e) => e.system)).toEqual(['gypsum']);
    const valueless = { ...settled[1]!, answer: { ...settled[1]!.answer, value: null } };
    expect(entries(question, [settled[0]!, valueless]).map((e) => e.system)).toEqual(['gypsum']);
  });

  it('is found past a kink, where the blend gives up its filler as the binder gets cheap', () => {
    // With plaster cheaper than filler by volume there is none in it: all of what is even is plaster.
    const filler = 0.0012;
    const question = fullMould({ [GREY]: 0.00025, [PLASTER]: 0.004, 'limestone-flour': filler });
    const [entry] = entries(question);
    const best = 0.00025 * binderIn(GREY);
    const even = best / binderIn(PLASTER);
    expect(filler * LEANEST * binderIn(PLASTER, RATIO, LEANEST)).toBeGreaterThan(best);
    expect(entry!.entersAt! / even).toBeCloseTo(1, 2);
  });

  it('is none where the rest of its blend costs more even with the binder for nothing', () => {
    // Three of dear filler to each binder: a mould of cement takes more filler than one of CSA.
    const question = fullMould({ [CSA]: 0.00001, [GREY]: 0.0004, 'limestone-flour': 0.001 });
    const filled = { ...question, targets: [...question.targets, { property: 'sand-to-binder', min: 3 }] };
    const rest = 0.001 * LEANEST * binderIn(GREY, RATIO, LEANEST);
    expect(rest).toBeGreaterThan((0.00001 + LEANEST * 0.001) * binderIn(CSA, RATIO, LEANEST) * 1.001);
    expect(entries(filled)).toMatchObject([{ material: GREY, price: 0.0004, entersAt: null, checked: null }]);
  });

  it('is none where the blend of the other binder cannot be settled anew', () => {
    const question = fullMould(shelf);
    const ranked = [answerOf(question, 'portland'), answerOf(question, 'gypsum')];
    // The blends are said to keep a limit that none keeps.
    const strong = { ...question, targets: [...question.targets.slice(0, 2), { property: 'strength', min: 500 }] };
    expect(entries(strong, ranked)).toMatchObject([{ material: PLASTER, entersAt: null, checked: null }]);
  });

  it('is not told of a system whose blend has no cost, because something in it has no price', () => {
    const question = fullMould({ [GREY]: 0.0004, [PLASTER]: null, 'limestone-flour': 0.0001 });
    const ranked = [answerOf(question, 'portland'), answerOf(question, 'gypsum')];
    expect(ranked[1]!.answer.grams[2]).toBeGreaterThan(0);
    expect(entries(question, ranked)).toEqual([]);
  });
});

describe('the chief binder of a system', () => {
  const mixed = (prices: { readonly grey: number; readonly white: number }): Question =>
    fullMould({ [PLASTER]: 0.0001, [GREY]: prices.grey, 'portland-cement-white': prices.white });
  // Both cements in the other system's blend: half and half, as asked for.
  const chief = (question: Question): string | undefined => {
    const other = answerOf(question, 'portland');
    const grams = other.answer.grams.map((g, i) => (i >= 2 ? 200 : g));
    const both = { ...other, answer: { ...other.answer, grams } };
    return entries(question, [answerOf(question, 'gypsum'), both])[0]?.material;
  };

  it('is the one that most is spent on', () => {
    expect(chief(mixed({ grey: 0.0004, white: 0.0009 }))).toBe('portland-cement-white');
    expect(chief(mixed({ grey: 0.0009, white: 0.0004 }))).toBe(GREY);
  });

  it('is a binder, though more is spent on filler', () => {
    const question = fullMould({ [PLASTER]: 0.0001, [GREY]: 0.0004, 'limestone-flour': 0.001 });
    const other = answerOf(question, 'portland');
    const filled = { ...other, answer: { ...other.answer, grams: [100, 0, 200, 600] } };
    expect(entries(question, [answerOf(question, 'gypsum'), filled])[0]?.material).toBe(GREY);
  });

  it('is none that the cheapest blend has already', () => {
    // Plaster with portland and pozzolan has plaster of the first, so that the portland is what has to be cheap.
    const base = fullMould({ [PLASTER]: 0.0001, [GREY]: 0.0004 });
    const question = {
      ...base,
      materials: [...base.materials, material('silica-fume')],
      prices: new Map([...base.prices, ['silica-fume', 0.0009]]),
    };
    const found = entries(question).map((e) => [e.system, e.material]);
    expect(found).toContainEqual(['gypsum-portland-pozzolan', GREY]);
    expect(found).toContainEqual(['portland', GREY]);
    // A blend of nothing but what the first has gives no entry at all.
    const first = answerOf(question, 'gypsum');
    const same = { ...first, system: systemOf('gypsum-portland-pozzolan') };
    expect(entries(question, [first, same]).map((e) => e.system)).toEqual(['portland']);
  });
});

describe('nothing is told', () => {
  it('where money is not the objective, nothing is ranked, the best has no cost, or no other binder is there', () => {
    const question = fullMould({ [PLASTER]: 0.001, [GREY]: 0.0004 });
    const ranked = rankedOf(question);
    expect(entries(question, ranked)).toHaveLength(1);
    expect(entries({ ...question, objective: 'strongest' }, ranked)).toEqual([]);
    expect(entries(question, [])).toEqual([]);
    expect(entries(question, [{ ...ranked[0]!, answer: { ...ranked[0]!.answer, value: null } }])).toEqual([]);
    expect(entries(fullMould({ [GREY]: 0.0004, 'limestone-flour': 0.0001 }))).toEqual([]);
  });

  it('of a system that cannot meet the brief', () => {
    const question = fullMould({ [PLASTER]: 0.0002, [GREY]: 0.0004, [CSA]: 0.003 });
    const early = { ...question, targets: [...question.targets, { property: 'demould-time', max: 60 }] };
    expect(rankedOf(early)[0]!.system.id).toBe('gypsum');
    expect(entries(early).map((e) => e.system)).not.toContain('portland');
  });
});
