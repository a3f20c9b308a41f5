import { describe, expect, it } from 'vitest';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { worldOf } from '../../src/core/blend/world.js';
import { type HoldsBack, heldBackBy, withLimit } from '../../src/core/optimise/held-back.js';
import { type LocalPrices, localPrices } from '../../src/core/optimise/local-prices.js';
import { AIMS, type Aim } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { binderIn, costOf, fullMould, LEANEST, LOOSE, RATIO } from '../support/full-mould.js';
import { systemOf } from '../support/small-shelf.js';

/** What holds a blend back, where the optimum is a formula of the limit: slopes and settled gains by hand. */

const PORTLAND = systemOf('portland');
const GREY = 'portland-cement-grey';
const aim = (id: string, sense: 'min' | 'max'): Aim => ({ property: propertyById(id)!, sense });

const settled = (question: Question, sought: Aim): Settled =>
  settle(question, worldOf(question), PORTLAND, { aim: sought })!;

function held(question: Question, sought: Aim, change: (p: LocalPrices) => LocalPrices = (p) => p): HoldsBack[] {
  const world = worldOf(question);
  const answer = settled(question, sought);
  const prices = localPrices(question, world, PORTLAND, answer, sought)!;
  return heldBackBy(question, world, PORTLAND, answer, sought, change(prices));
}

/** d(value) / d(limit) of a formula, by central differences. */
const slope = (value: (limit: number) => number, at: number): number =>
  (value(at * 1.0001) - value(at * 0.9999)) / (0.0002 * at);

interface Case {
  readonly name: string;
  readonly question: Question;
  readonly sought: Aim;
  readonly property: string;
  readonly side: 'min' | 'max';
  readonly limit: number;
  /** The optimum as a formula of the limit. */
  readonly value: (limit: number) => number;
}

const alone = fullMould({ [GREY]: 0.0004 });
const ratio = (side: 'min' | 'max'): Question => ({
  ...alone,
  targets: [{ property: 'water-to-binder', [side]: RATIO }, ...LOOSE],
});
const DEAR = 0.001;
const mixed = fullMould({ [GREY]: 0.0004, 'limestone-flour': DEAR });
const weight = (r: number, filler = 0): number => binderIn(GREY, r, filler) * (1 + r + filler);

const CASES: readonly Case[] = [
  {
    name: 'money, and water at most',
    question: alone,
    sought: AIMS.cheapest,
    property: 'water-to-binder',
    side: 'max',
    limit: RATIO,
    value: (r) => costOf(0.0004 * binderIn(GREY, r)),
  },
  {
    name: 'money, and dear filler at least',
    question: { ...mixed, targets: [...mixed.targets, { property: 'sand-to-binder', min: 2 }] },
    sought: AIMS.cheapest,
    property: 'sand-to-binder',
    side: 'min',
    limit: 2,
    value: (f) => costOf(binderIn(GREY, RATIO, f) * (0.0004 + f * DEAR)),
  },
  {
    name: 'weight upwards, and water at least',
    question: ratio('min'),
    sought: aim('fresh-weight', 'max'),
    property: 'water-to-binder',
    side: 'min',
    limit: RATIO,
    value: (r) => weight(r),
  },
  {
    name: 'weight upwards, and filler at most',
    question: { ...mixed, targets: [...ratio('min').targets, { property: 'sand-to-binder', max: 2 }] },
    sought: aim('fresh-weight', 'max'),
    property: 'sand-to-binder',
    side: 'max',
    limit: 2,
    value: (f) => weight(RATIO, f),
  },
];

