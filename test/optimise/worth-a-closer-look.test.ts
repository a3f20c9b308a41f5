import { describe, expect, it } from 'vitest';
import { stateOf } from '../../src/core/blend/state/state.js';
import { type World, worldOf } from '../../src/core/blend/world.js';
import { AIMS, type Sought } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle, type Trail } from '../../src/core/optimise/settle.js';
import { refineWorthwhile, worthwhile } from '../../src/core/optimise/settle-systems.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { supported } from '../../src/core/optimise/support.js';
import { questionOf } from '../support/hand-question.js';
import { systemOf } from '../support/small-shelf.js';

const asking = (more: Partial<Question> = {}): Question => questionOf(['water', 'portland-cement-grey'], more);

describe('a system that its walk has brought so far', () => {
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
  /** One blend stands for every system's: what its jumps and its walk are said to come to is made up. */
  const world: World = worldOf(asking());
  const blend = settle(asking(), world, systemOf('portland'), { aim: AIMS.cheapest })!;
  type Told = readonly [id: string, jumped: number, walked: number, miss?: number, of?: Settled, after?: number];
  /** Stands where it jumped to until the last of its strides; from then on it rests. */
  const told = (jumped: number, walked: number, miss: number, of: Settled, after: number): Trail => {
    let value = jumped;
    let strides = 0;
    return {
      get best() {
        return { grams: of.grams, state: of.state, miss, value };
      },
      get still() {
        return strides >= after;
      },
      stride: () => {
        strides++;
        if (strides >= after) value = walked;
      },
      settled: () => ({ ...of, program: of.program, value, miss, feasible: miss === 0 }),
    };
  };
  const refining = (
    trails: readonly Told[],
    question = asking(),
    aim: Sought = AIMS.cheapest,
    every = false,
    on = world,
  ) => {
    const given = trails.map(([id, jumped, walked, miss = 0, of = blend, after = 1]) => ({
      system: systemOf(id),
      trail: told(jumped, walked, miss, of, after),
    }));
    const { answers, cramped } = refineWorthwhile(question, on, given, aim, every);
    expect(cramped).toEqual([]);
    return answers.map((a) => a.system.id);
  };
  const FOUR: readonly Told[] = [
    ['lime', 30, 30],
    ['csa', 12, 12],
    ['portland', 10, 10],
    ['gypsum', 14, 14],
  ];

  it('is best first, and those far behind are left', () => {
    expect(refining(FOUR)).toEqual(['portland', 'csa']);
    // But of the strongest the last are first, and none of the others is within 1.3 of 30.
    expect(refining(FOUR, asking(), AIMS.strongest)).toEqual(['lime']);
  });

  it('has all of them in it where every one is asked for', () => {
    expect(refining(FOUR, asking(), AIMS.cheapest, true)).toEqual(['portland', 'csa', 'gypsum', 'lime']);
  });

  it('is by where each has come to in a race: one that stood too long is left, unless every one is asked for', () => {
    const lasting = (strides: number): readonly Told[] => [
      ['portland', 10, 10, 0, blend, 9],
      ['lime', 16, 9, 0, blend, strides],
    ];
    expect(refining(lasting(3))).toEqual(['lime', 'portland']);
    expect(refining(lasting(4))).toEqual(['portland']);
    expect(refining(lasting(4), asking(), AIMS.cheapest, true)).toEqual(['lime', 'portland']);
  });

  it('is by where each has walked to: one whose jumps were dear is not left, nor kept for jumps that were not', () => {
    expect(
      refining([
        ['portland', 10, 10],
        ['csa', 16, 9],
        ['gypsum', 16, 11],
        ['lime', 16, 14],
      ]),
    ).toEqual(['csa', 'portland', 'gypsum']);
  });

  it('is without one whose jumps were outdone, however much it might have gained', () => {
    expect(
      refining([
        ['portland', 10, 10],
        ['csa', 17, 9],
      ]),
    ).toEqual(['portland']);
  });

  it('looks at every one where few ingredients are allowed: blends without that limit then tell too little', () => {
    const few = asking({ limits: { ingredients: 3, leastDose: null } });
    const trails: readonly Told[] = [
      ['lime', 30, 30],
      ['portland', 10, 10],
    ];
    expect(refining(trails, few)).toEqual(['portland', 'lime']);
    expect(refining(trails, asking({ limits: { ingredients: null, leastDose: 1 } }))).toEqual(['portland']);
    // But not for a stand-in, which is told in tolerances.
    const nearest = { sense: 'min', wanted: [], thrift: 0 } as const;
    expect(refining(trails, few, nearest)).toEqual(['portland']);
    expect(
      refining(
        [
          ['lime', 18, 18],
          ['csa', 18.1, 18.1],
          ['portland', 10, 10],
        ],
        asking(),
        nearest,
      ),
    ).toEqual(['portland', 'lime']);
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

  describe('among blends of which some hold too little of something to weigh out', () => {
    const question = questionOf(['water', 'portland-cement-grey', 'limestone-flour'], {
      limits: { ingredients: null, leastDose: 5 },
    });
    const shelf = worldOf(question);
    const neat = settle(question, shelf, systemOf('portland'), {
      aim: AIMS.cheapest,
      bounds: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0].map((upper) => ({ lower: 0, upper })),
    })!;
    const grams = neat.grams.map((g, i) => (i === 2 ? 1 : g));
    const dusty: Settled = { ...neat, program: neat.program, grams, state: stateOf(shelf, grams) };
    /** What a system comes to that has to do without its dust. */
    const kept = supported(question, shelf, systemOf('portland'), dusty, AIMS.cheapest, false)!.answer.value!;
    const refined = (...trails: readonly (readonly [id: string, times: number, of: Settled])[]) =>
      refining(
        trails.map(([id, times, of]): Told => [id, times * kept, times * kept, 0, of]),
        question,
        AIMS.cheapest,
        false,
        shelf,
      );

    it('measures those behind against what the best keeps to its limits, and the best so far, not the last', () => {
      // Cheap without its limit, the first is dearer with it.
      expect(refined(['portland', 0.5, dusty], ['csa', 1.25, neat])).toEqual(['portland', 'csa']);
      expect(refined(['portland', 0.5, dusty], ['csa', 1.35, neat])).toEqual(['portland']);
      // The second turns out better than the first: 1.1 is then too far behind.
      expect(refined(['portland', 0.5, dusty], ['csa', 0.8, neat], ['lime', 1.1, neat])).toEqual(['portland', 'csa']);
      expect(refined(['portland', 0.5, dusty], ['lime', 1.1, neat])).toEqual(['portland', 'lime']);
      // And the third is not held to the second, which did not get any better.
      const three = refined(['csa', 0.9, neat], ['portland', 0.95, dusty], ['lime', 1.25, neat]);
      expect(three).toEqual(['csa', 'portland']);
      expect(refined(['portland', 0.95, dusty], ['lime', 1.25, neat])).toEqual(['portland', 'lime']);
    });
  });
});
