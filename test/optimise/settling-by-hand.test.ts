import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { better } from '../../src/core/optimise/miss.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { searchOf } from '../../src/core/optimise/search-ground.js';
import { explore, settle, settleNear } from '../../src/core/optimise/settle.js';
import type { Bound, SettleOptions } from '../../src/core/optimise/settled.js';
import { startingBlend } from '../../src/core/optimise/starting-blend.js';
import type { BinderSystem } from '../../src/core/optimise/systems.js';
import { binderIn, costOf, fullMould, LEANEST, LOOSE, RATIO } from '../support/full-mould.js';
import { questionOf, unlimited } from '../support/hand-question.js';
import { randomQuestion } from '../support/random-shelf.js';
import { material } from '../support/shipped-table.js';
import { smallQuestion, systemOf } from '../support/small-shelf.js';

/** Free jumps first, then strides within reach: on moulds whose optimum is told by hand, and on one that curves. */

const DEAR = 0.001;
const CHEAP = 0.0001;
const question = fullMould({ 'casting-plaster': DEAR, 'limestone-flour': CHEAP });
const optionsOf = (asked: Question, more: Partial<SettleOptions> = {}): SettleOptions => ({
  aim: AIMS[asked.objective],
  ...more,
});
const exploring = (asked: Question = question, more: Partial<SettleOptions> = {}) =>
  explore(asked, worldOf(asked), systemOf('gypsum'), optionsOf(asked, more));
const near = (start: readonly number[], asked: Question = question, more: Partial<SettleOptions> = {}) =>
  settleNear(asked, worldOf(asked), systemOf('gypsum'), { ...optionsOf(asked, more), start });
const piece = (ratio = RATIO, filler = 0): number[] => {
  const plaster = binderIn('casting-plaster', ratio, filler);
  return [ratio * plaster, plaster, filler * plaster];
};
const close = (grams: readonly number[], digits = 4) => grams.map((g) => expect.closeTo(g, digits));
const BEST = piece(RATIO, LEANEST);
const COST = costOf(BEST[1]! * (DEAR + LEANEST * CHEAP));
const bounded = (...lower: readonly number[]): Bound[] =>
  lower.map((l) => ({ lower: l, upper: Number.POSITIVE_INFINITY }));

describe('exploring', () => {
  it('stands still where a jump leads nowhere else, and then there is nothing to walk', () => {
    const trail = exploring(question, { start: BEST })!;
    expect(trail.still).toBe(true);
    const settled = trail.settled();
    expect(settled).toMatchObject({ feasible: true, still: true, miss: 0, solves: 1 });
    expect(settled.grams).toBe(trail.best.grams);
    expect(settled.grams).toEqual(close(BEST));
    expect(settled.value).toBeCloseTo(COST, 9);
    // Not even a stride moves it, or counts.
    const { best } = trail;
    trail.stride();
    expect(trail.best).toBe(best);
    expect(trail.settled()).toBe(settled);
  });

  it('jumps to the optimum where the rows hold everywhere, and finds out that it is there', () => {
    const trail = exploring()!;
    expect(trail.still).toBe(true);
    expect(trail.best.grams).toEqual(close(BEST));
    // A jump there and one that stays: every material may enter a jump, so nothing is left to look for.
    expect(trail.settled()).toMatchObject({ feasible: true, still: true, miss: 0, solves: 2 });
  });

  it('comes to nothing where the mould cannot be filled', () => {
    const short = { ...question, stock: new Map(question.materials.map((m) => [m.id, 5])) };
    expect(exploring(short)).toBeNull();
    expect(settle(short, worldOf(short), systemOf('gypsum'), optionsOf(short))).toBeNull();
  });

  it('starts where it is told to and leaves that as it is', () => {
    const start = Object.freeze(piece(0.5, 1));
    expect(exploring(question, { start })!.best.grams).toEqual(close(BEST));
    expect(start).toEqual(piece(0.5, 1));
  });
});

const settling = (asked: Question, more: Partial<SettleOptions> = {}) =>
  settle(asked, worldOf(asked), systemOf('gypsum'), optionsOf(asked, more))!;

describe('where the optimum lies on a curve', () => {
  /** A strength that plaster and water share, with flow let go. */
  const curved: Question = { ...question, targets: [{ property: 'strength', min: 9 }, LOOSE[0]!] };

  it('what is found holds, just so, and nothing moves from it any more', () => {
    const settled = settling(curved);
    expect(settled).toMatchObject({ feasible: true, still: true });
    // However it is come by.
    const again = near(settled.grams, curved);
    expect(again.value! / settled.value!).toBeCloseTo(1, 5);
    const strength = settled.program.rows.find((r) => r.name === 'strength min')!;
    const left = strength.coefficients.reduce((s, c, i) => s + c * settled.grams[i]!, 0) - strength.low!;
    expect(Math.abs(left) / strength.scale!).toBeLessThan(1e-3);
  });

  it('a material that is held to some is in from the start', () => {
    const ids = ['water', 'casting-plaster', 'alpha-gypsum-cement', 'limestone-flour'];
    const asked = questionOf(ids, { targets: [{ property: 'strength', min: 12 }] });
    const free = settling(asked);
    const held = settling(asked, { bounds: bounded(0, 0, 0, 25) });
    expect(held.feasible).toBe(true);
    expect(held.grams[3]).toBeGreaterThanOrEqual(25 * (1 - 1e-5));
    expect(held.value!).toBeGreaterThanOrEqual(free.value! * (1 - 1e-6));
  });
});