describe('a limit that holds a blend back', () => {
  it.each(CASES)('gains what the formula says: $name', ({ question, sought, property, side, limit, value }) => {
    const found = held(question, sought).find((h) => h.property === property)!;
    expect(found).toMatchObject({ side, limit, kind: 'target', agrees: true });
    const gives = side === 'max' ? 1 : -1;
    const good = sought.sense === 'min' ? -1 : 1;
    expect(found.gain / (good * gives * slope(value, limit))).toBeCloseTo(1, 3);
    expect(found.movedTo).toBeCloseTo(limit * (1 + gives * 0.01), 12);
    expect(found.value! / value(found.movedTo)).toBeCloseTo(1, 5);
    const gained = (good * (value(found.movedTo) - value(limit))) / (0.01 * limit);
    expect(found.settledGain! / gained).toBeCloseTo(1, 2);
  });

  it('is told as a standing one where the brief does not set it, and comes where a percent of it gains less', () => {
    const question = fullMould({ [GREY]: 0.0004, 'limestone-flour': 0.0001 });
    const all = held(question, AIMS.cheapest);
    expect(all.map((h) => [h.property, h.kind])).toEqual([
      ['water-to-binder', 'target'],
      ['sand-to-binder', 'standing'],
    ]);
    expect(all[1]!.limit).toBe(LEANEST);
    // Filler nearly for nothing: now giving way on it gains more, though the brief's own limit is looked at first.
    const free = held(fullMould({ [GREY]: 0.0004, 'limestone-flour': 0.000001 }), AIMS.cheapest);
    expect(free.map((h) => h.kind)).toEqual(['standing', 'target']);
    const perPercent = free.map((h) => h.settledGain! * h.limit);
    expect(perPercent[0]!).toBeGreaterThan(perPercent[1]!);
  });

  it('is not told where it gains a ten-thousandth of the objective or less', () => {
    const size = settled(alone, AIMS.cheapest).value!;
    const told = (share: number) =>
      held(alone, AIMS.cheapest, (p) => ({ ...p, perLimit: () => (-share * size) / RATIO })).map((h) => h.property);
    expect(told(1.01e-4)).toContain('water-to-binder');
    expect(told(0.99e-4)).not.toContain('water-to-binder');
    expect(told(0)).toEqual([]);
  });

  it('is told neither where nothing is gained by giving way, nor where there is nothing to gain', () => {
    expect(held(alone, AIMS.cheapest, (p) => ({ ...p, perLimit: () => 1 })).map((h) => h.side)).not.toContain('max');
    const world = worldOf(alone);
    const answer = { ...settled(alone, AIMS.cheapest), value: null };
    const prices: LocalPrices = { perLimit: () => -1, perRow: () => -1, perGram: [] };
    expect(heldBackBy(alone, world, PORTLAND, answer, AIMS.cheapest, prices)).toEqual([]);
  });
});

describe('the check of a gain', () => {
  const skewed = (factor: number) =>
    held(alone, AIMS.cheapest, (p) => ({ ...p, perLimit: (id, side) => factor * p.perLimit(id, side) }))[0]!;

  it('agrees up to a fifth of the larger of the two, and says by both what they are', () => {
    const right = skewed(1);
    for (const factor of [0.85, 1, 1.2]) expect(skewed(factor).agrees, `${factor}`).toBe(true);
    for (const factor of [0.5, 0.75, 1.3, 2]) {
      expect(skewed(factor).agrees, `${factor}`).toBe(false);
      expect(skewed(factor).gain).toBeCloseTo(factor * right.gain, 9);
      expect(skewed(factor).settledGain).toBe(right.settledGain);
    }
  });

  it('stands where it stood if giving way gains nothing after all', () => {
    // The filler limit is far off: prices that claim otherwise are not believed.
    const question = { ...alone, targets: [...alone.targets, { property: 'peak-temperature', max: 200 }] };
    const value = settled(question, AIMS.cheapest).value!;
    const claimed = held(question, AIMS.cheapest, (p) => ({ ...p, perLimit: () => -value / 100 }));
    const hot = claimed.find((h) => h.property === 'peak-temperature')!;
    expect(hot).toMatchObject({ limit: 200, agrees: false });
    expect(hot.movedTo).toBeCloseTo(202, 9);
    expect(hot.value! / value).toBeCloseTo(1, 6);
    expect(Math.abs(hot.settledGain!)).toBeLessThan(1e-6 * value);
    // What gains nothing comes last.
    expect(claimed.at(-1)!.settledGain).toBeLessThanOrEqual(claimed[0]!.settledGain!);
    expect(claimed[0]!.property).toBe('water-to-binder');
  });
});

describe('a question with one side of a limit moved', () => {
  const targets = [
    { property: 'flow', min: 0.9, max: 1.1 },
    { property: 'cost', max: 2 },
    { property: 'strength', min: 5 },
  ];
  const question: Question = { ...alone, targets };
  const moved = (
    target: (typeof targets)[number] | { property: string; max: number },
    side: 'min' | 'max',
    x: number,
  ) => withLimit(question, target, side, x).targets;

  it('keeps the other side and the other limits', () => {
    expect(moved(targets[0]!, 'max', 1.2)).toEqual([targets[1], targets[2], { property: 'flow', min: 0.9, max: 1.2 }]);
    expect(moved(targets[0]!, 'min', 0.8)).toEqual([targets[1], targets[2], { property: 'flow', min: 0.8, max: 1.1 }]);
    expect(moved(targets[1]!, 'max', 3)).toEqual([targets[0], targets[2], { property: 'cost', max: 3 }]);
    expect(moved(targets[2]!, 'min', 4)).toEqual([targets[0], targets[1], { property: 'strength', min: 4 }]);
    expect(withLimit(question, targets[0]!, 'max', 1.2)).toMatchObject({ objective: question.objective });
  });

  it('takes on a standing limit as one of its own', () => {
    const standing = { property: 'sand-to-binder', max: 3, because: 'so' };
    expect(moved(standing, 'max', 3.03)).toEqual([...targets, { property: 'sand-to-binder', max: 3.03 }]);
  });
});
