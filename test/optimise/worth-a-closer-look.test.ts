import { describe, expect, it } from 'vitest';
import { stateOf } from '../../src/core/blend/state/state.js';
import { type World, worldOf } from '../../src/core/blend/world.js';
import { AIMS, type Sought } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle, type Trail } from '../../src/core/optimise/settle.js';
import { refineWorthwhile, worthwhile } from '../../src/core/optimise/settle-systems.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { questionOf } from '../support/hand-question.js';
import { systemOf } from '../support/small-shelf.js';

const asking = (more: Partial<Question> = {}): Question => questionOf(['water', 'portland-cement-grey'], more);

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
    trails: readonly (readonly [id: string, jumped: number, refined: number, miss?: number, hope?: number])[],
    question = asking(),
    aim: Sought = AIMS.cheapest,
  ) => {
    const looked: string[] = [];
    const given = trails.map(([id, jumped, refined, miss = 0, hope = jumped]) => {
      const trail: Trail = {
        best: { grams: blend.grams, state: stateOf(world, blend.grams), miss, value: jumped },
        hope,
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

  it('does not leave a system whose jump that missed least was dear, where another of its jumps was not', () => {
    expect(
      refining([
        ['portland', 10, 10],
        ['csa', 50, 9, 0.3, 11],
        ['lime', 50, 9, 0.3, 14],
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
