import { describe, expect, it } from 'vitest';
import { stateOf } from '../../src/core/blend/state/state.js';
import { type World, worldOf } from '../../src/core/blend/world.js';
import { AIMS, type Sought } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle, type Trail } from '../../src/core/optimise/settle.js';
import {
  refineWorthwhile,
  type SystemReport,
  settleSystems,
  worthwhile,
} from '../../src/core/optimise/settle-systems.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { BINDER_SYSTEMS } from '../../src/core/optimise/systems.js';
import { questionOf } from '../support/hand-question.js';
import { systemOf } from '../support/small-shelf.js';

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
      why: 'far from the chosen blend',
    });
    expect(ranked.map((r) => r.system.id)).toEqual(['portland']);
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

describe('a system that its free jumps have brought so far', () => {
  const at = (value: number | null, miss = 0, feasible = miss === 0) => ({ value, miss, feasible });
  const near = { sense: 'min', wanted: [], thrift: 0 } as const;
  const CASES: readonly (readonly [string, boolean, ReturnType<typeof at>, ReturnType<typeof at>, Sought])[] = [
    ['1.3 times as dear', true, at(13), at(10), AIMS.cheapest],
    ['dearer than that', false, at(13.1), at(10), AIMS.cheapest],
    ['cheaper', true, at(1), at(10), AIMS.cheapest],
    ['not 1.3 times as weak', true, at(10), at(13), AIMS.strongest],
    ['weaker than that', false, at(10), at(13.1), AIMS.strongest],
    ['stronger', true, at(100), at(13), AIMS.strongest],
    ['8 tolerances farther', true, at(9), at(1), near],
    ['farther than that', false, at(9.1), at(1), near],
    ['missing half of its limits where the best misses nothing', true, at(1, 0.5), at(10), AIMS.cheapest],
    ['missing more than half of them where the best misses a little', false, at(1, 0.7), at(10, 0.2), AIMS.cheapest],
    ['missing no three times as much as the best', true, at(99, 0.7), at(10, 0.3), AIMS.cheapest],
    ['missing just three times as much', true, at(99, 0.75), at(10, 0.25), AIMS.cheapest],
    ['missing a little where the best misses next to nothing', true, at(99, 0.4), at(10, 0.01), AIMS.cheapest],
    ['dear, where the best misses a limit', true, at(99), at(10, 0.2), AIMS.cheapest],
    ['without a figure', true, at(null), at(10), AIMS.cheapest],
    ['dear, where the best is without a figure', true, at(99), at(null), AIMS.cheapest],
    ['far off, where nothing is known of the best', true, at(null), at(1), near],
  ];
  it.each(CASES)('%s: worth a closer look %s', (_words, worth, candidate, leader, aim) => {
    expect(worthwhile(candidate, leader, aim)).toBe(worth);
  });
});

describe('the order in which systems are looked at closely', () => {
  /** One blend stands for every system's: what its free jumps and its refining are said to come to is made up. */
  const world: World = worldOf(asking());
  const blend = settle(asking(), world, systemOf('portland'), { aim: AIMS.cheapest })!;
  const refining = (
    trails: readonly (readonly [id: string, jumped: number, refined: number, miss?: number])[],
    question = asking(),
    aim: Sought = AIMS.cheapest,
  ) => {
    const looked: string[] = [];
    const given = trails.map(([id, jumped, refined, miss = 0]) => {
      const trail: Trail = {
        best: { grams: blend.grams, state: stateOf(world, blend.grams), miss, value: jumped },
        still: false,
        refine: (): Settled => {
          looked.push(id);
          return { ...blend, value: refined, miss, feasible: miss === 0 };
        },
      };
      return { system: systemOf(id), trail };
    });
    const { answers, cramped } = refineWorthwhile(question, world, given, aim);
    expect(answers.map((a) => a.system.id)).toEqual(looked);
    expect(cramped).toEqual([]);
    return looked;
  };

  it('is best first, and those far behind are left', () => {
    expect(
      refining([
        ['lime', 30, 30],
        ['csa', 12, 12],
        ['portland', 10, 10],
        ['gypsum', 14, 14],
      ]),
    ).toEqual(['portland', 'csa']);
  });

  it('measures those behind against the best refined so far, not against the last', () => {
    // The second turns out better than the first when it is refined: 12 is then too far behind.
    expect(
      refining([
        ['portland', 10, 10],
        ['csa', 11, 8],
        ['lime', 12, 12],
      ]),
    ).toEqual(['portland', 'csa']);
    // And the third is not held to the second, which did not get any better.
    expect(
      refining([
        ['portland', 10, 10],
        ['csa', 11, 30],
        ['lime', 13.5, 12],
      ]),
    ).toEqual(['portland', 'csa']);
  });

  it('looks at every one of them where few ingredients are allowed: free jumps then tell too little', () => {
    const few = asking({ limits: { ingredients: 3, leastDose: null } });
    const trails = [
      ['lime', 30, 30],
      ['portland', 10, 10],
    ] as const;
    expect(refining(trails, few)).toEqual(['portland', 'lime']);
    expect(refining(trails, asking({ limits: { ingredients: null, leastDose: 1 } }))).toEqual(['portland']);
    // But not for a stand-in, which is told in tolerances.
    expect(refining(trails, few, { sense: 'min', wanted: [], thrift: 0 })).toEqual(['portland']);
  });

  it('keeps what misses least first, where nothing fits', () => {
    expect(
      refining([
        ['lime', 5, 5, 0.9],
        ['portland', 10, 10, 0.2],
        ['csa', 99, 99, 0.4],
      ]),
    ).toEqual(['portland', 'csa']);
  });
});
