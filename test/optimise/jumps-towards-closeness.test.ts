import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import type { Candidate } from '../../src/core/optimise/ground.js';
import { better } from '../../src/core/optimise/miss.js';
import { AIMS, type Sought } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { distance, searchOf } from '../../src/core/optimise/search-ground.js';
import { explore, settle } from '../../src/core/optimise/settle.js';
import { startingBlend } from '../../src/core/optimise/starting-blend.js';
import type { BinderSystem } from '../../src/core/optimise/systems.js';
import { questionOf, unlimited } from '../support/hand-question.js';
import { smallQuestion, systemOf } from '../support/small-shelf.js';

/** Five at most, and the blend moves less than half as far by each as by the one before. */
describe('jumps that come closer', () => {
  /** Jumps by hand: how many there are, the best of them, and why there is no other. */
  function jumped(question: Question, system: BinderSystem, aim: Sought) {
    const world = worldOf(question);
    const search = searchOf(question, world, system, { aim });
    let at: readonly number[] = startingBlend(world, search.columns, question.conditions.volume);
    let moved = Number.POSITIVE_INFINITY;
    let best: Candidate | null = null;
    for (let jumps = 1; ; jumps++) {
      const next = search.step(at, null, null)!;
      const candidate = search.judge(next);
      if (best === null || better(candidate, best, aim)) best = candidate;
      const far = distance(next, at);
      if (far < 1e-7) return { jumps, best, end: 'rests' } as const;
      if (far > moved / 2) return { jumps, best, end: 'far' } as const;
      if (jumps === 5) return { jumps, best, end: 'many' } as const;
      moved = far;
      at = next;
    }
  }

  it('are made until one stays, goes half as far as the one before, or is the fifth; the best of them is kept', () => {
    const ends: Record<string, number> = {};
    for (let seed = 1; seed <= 25; seed++) {
      const { question, system } = smallQuestion(seed);
      const aim = AIMS[question.objective];
      const { jumps, best, end } = jumped(question, system, aim);
      ends[end] = (ends[end] ?? 0) + 1;
      const trail = explore(question, worldOf(question), system, { aim })!;
      expect(trail.settled().solves, `seed ${seed}`).toBe(jumps);
      expect(trail.best.grams, `seed ${seed}`).toEqual(best.grams);
      expect(trail.still, `seed ${seed}`).toBe(end === 'rests');
    }
    expect(ends).toEqual({ rests: 17, far: 7, many: 1 });
  });
});

/** Towards what is wanted as well: tolerances are no shares. */
describe('a search for closeness', () => {
  const ids = ['water', 'portland-cement-grey', 'metakaolin', 'perlite', 'masonry-sand'];
  const question = questionOf(ids, { materials: ids.map(unlimited) });
  const world = worldOf(question);
  const system = systemOf('portland');
  const TOLERANCE = 0.02;
  const wanting = (high: number): Sought => ({
    sense: 'min',
    wanted: [{ property: 'cost', high, tolerance: TOLERANCE, weight: 1 }],
    thrift: 0,
  });
  const least = settle(question, world, system, { aim: AIMS.cheapest })!.value!;

  it('jumps as often towards a cost that cannot be as for the cheapest, and tells how far off it is', () => {
    const jumpsOf = (aim: Sought) => explore(question, world, system, { aim })!.settled().solves;
    expect(jumpsOf(AIMS.cheapest)).toBe(5);
    expect(jumpsOf(wanting(0.01))).toBe(5);
    const settled = settle(question, world, system, { aim: wanting(0.01) })!;
    expect(settled).toMatchObject({ feasible: true, still: true });
    expect(settled.value).toBeCloseTo((least - 0.01) / TOLERANCE, 6);
    expect(settled.value).toBeGreaterThan(8);
  });

  it('misses nothing where what is wanted can be had', () => {
    const settled = settle(question, world, system, { aim: wanting(1.2 * least) })!;
    expect(settled).toMatchObject({ feasible: true, still: true, value: 0 });
  });
});