/** The corner that jumps starve in has more silica fume than the table lets in. */
const unlimitedFume = (id: string) => (id === 'silica-fume' ? unlimited(id) : material(id));
const FUME = ['water', 'portland-cement-grey', 'silica-fume', 'masonry-sand', 'plasticiser-powder'];
const strong = questionOf(FUME, { objective: 'strongest', materials: FUME.map(unlimitedFume) });

/** How often exploring jumps: a system is asked for what it must hold once for all, and for each blend that is jumped from. */
describe('exploring jumps', () => {
  const exploredIn = (id: string, asked: Question, start?: readonly number[]) => {
    let jumps = -1;
    const system: BinderSystem = {
      ...systemOf(id),
      get holds() {
        jumps++;
        return systemOf(id).holds;
      },
    };
    const trail = explore(asked, worldOf(asked), system, optionsOf(asked, start === undefined ? {} : { start }))!;
    return { trail, jumps };
  };
  const GYPSUM = ['water', 'casting-plaster', 'alpha-gypsum-cement', 'limestone-flour', 'citric-acid', 'perlite'];
  const slow = questionOf(GYPSUM, {
    targets: [
      { property: 'strength', min: 12 },
      { property: 'working-time', min: 20, max: 30 },
      { property: 'dry-weight', max: 380 },
    ],
  });

  it('until a jump leads nowhere else', () => {
    expect(exploredIn('gypsum', question).jumps).toBe(2);
    expect(exploredIn('gypsum', question, BEST).jumps).toBe(1);
    // A retarder curves: a jump, a second that mends it, and one that stays.
    const { trail, jumps } = exploredIn('gypsum', slow);
    expect(jumps).toBe(3);
    expect(trail.still).toBe(true);
    expect(trail.best.value).toBeCloseTo(0.21906, 5);
  });

  it('and not to and fro between two corners', () => {
    const { trail, jumps } = exploredIn('portland', strong);
    // There, and from there twice as far: jumps do not settle.
    expect(jumps).toBe(2);
    expect(trail.still).toBe(false);
    // Neither corner holds all limits, and the starved one misses less; between them there is a blend that does.
    expect(trail.best.miss).toBeGreaterThan(0.05);
    expect(trail.best.value).toBeLessThan(20);
    const settled = settle(strong, worldOf(strong), systemOf('portland'), optionsOf(strong))!;
    expect(settled).toMatchObject({ feasible: true, still: true, miss: 0 });
    expect(settled.value).toBeGreaterThan(60);
  });

  it('no more than five times', () => {
    const ids = ['water', 'portland-cement-grey', 'metakaolin', 'perlite', 'masonry-sand'];
    const light = questionOf(ids, { materials: ids.map(unlimited) });
    const { trail, jumps } = exploredIn('portland', light);
    expect(jumps).toBe(5);
    // Each of them a little cheaper still.
    expect(trail.still).toBe(false);
  });

  it('to the nearest blend where nothing holds', () => {
    // The least cost of a light piece is 0.17: of 0.05 that is missed by 2.4 of it, of 0.06 by 1.9.
    const missOf = (cost: number) => {
      const [, time, weight] = slow.targets;
      const dear = questionOf(GYPSUM, { targets: [time!, weight!, { property: 'cost', max: cost }] });
      const { trail, jumps } = exploredIn('gypsum', dear);
      expect(jumps).toBe(5);
      expect(trail.settled()).toMatchObject({ feasible: false, still: true });
      return trail.best.miss;
    };
    expect(missOf(0.05)).toBeCloseTo(2.44, 2);
    expect(missOf(0.06)).toBeCloseTo(1.87, 2);
  });

  it('no further from one that is hopeless: that misses by more than five limits', () => {
    const [, time, weight] = slow.targets;
    const jumpsFor = (cost: number) => {
      const dear = questionOf(GYPSUM, { targets: [time!, weight!, { property: 'cost', max: cost }] });
      const { trail, jumps } = exploredIn('gypsum', dear);
      return { jumps, miss: trail.best.miss };
    };
    const far = jumpsFor(0.025);
    expect(far.miss).toBeGreaterThan(5);
    expect(far.jumps).toBe(1);
    const nearer = jumpsFor(0.04);
    expect(nearer.miss).toBeLessThan(5);
    expect(nearer.jumps).toBeGreaterThan(1);
  });
});

