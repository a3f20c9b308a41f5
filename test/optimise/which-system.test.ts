import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { type SystemReport, settleSystems } from '../../src/core/optimise/settle-systems.js';
import { BINDER_SYSTEMS } from '../../src/core/optimise/systems.js';
import { questionOf } from '../support/hand-question.js';

const SHELF = ['water', 'casting-plaster', 'portland-cement-grey', 'perlite'] as const;
/** Without a pozzolan on the shelf plaster and portland cannot be put together. */
const pricesOf = (plaster: number, cement: number) =>
  new Map([
    ['casting-plaster', plaster],
    ['portland-cement-grey', cement],
    ['perlite', 0.002],
  ]);
const asking = (more: Partial<Question> = {}): Question =>
  questionOf(SHELF.slice(0, 3), { prices: pricesOf(0.0006, 0.0005), ...more });

const settled = (question: Question) => settleSystems(question, worldOf(question), AIMS[question.objective]);
const reportOn = (reports: readonly SystemReport[], id: string): SystemReport => {
  const own = reports.filter((r) => r.system === id);
  expect(own, id).toHaveLength(1);
  return own[0]!;
};

describe('what becomes of each binder system', () => {
  it('is told of each of them once, by name', () => {
    for (const more of [{}, { limits: { ingredients: 0, leastDose: null } }, { objective: 'lightest' as const }]) {
      const { reports } = settled(asking(more));
      const told = reports.map((r) => [r.system, r.name]).sort();
      expect(told).toEqual(BINDER_SYSTEMS.map((s) => [s.id, s.name]).sort());
    }
  });

  it('is to be absent without a binder in play, and closed where the service bars it', () => {
    const { reports } = settled(asking({ conditions: { ...asking().conditions, service: 'wet' } }));
    const nothing = { outcome: 'absent', value: null, why: 'none of its binders is in play' };
    for (const id of ['csa', 'aluminate', 'lime']) expect(reportOn(reports, id)).toMatchObject(nothing);
    expect(reportOn(reports, 'gypsum')).toMatchObject({
      outcome: 'closed',
      value: null,
      why: 'gypsum softens and dissolves in wet service',
    });
    expect(reportOn(reports, 'portland').outcome).toBe('chosen');
  });

  it('is to miss where no blend keeps what is fixed: next to no cement on hand, no pozzolan on the shelf', () => {
    const { reports, ranked } = settled(asking({ stock: new Map([['portland-cement-grey', 1]]) }));
    for (const id of ['portland', 'gypsum-portland-pozzolan']) {
      expect(reportOn(reports, id)).toMatchObject({
        outcome: 'misses',
        value: null,
        why: 'no blend keeps its doses and fills the mould',
      });
    }
    expect(ranked.map((r) => r.system.id)).toEqual(['gypsum']);
  });

  it('is to be chosen or possible, with what it would cost, where prices are close', () => {
    // Neat cement costs more than neat plaster here, by less than a third.
    const question = asking({ prices: pricesOf(0.0008, 0.0005) });
    const { reports, ranked } = settled(question);
    expect(ranked.map((r) => r.system.id)).toEqual(['gypsum', 'portland']);
    const [, plaster] = ranked[0]!.answer.grams;
    const [, , cement] = ranked[1]!.answer.grams;
    expect(reportOn(reports, 'gypsum')).toMatchObject({
      outcome: 'chosen',
      value: expect.closeTo(0.0008 * plaster!, 9),
      why: null,
    });
    expect(reportOn(reports, 'portland')).toMatchObject({
      outcome: 'possible',
      value: expect.closeTo(0.0005 * cement!, 9),
      why: null,
    });
    // The other way round once the cement is the cheaper one.
    const turned = settled(asking({ prices: pricesOf(0.0008, 0.0004) }));
    expect(turned.ranked.map((r) => r.system.id)).toEqual(['portland', 'gypsum']);
  });

  it('is to be far behind, without a figure, where it costs many times as much', () => {
    const { reports, ranked } = settled(asking({ prices: pricesOf(0.06, 0.0005) }));
    expect(reportOn(reports, 'gypsum')).toMatchObject({
      outcome: 'behind',
      value: null,
      why: 'left before it was settled: it fell behind',
    });
    // What a piece of neat plaster costs: the blend it was left at keeps every limit.
    expect(reportOn(reports, 'gypsum').reached).toBeGreaterThan(5);
    expect(ranked[0]!.answer.value).toBeLessThan(0.5);
    expect(ranked.map((r) => r.system.id)).toEqual(['portland']);
    // Unless every one of them is asked for.
    const question = asking({ prices: pricesOf(0.06, 0.0005) });
    const every = settleSystems(question, worldOf(question), AIMS.cheapest, true);
    expect(every.ranked.map((r) => r.system.id)).toEqual(['portland', 'gypsum']);
    expect(reportOn(every.reports, 'gypsum').outcome).toBe('possible');
  });

  it('is to miss a target, the nearest chosen, where nothing meets it', () => {
    const { reports, ranked } = settled(asking({ targets: [{ property: 'strength', min: 200 }] }));
    expect(ranked.map((r) => r.system.id)).toEqual(['portland', 'gypsum']);
    expect(ranked[0]!.answer.miss).toBeLessThan(ranked[1]!.answer.miss);
    const missed = { value: null, why: 'misses a target' };
    expect(reportOn(reports, 'portland')).toMatchObject({ ...missed, outcome: 'chosen' });
    expect(reportOn(reports, 'gypsum')).toMatchObject({ ...missed, outcome: 'misses' });
  });
});

describe('binder systems held to few ingredients', () => {
  const light = (most: number, ingredients: number): Question =>
    questionOf(SHELF, {
      prices: pricesOf(0.0006, 0.0005),
      targets: [{ property: 'dry-weight', max: most }],
      limits: { ingredients, leastDose: null },
    });
  const cramped = { outcome: 'misses', value: null, why: 'no blend of so few ingredients keeps everything' };

  it('are left out where they need more of them, as long as another does with so few', () => {
    // Plaster by itself is light enough for 320 g; cement needs perlite beside it.
    const { reports, ranked } = settled(light(320, 1));
    expect(ranked.map((r) => r.system.id)).toEqual(['gypsum']);
    expect(reportOn(reports, 'portland')).toMatchObject(cramped);
    expect(settled(light(320, 2)).ranked.map((r) => r.system.id)).toContain('portland');
  });

  it('come as near as so few ingredients can, where none keeps everything', () => {
    const { reports, ranked } = settled(light(250, 1));
    expect(ranked.map((r) => [r.system.id, r.answer.feasible])).toEqual([
      ['gypsum', false],
      ['portland', false],
    ]);
    for (const { answer } of ranked) expect(answer.grams.slice(1).filter((g) => g > 0)).toHaveLength(1);
    expect(reportOn(reports, 'portland')).toMatchObject({ outcome: 'misses', why: 'misses a target' });
  });

  it('have nothing to show where nothing dry is allowed at all', () => {
    const { reports, ranked } = settled(light(320, 0));
    expect(ranked).toEqual([]);
    for (const id of ['gypsum', 'portland']) expect(reportOn(reports, id)).toMatchObject(cramped);
  });

  it('never show a mould of water for a blend: a thimble on a coarse scale', () => {
    const question = asking({
      conditions: { ...asking().conditions, volume: 3 },
      batch: { pieces: 1, step: 5, fine: null },
    });
    const { reports, ranked } = settled(question);
    expect(ranked).toEqual([]);
    for (const id of ['gypsum', 'portland']) expect(reportOn(reports, id)).toMatchObject(cramped);
  });
});
