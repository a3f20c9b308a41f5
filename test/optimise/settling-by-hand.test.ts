import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import type { Candidate } from '../../src/core/optimise/descent.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { explore, settle, settleNear } from '../../src/core/optimise/settle.js';
import type { Bound, SettleOptions } from '../../src/core/optimise/settled.js';
import type { BinderSystem } from '../../src/core/optimise/systems.js';
import { binderIn, costOf, fullMould, LEANEST, LOOSE, RATIO } from '../support/full-mould.js';
import { questionOf } from '../support/hand-question.js';
import { systemOf } from '../support/small-shelf.js';

/** Free jumps first, then steps within reach: on moulds whose optimum is told by hand, and on one that curves. */

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
  it('stands still where a jump leads nowhere else, and then there is nothing to refine', () => {
    const trail = exploring(question, { start: BEST })!;
    expect(trail.still).toBe(true);
    const settled = trail.refine();
    expect(settled).toMatchObject({ feasible: true, still: true, miss: 0, solves: 1 });
    expect(settled.grams).toBe(trail.best.grams);
    expect(settled.grams).toEqual(close(BEST));
    expect(settled.value).toBeCloseTo(COST, 9);
  });

  it('jumps to the optimum where the rows hold everywhere, and finds out that it is there', () => {
    const trail = exploring()!;
    expect(trail.best.grams).toEqual(close(BEST));
    const settled = trail.refine();
    expect(settled).toMatchObject({ feasible: true, still: true, miss: 0 });
    expect(settled.grams).toEqual(close(BEST));
    // A jump there and one that stays: every material may enter a jump, so nothing is left to look for.
    expect(settled.solves).toBe(2);
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

describe('where the optimum lies on a curve', () => {
  /** A strength that plaster and water share, with flow let go: jumps overshoot it to and fro. */
  const curved = (more: Partial<Question> = {}): Question => ({
    ...question,
    targets: [{ property: 'strength', min: 9 }, LOOSE[0]!],
    ...more,
  });

  it('jumps go five times at most, and what is found is refined to a blend that holds', () => {
    const trail = exploring(curved())!;
    const settled = trail.refine();
    expect(settled).toMatchObject({ feasible: true, still: true });
    // However it is come by: from the very answer nothing moves any more.
    const again = near(settled.grams, curved());
    expect(again.value! / settled.value!).toBeCloseTo(1, 5);
    const strength = settled.program.rows.find((r) => r.name === 'strength min')!;
    const left = strength.coefficients.reduce((s, c, i) => s + c * settled.grams[i]!, 0) - strength.low!;
    expect(Math.abs(left) / strength.scale!).toBeLessThan(1e-3);
  });

  it('a material that no jump took in may come in while refining, and one that is held to some is in from the start', () => {
    const ids = ['water', 'casting-plaster', 'alpha-gypsum-cement', 'limestone-flour'];
    const asked = questionOf(ids, { targets: [{ property: 'strength', min: 12 }] });
    const free = exploring(asked)!.refine();
    const held = exploring(asked, { bounds: bounded(0, 0, 0, 25) })!.refine();
    expect(held.feasible).toBe(true);
    expect(held.grams[3]).toBeGreaterThanOrEqual(25 * (1 - 1e-5));
    expect(held.value!).toBeGreaterThanOrEqual(free.value! * (1 - 1e-6));
  });
});

/** How often exploring jumps: a binder system is asked for its rows once for each blend that is jumped from. */
describe('exploring jumps', () => {
  const exploredIn = (id: string, asked: Question, leader: Candidate | null = null, start?: readonly number[]) => {
    let jumps = 0;
    const system: BinderSystem = {
      ...systemOf(id),
      rows: (world) => {
        jumps++;
        return systemOf(id).rows(world);
      },
    };
    const options = optionsOf(asked, start === undefined ? {} : { start });
    const trail = explore(asked, worldOf(asked), system, options, leader)!;
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
  const FUME = ['water', 'portland-cement-grey', 'silica-fume', 'masonry-sand', 'plasticiser-powder'];

  it('until a jump leads nowhere else', () => {
    expect(exploredIn('gypsum', question).jumps).toBe(2);
    expect(exploredIn('gypsum', question, null, BEST).jumps).toBe(1);
    // A retarder curves: a jump, a second that mends it, and one that stays.
    expect(exploredIn('gypsum', slow).jumps).toBe(3);
  });

  it('and not to and fro between two corners', () => {
    const strong = questionOf(FUME, { objective: 'strongest' });
    const { trail, jumps } = exploredIn('portland', strong);
    // There, back, and there again: the fourth ends where the second did.
    expect(jumps).toBe(4);
    expect(trail.still).toBe(false);
    // Neither corner holds all limits; between them there is a blend that does.
    expect(trail.best.miss).toBeGreaterThan(0.05);
    expect(trail.refine()).toMatchObject({ feasible: true, miss: 0 });
  });

  it('no more than five times', () => {
    const light = questionOf(['water', 'portland-cement-grey', 'metakaolin', 'perlite', 'masonry-sand']);
    const { trail, jumps } = exploredIn('portland', light);
    expect(jumps).toBe(5);
    // Each of them a little cheaper still.
    expect(trail.still).toBe(false);
  });

  it('no further than twice where another system is more than twice as good', () => {
    const jumpsBeside = (value: number | null, miss = 0) =>
      exploredIn('gypsum', slow, { ...exploredIn('gypsum', slow).trail.best, value, miss }).jumps;
    // The jumps come to 0.2248 and 0.2191.
    expect(jumpsBeside(0.108)).toBe(2);
    // Half of the first is not yet half of the second.
    expect(jumpsBeside(0.1115)).toBe(3);
    expect(jumpsBeside(0.108, 0.1)).toBe(3);
  });

  it('nor where another misses less than a tenth of what it misses, and that is much', () => {
    // The least cost of a light piece is 0.17: of 0.05 that is missed by 2.4 of it, of 0.06 by 1.9.
    const jumpsBeside = (cost: number, miss: number) => {
      const dear = questionOf(GYPSUM, {
        targets: [
          { property: 'working-time', min: 20, max: 30 },
          { property: 'dry-weight', max: 380 },
          { property: 'cost', max: cost },
        ],
      });
      return exploredIn('gypsum', dear, { ...exploredIn('gypsum', dear).trail.best, value: 100, miss }).jumps;
    };
    expect(jumpsBeside(0.05, 0.1)).toBe(2);
    expect(jumpsBeside(0.05, 0.25)).toBe(4);
    expect(jumpsBeside(0.06, 0.1)).toBe(4);
  });

  it('and tells the most hopeful of them: the best value that missed little enough to be mended', () => {
    const { trail } = exploredIn('portland', questionOf(FUME, { objective: 'strongest' }));
    // A starved corner misses less than the strong one does.
    expect(trail.best.value).toBeLessThan(20);
    expect(trail.hope).toBeGreaterThan(50);
    // So it is not outrun by one that is three times as strong as the starved corner.
    const strong = questionOf(FUME, { objective: 'strongest' });
    expect(exploredIn('portland', strong, { ...trail.best, value: 30, miss: 0 }).jumps).toBe(4);
    expect(exploredIn('portland', strong, { ...trail.best, value: 120, miss: 0 }).jumps).toBe(2);
    expect(exploredIn('gypsum', slow).trail.hope).toBeCloseTo(0.21906, 5);
    // Where each misses more than all of a limit, it is that of the best.
    const hopeless = questionOf(FUME, { objective: 'strongest', targets: [{ property: 'cost', max: 0.01 }] });
    const lost = exploredIn('portland', hopeless).trail;
    expect(lost.best.miss).toBeGreaterThan(1);
    expect(lost.hope).toBe(lost.best.value);
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