describe('a walk', () => {
  const walking = () => explore(strong, worldOf(strong), systemOf('portland'), optionsOf(strong))!;

  it('goes one stride at a time, never to anything worse, until it rests; then no further', () => {
    const trail = walking();
    let strides = 0;
    for (let before = trail.best; !trail.still; before = trail.best) {
      trail.stride();
      strides++;
      expect(better(before, trail.best, AIMS.strongest)).toBe(false);
    }
    expect(strides).toBe(24);
    const { best } = trail;
    const { solves } = trail.settled();
    trail.stride();
    expect(trail.best).toBe(best);
    expect(trail.settled().solves).toBe(solves);
  });

  it('tells on the way what is best so far, that it is not at rest yet, and its solves', () => {
    const trail = walking();
    let solves = trail.settled().solves;
    expect(solves).toBe(2);
    while (!trail.still) {
      expect(trail.settled()).toMatchObject({ still: false, feasible: trail.best.miss === 0 });
      expect(trail.settled().grams).toBe(trail.best.grams);
      trail.stride();
      expect(trail.settled().solves).toBeGreaterThan(solves);
      ({ solves } = trail.settled());
    }
    expect(trail.settled()).toMatchObject({ still: true, feasible: true });
    // To the end in one go: being asked on the way has changed nothing.
    const settled = settle(strong, worldOf(strong), systemOf('portland'), optionsOf(strong))!;
    expect(settled.grams).toEqual(trail.best.grams);
    expect(settled).toMatchObject({ still: true, solves });
    // Strides that ran out of a limit were brought back, each by one solve more.
    expect(solves).toBeGreaterThan(2 + 24);
  });

  it('may end before it stands still, and says so', () => {
    const asked = randomQuestion(112);
    const trail = explore(asked, worldOf(asked), systemOf('portland'), optionsOf(asked))!;
    while (!trail.still) trail.stride();
    expect(trail.settled()).toMatchObject({ still: false, feasible: true });
  });

  it('takes in what no jump took in, where that is worth it', () => {
    const { question: asked, system } = smallQuestion(23);
    const world = worldOf(asked);
    const { aim } = optionsOf(asked);
    const search = searchOf(asked, world, system, { aim });
    const start = startingBlend(world, search.columns, asked.conditions.volume);
    const first = search.step(start, null, null)!;
    const second = search.step(first, null, null)!;
    const flour = asked.materials.findIndex((m) => m.id === 'limestone-flour');
    expect([first[flour], second[flour]]).toEqual([0, 0]);
    const trail = explore(asked, world, system, { aim })!;
    expect(trail.settled().solves).toBe(2);
    while (!trail.still) trail.stride();
    expect(trail.best.grams[flour]).toBeGreaterThan(1);
  });
});

describe('settling near a blend', () => {
  it('walks to the optimum, and takes in what the blend lacks where that is worth it', () => {
    const settled = near(piece());
    expect(settled.grams).toEqual(close(BEST, 3));
    expect(settled.value).toBeCloseTo(COST, 6);
    expect(settled.still).toBe(true);
  });

  it('is there at once from the optimum', () => {
    const settled = near(BEST);
    expect(settled.grams).toEqual(close(BEST));
    expect(settled.solves).toBeLessThanOrEqual(2);
    // Dry plaster takes up its water in steps, and flour where it is looked for.
    const dry = near([0, piece()[1]!, 0]);
    expect(dry.feasible).toBe(true);
    expect(dry.grams[0]! / dry.grams[1]!).toBeCloseTo(RATIO, 4);
    expect(dry.solves).toBe(near([0.001, piece()[1]!, 0]).solves);
    expect(near(piece()).solves).toBeGreaterThan(near(piece(RATIO, 1e-5)).solves);
    // From half of it as well: what is not full is filled.
    expect(near(BEST.map((g) => g / 2)).grams).toEqual(close(BEST));
  });

  it('holds the blend to its bounds from the first', () => {
    const half = binderIn('casting-plaster', RATIO, 1);
    const upper = near(BEST, question, {
      bounds: BEST.map((_g, i) => ({ lower: 0, upper: i === 2 ? half : Number.POSITIVE_INFINITY })),
    });
    expect(upper.feasible).toBe(true);
    expect(upper.grams).toEqual(close(piece(RATIO, 1), 2));
    const lower = near(piece(RATIO, 1), fullMould({ 'casting-plaster': CHEAP, 'limestone-flour': DEAR }), {
      bounds: bounded(0, 0, half),
    });
    expect(lower.feasible).toBe(true);
    expect(lower.grams).toEqual(close(piece(RATIO, 1), 2));
    // A blend below its least does not pass for one that keeps it, though it is cheaper.
    const dear = fullMould({ 'casting-plaster': DEAR, 'limestone-flour': 2 * DEAR });
    const least = near(piece(RATIO, 0.005), dear, { bounds: bounded(0, 0, 4.75) });
    expect(least.feasible).toBe(true);
    expect(least.grams[2]).toBeCloseTo(4.75, 4);
  });

  it('says of a blend that nothing mends how far it misses', () => {
    const strong = { ...question, targets: [{ property: 'strength', min: 500 }, LOOSE[0]!] };
    const settled = near(piece(), strong);
    expect(settled.feasible).toBe(false);
    expect(settled.miss).toBeGreaterThan(0.5);
  });
});
