import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/core/blend/assess.js';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { RowOrigin } from '../../src/core/optimise/blend-program.js';
import type { Fence, Learnt } from '../../src/core/optimise/ground.js';
import type { Row } from '../../src/core/optimise/lp/types.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { searchOf } from '../../src/core/optimise/search-ground.js';
import { binderIn, fullMould, LEANEST, RATIO, WASTE } from '../support/full-mould.js';
import { systemOf } from '../support/small-shelf.js';

/** Limits as they looked from another blend: how a search mends a blend, keeps fences and lets go of them. */

const question = fullMould({ 'casting-plaster': 0.001, 'limestone-flour': 0.0001 });
const search = (asked: Question = question, tighten = new Map<string, number>()) =>
  searchOf(asked, worldOf(asked), systemOf('gypsum'), { aim: AIMS.cheapest, tighten });
const piece = (ratio = RATIO, filler = 0): number[] => {
  const plaster = binderIn('casting-plaster', ratio, filler);
  return [ratio * plaster, plaster, filler * plaster];
};
const near = (grams: readonly number[], digits = 6) => grams.map((g) => expect.closeTo(g, digits));
/** How far inside its limits a mended blend is put, in shares of each. */
const INSIDE = 3e-5;

const LIMIT: RowOrigin = { kind: 'target', target: { property: 'water-to-binder', max: RATIO }, side: 'max' };
const fence = (row: Partial<Row>, origin: RowOrigin = LIMIT): Fence => ({
  row: { name: 'a fence', coefficients: [0, 0, 0], scale: 1, ...row },
  origin,
});
const only = (fences: readonly Fence[]): Learnt => ({ fences, faces: [] });
/** At most so much of the flour. */
const atMost = (grams: number): Fence => fence({ coefficients: [0, 0, 1], high: grams });

describe('a blend is mended', () => {
  it('to the nearest that keeps its limits, by a hair', () => {
    const { grams } = search().mend(piece(0.62), null, []);
    const [water, plaster, flour] = grams!;
    // As sized at the blend: 0.6 of its plaster.
    const inside = INSIDE * RATIO * piece(0.62)[1]!;
    expect(water! - RATIO * plaster!).toBeCloseTo(-inside, 6);
    expect(flour).toBe(0);
    // What keeps them stays where it is.
    expect(search().mend(piece(0.55, 1), null, []).grams).toEqual(near(piece(0.55, 1)));
  });

  it('among some materials only, where that is asked', () => {
    const both = search().mend(piece(0.62, 1), null, []).grams!;
    const [water, plaster, flour] = search().mend(piece(0.62, 1), [true, true, false], []).grams!;
    expect(both[2]).toBeGreaterThan(100);
    expect(flour).toBe(0);
    expect(water! / plaster!).toBeLessThan(RATIO);
  });

  it('to the fences that it is to keep besides', () => {
    const from = piece(0.55, 1);
    const { grams } = search().mend(from, null, [atMost(from[2]! - 50)]);
    expect(grams![2]).toBeCloseTo(from[2]! - 50 - INSIDE, 3);
    // One that every blend breaks leaves none.
    expect(search().mend(from, null, [fence({ coefficients: [1, 0, 0], high: -1 })]).grams).toBeNull();
  });

  it('and the limits it is mended to are told as they look from it, but neither what is straight nor what has room', () => {
    const at = piece(0.62, 1);
    const world = worldOf(question);
    const flowing = evaluate(world, at).value(propertyById('flow')!)!;
    // At `share` of the limit on flow; strength is let go, and water-to-binder is the same from everywhere.
    const held = (share: number): Question => ({
      ...question,
      targets: [question.targets[0]!, { property: 'flow', min: flowing / share, max: 20 }, question.targets[2]!],
    });
    const told = (asked: Question) => search(asked).mend(at, null, [atMost(1)]);
    const flow = told(held(0.95)).fences.filter((f) => f.row.name.startsWith('flow'));
    expect(flow).toEqual([
      {
        row: expect.objectContaining({ name: 'flow min' }),
        origin: { kind: 'target', target: held(0.95).targets[1], side: 'min' },
      },
    ]);
    // Exact at the blend: what it falls short of is a twentieth of the limit.
    const { coefficients, low, scale } = flow[0]!.row;
    const short = low! - coefficients.reduce((sum, c, i) => sum + c * at[i]!, 0);
    expect(short / scale!).toBeCloseTo(0.05, 6);
    const names = (asked: Question) => told(asked).fences.map((f) => f.row.name);
    expect(names(held(0.95))).toEqual(['flow min']);
    expect(names(held(1.09))).toEqual(['flow min']);
    expect(names(held(1.12))).toEqual([]);
    // Told too where no blend keeps all.
    const none = told({ ...held(0.95), stock: new Map(question.materials.map((m) => [m.id, 5])) });
    expect(none.grams).toBeNull();
    expect(none.fences.map((f) => f.row.name)).toEqual(['flow min']);
  });
});

