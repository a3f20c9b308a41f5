import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { sidesOf, withSides } from '../../src/core/optimise/back-off.js';
import { collidingTargets } from '../../src/core/optimise/colliding-targets.js';
import { conflictOf } from '../../src/core/optimise/conflict.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settleSystems } from '../../src/core/optimise/settle-systems.js';
import { questionOf } from '../support/hand-question.js';
import { material, numberOf } from '../support/shipped-table.js';

const SHELF = ['water', 'portland-cement-grey', 'masonry-sand'] as const;
/** Water that a gram of the cement asks for: neat cement flows as its water over this. */
const DEMAND = numberOf(material('portland-cement-grey').waterDemand);
/** With a fifth of the cement in water nothing pours: the sand, too, only asks for more. */
const DRY = { property: 'water-to-binder', max: 0.2 };
const POURS = { property: 'flow', min: 0.95 };
const CHEAP = { property: 'cost', max: 5 };

const told = (question: Question) => {
  const world = worldOf(question);
  return conflictOf(question, world, settleSystems(question, world, AIMS[question.objective]).ranked)!;
};
const names = (list: readonly { property: string; side: string }[]): string[] =>
  list.map((c) => `${c.property} ${c.side}`);

/** A scale so fine that its steps do not show. */
const UNSEEN = { pieces: 1, step: 1e-6, fine: null };

describe('a brief that wants dry mixes to pour', () => {
  it('is told the two sides that collide, not the third, and what the nearest blend misses', () => {
    const { system, collisions, missed } = told(questionOf(SHELF, { targets: [DRY, CHEAP, POURS] }));
    expect(system).toBe('portland');
    expect(names(collisions)).toEqual(['water-to-binder max', 'flow min']);
    expect(collisions.map((c) => [c.kind, c.limit])).toEqual([
      ['target', 0.2],
      ['target', 0.95],
    ]);
    expect(missed.length).toBeGreaterThan(0);
    for (const { nearest, limit, missedBy } of missed) expect(missedBy).toBeCloseTo(Math.abs(limit - nearest!), 12);
  });

  it('is told of a standing limit as such', () => {
    const { collisions, missed } = told(questionOf(SHELF, { targets: [DRY, CHEAP] }));
    expect(collisions.map((c) => [c.property, c.side, c.limit, c.kind])).toEqual([
      ['water-to-binder', 'max', 0.2, 'target'],
      ['flow', 'min', 0.95, 'standing'],
    ]);
    // The standing limit is kept, but for arithmetic; the target gives way.
    expect(names(missed)).toEqual(['water-to-binder max']);
  });

  it('is told how far each would have to give way, by the water the cement asks for', () => {
    const question = questionOf(SHELF, { targets: [DRY, CHEAP, POURS], batch: UNSEEN });
    const [dry, pours, ...others] = collidingTargets(question, worldOf(question))!;
    expect(others).toEqual([]);
    expect(dry).toEqual({
      property: 'water-to-binder',
      side: 'max',
      limit: 0.2,
      set: 0,
      reachable: expect.closeTo(0.95 * DEMAND, 6),
      without: null,
      system: 'portland',
    });
    expect(pours).toEqual({
      property: 'flow',
      side: 'min',
      limit: 0.95,
      set: 0,
      reachable: expect.closeTo(0.2 / DEMAND, 6),
      without: null,
      system: 'portland',
    });
  });

  it('has one culprit where the standing limits are the other', () => {
    const question = questionOf(SHELF, { targets: [CHEAP, DRY], batch: UNSEEN });
    const set = collidingTargets(question, worldOf(question))!;
    expect(names(set)).toEqual(['water-to-binder max']);
    expect(set[0]!.reachable).toBeCloseTo(0.95 * DEMAND, 6);
  });

  it('is told what can be weighed out: with the limit put there it is met', () => {
    const batch = { pieces: 1, step: 7, fine: null };
    const question = questionOf(SHELF, { targets: [CHEAP, DRY], batch });
    const reachable = collidingTargets(question, worldOf(question))![0]!.reachable!;
    expect(Math.abs(reachable / (0.95 * DEMAND) - 1)).toBeGreaterThan(1e-4);
    const given = { ...question, targets: [CHEAP, { ...DRY, max: reachable }] };
    expect(propose(given, { draws: 0 }).status).toBe('met');
    const exact = { ...question, targets: [CHEAP, { ...DRY, max: 0.95 * DEMAND * (1 + 1e-5) }] };
    expect(propose(exact, { draws: 0 }).status).toBe('nearest');
  });

  it('is told beside another that cannot be kept by itself, each as if the other had given way', () => {
    // A brief with two impossible wishes: either is enough for nothing to fit.
    const question = questionOf(SHELF, { targets: [DRY, { property: 'strength', min: 500 }], batch: UNSEEN });
    const sets = collidingTargets(question, worldOf(question))!;
    expect(sets.map((c) => [c.property, c.set])).toEqual([
      ['strength', 0],
      ['water-to-binder', 1],
    ]);
    const [strong, dry] = sets;
    expect(dry!.reachable).toBeCloseTo(0.95 * DEMAND, 6);
    const alone = questionOf(SHELF, { targets: [{ property: 'strength', min: 500 }], batch: UNSEEN });
    expect(strong!.reachable).toBeCloseTo(collidingTargets(alone, worldOf(alone))![0]!.reachable!, 6);
  });
});

describe('a brief that can be met', () => {
  const question = questionOf(SHELF, { targets: [CHEAP] });

  it('has nothing that collides or is missed', () => {
    expect(told(question)).toEqual({ system: 'portland', collisions: [], missed: [] });
    expect(collidingTargets(question, worldOf(question))).toBeNull();
    expect(conflictOf(question, worldOf(question), [])).toBeNull();
  });
});

describe('a brief that nothing fits even without targets', () => {
  it('has no targets to blame', () => {
    const question = questionOf(SHELF, { targets: [CHEAP], stock: new Map([['portland-cement-grey', 1]]) });
    expect(collidingTargets(question, worldOf(question))).toEqual([]);
  });
});

describe('targets with only some of their sides', () => {
  const window = { property: 'flow', min: 0.9, max: 1.1, path: 'targets.flow' };
  const targets = [window, DRY];

  it('keep those, and stay as an open window where they lose all', () => {
    const [low, high, dry] = sidesOf(targets);
    expect(withSides(targets, [low!, high!, dry!])).toEqual(targets);
    expect(withSides(targets, [high!])).toEqual([
      { property: 'flow', max: 1.1, path: 'targets.flow' },
      { property: 'water-to-binder' },
    ]);
    expect(withSides(targets, [])).toEqual([
      { property: 'flow', path: 'targets.flow' },
      { property: 'water-to-binder' },
    ]);
  });
});