describe('a step', () => {
  it('keeps the fences it is given', () => {
    expect(search().step(piece(), null, null, only([atMost(60)]))![2]).toBeCloseTo(60, 6);
    expect(search().step(piece(), null, null, only([atMost(60), atMost(40)]))![2]).toBeCloseTo(40, 6);
    expect(search().step(piece(), null, null, only([]))).toEqual(near(piece(RATIO, LEANEST)));
    // Where no blend keeps all of them it comes as near as can be: a fence may be missed, unlike what is fixed.
    const torn = search().step(piece(), null, null, only([fence({ coefficients: [0, 0, 1], high: -1 })]))!;
    expect(torn[2]).toBe(0);
  });
});

describe('a fence', () => {
  /** 5 g of water more than the limit of 0.6 allows to 100 g of plaster. */
  const over = [65, 100, 0];
  const allows = (f: Fence, grams: readonly number[] = over, ground = search()) =>
    ground.allows(f, ground.judge(grams));
  /** Water to plaster as before, with so much room: the blend is 65 - room beyond it. */
  const wet = (room: number, more: Partial<Row> = {}) => fence({ coefficients: [1, 0, 0], high: room, ...more });

  it('is kept while it shuts a blend out no more than the limit itself does', () => {
    expect(allows(wet(60.001))).toBe(true);
    expect(allows(wet(59.999))).toBe(false);
    // As a least that the blend falls short of, and one that it has twice over.
    expect(allows(fence({ coefficients: [0, 1, 0], low: 104.999 }))).toBe(true);
    expect(allows(fence({ coefficients: [0, 1, 0], low: 105.001 }))).toBe(false);
    expect(allows(fence({ coefficients: [0, 1, 0], low: 50, high: 104 }))).toBe(true);
  });

  it('may be passed by a millionth of its size', () => {
    expect(allows(wet(60 - 0.0009, { scale: 1000 }))).toBe(true);
    expect(allows(wet(60 - 0.0011, { scale: 1000 }))).toBe(false);
    const { scale: _scale, ...row } = wet(60 - 0.9e-6).row;
    expect(allows({ row, origin: LIMIT })).toBe(true);
    expect(allows({ row: { ...row, high: 60 - 1.1e-6 }, origin: LIMIT })).toBe(false);
  });

  it('has to hold for a blend that keeps the limit, however much room that has', () => {
    expect(allows(wet(50.001), [50, 100, 0])).toBe(true);
    expect(allows(wet(49.999), [50, 100, 0])).toBe(false);
  });

  it('goes by the limit as it is drawn in', () => {
    const drawn = search(question, new Map([['water-to-binder max', 0.1]]));
    // At most 0.5 to 1: the blend is 15 g beyond.
    expect(allows(wet(50.001), over, drawn)).toBe(true);
    expect(allows(wet(49.999), over, drawn)).toBe(false);
  });

  it('of a limit that is not asked has no say, and of what is fixed always one', () => {
    const stranger = (property: string, side: 'min' | 'max'): RowOrigin => ({
      kind: 'target',
      target: { property, [side]: 1 },
      side,
    });
    const lax = { coefficients: [1, 0, 0], high: 1000 };
    expect(allows(fence(lax, stranger('cost', 'max')))).toBe(false);
    expect(allows(fence(lax, stranger('water-to-binder', 'min')))).toBe(false);
    expect(allows(fence(lax, stranger('flow', 'max')))).toBe(true);
    expect(allows(fence({ coefficients: [1, 0, 0], high: 1 }, { kind: 'fixed' }))).toBe(true);
    // Of a standing limit, on sand: 20 g too much of the flour.
    const sand: RowOrigin = { kind: 'standing', target: { property: 'sand-to-binder', max: LEANEST }, side: 'max' };
    expect(allows(fence({ coefficients: [0, 0, 1], high: 301 }, sand), [60, 100, 320])).toBe(true);
    expect(allows(fence({ coefficients: [0, 0, 1], high: 299 }, sand), [60, 100, 320])).toBe(false);
  });
});

describe('what a search ends with', () => {
  it('says whether its blend keeps all limits, and has the rows at it at hand', () => {
    const ground = search({ ...question, stock: new Map([['limestone-flour', 10 / (1 - WASTE)]]) });
    const met = ground.finish(ground.judge(piece()), true, 7);
    expect(met).toMatchObject({ feasible: true, still: true, solves: 7, miss: 0 });
    const { program } = met;
    expect(program.columns).toEqual(ground.columns);
    const ratio = program.rows.find((r) => r.name === 'water-to-binder max')!;
    expect(ratio.scale).toBeCloseTo(piece()[0]!, 6);
    expect(met.program).toBe(program);
    const missed = ground.finish(ground.judge(piece(0.66)), false, 2);
    expect(missed).toMatchObject({ feasible: false, still: false, solves: 2 });
    expect(missed.program.rows.find((r) => r.name === ratio.name)!.scale).toBeCloseTo(RATIO * piece(0.66)[1]!, 6);
  });
});
