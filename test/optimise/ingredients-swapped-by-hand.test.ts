import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { supported } from '../../src/core/optimise/support.js';
import { binderIn, costOf, fullMould, LEANEST, LOOSE, RATIO, WASTE } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/** When a blend keeps its limits as it is, what stands in for what is too little, and who is chosen from a long shelf. */

const DEAR = 0.001;
type Flour = readonly [price: number, stock?: number];

function flours(list: readonly Flour[], ingredients: number | null, more: Partial<Question> = {}): Question {
  const plain = fullMould({ 'casting-plaster': DEAR });
  return {
    ...plain,
    materials: [...plain.materials, ...list.map((_f, i): Material => ({ ...material('limestone-flour'), id: `${i}` }))],
    prices: new Map([...plain.prices, ...list.map(([price], i) => [`${i}`, price] as const)]),
    stock: new Map(list.flatMap(([, stock], i) => (stock === undefined ? [] : [[`${i}`, stock / (1 - WASTE)]]))),
    limits: { ingredients, leastDose: 5 },
    ...more,
  };
}
const freeOf = (question: Question): Settled =>
  settle(question, worldOf(question), systemOf('gypsum'), { aim: AIMS[question.objective] })!;
const kept = (question: Question, free = freeOf(question)) =>
  supported(question, worldOf(question), systemOf('gypsum'), free, AIMS[question.objective])!;
const sand = (sides: { min?: number; max?: number }) => [
  { property: 'water-to-binder', max: RATIO },
  ...LOOSE,
  { property: 'sand-to-binder', ...sides },
];
const costAt = (filler: number, price: number): number =>
  costOf(binderIn('casting-plaster', RATIO, filler) * (DEAR + filler * price));
const held = ({ grams }: Settled): number[] => grams.slice(2).flatMap((g, i) => (g > 1e-6 ? [i] : []));
const LEAST = 5 * (1 - WASTE);

describe('a blend keeps its limits', () => {
  const question = flours([[0.0001]], null);
  const free = freeOf(question);
  const withFlour = (grams: number): Settled => ({ ...free, grams: [free.grams[0]!, free.grams[1]!, grams] });
  const asItIs = (asked: Question, blend: Settled): boolean => {
    const { answer, free: without, tried } = kept(asked, blend);
    return answer === blend && without === null && tried === 0;
  };

  it('with each ingredient at its least, but for a hair, and dust counting for nothing', () => {
    expect(asItIs(question, withFlour(LEAST))).toBe(true);
    expect(asItIs(question, withFlour(LEAST * (1 - 0.9e-5)))).toBe(true);
    expect(asItIs(question, withFlour(LEAST * (1 - 1.1e-5)))).toBe(false);
    const mass = free.grams[0]! + free.grams[1]!;
    expect(asItIs(question, withFlour(0.9e-9 * mass))).toBe(true);
    expect(asItIs(question, withFlour(1.2e-9 * mass))).toBe(false);
    const one = { ...question, limits: { ingredients: 1, leastDose: 5 } };
    expect(asItIs(one, withFlour(0.9e-9 * mass))).toBe(true);
    expect(asItIs(one, withFlour(100))).toBe(false);
    expect(asItIs({ ...question, limits: { ingredients: 2, leastDose: 5 } }, withFlour(100))).toBe(true);
  });

  it('where a batch shares what is weighed out, and where no limits were set at all', () => {
    const batch = { pieces: 4, step: 0.1, fine: null };
    const shared = { ...question, batch, limits: { ingredients: null, leastDose: 20 } };
    expect(asItIs(shared, withFlour(LEAST))).toBe(true);
    expect(asItIs(shared, withFlour(0.99 * LEAST))).toBe(false);
    const { limits: _limits, ...bare } = question;
    expect(asItIs(bare, withFlour(0.5))).toBe(true);
    expect(asItIs(bare, withFlour(0.4))).toBe(false);
  });

  it('with a dose that was asked for, however little that is, and without water', () => {
    const asked = { ...question, doses: [{ material: '0', percent: 0.1, of: 'binder' as const }] };
    expect(asItIs(asked, withFlour(0.3))).toBe(true);
    expect(asItIs(question, { ...free, grams: [1, free.grams[1]!, 20] })).toBe(true);
  });
});

describe('what is too little to weigh', () => {
  it('is left out where that costs next to nothing, though it is one too many besides', () => {
    const question = flours([[0.0001, 0.3]], 1);
    const free = freeOf(question);
    const { answer, free: without, tried } = kept(question, free);
    expect(held(answer)).toEqual([]);
    expect(answer.value).toBeCloseTo(costAt(0, 0), 6);
    expect(without).toBe(free);
    expect(tried).toBe(1);
  });

  it('is left out where each that takes its place is too little as well', () => {
    // At most 3 g of flour, of four kinds.
    const four: Flour[] = [[0.0001], [0.00011], [0.00012], [0.00013]];
    const { answer } = kept(flours(four, null, { targets: sand({ max: 0.006 }) }));
    expect(answer.feasible).toBe(true);
    expect(held(answer)).toEqual([]);
    expect(answer.value).toBeCloseTo(costAt(0, 0), 5);
  });

  it('gives way to one more of its kind where so few are allowed, the cheapest that can be weighed', () => {
    // Some flour is needed; of the cheapest there is too little.
    const list: Flour[] = [[0.0001, 3], [0.0009], [0.0008], [0.00085]];
    const { answer } = kept(flours(list, 2, { targets: sand({ min: 0.005, max: 0.01 }) }));
    expect(answer.feasible).toBe(true);
    expect(held(answer)).toEqual([2]);
    expect(answer.grams[4]).toBeCloseTo(LEAST, 3);
  });

  it('is what misses least where nothing keeps everything anyway', () => {
    const question = flours([[0.0001, 3]], null, {
      targets: [...sand({ min: 0.005 }), { property: 'strength', min: 500 }],
    });
    const free = freeOf(question);
    expect(free.feasible).toBe(false);
    const { answer, tried } = kept(question, free);
    expect(answer.feasible).toBe(false);
    expect(held(answer)).toEqual([]);
    expect(tried).toBe(1);
  });
});

describe('of a long shelf', () => {
  it('the likeliest are chosen among: what the blend has, and what would cost least to use', () => {
    // Ten flours run out at 75 g; the rest are dearer, the best of them last on the shelf.
    const list: Flour[] = Array.from({ length: 40 }, (_v, i): Flour => {
      if (i < 10) return [0.0001 + 1e-6 * i, 75];
      return i === 39 ? [0.0002] : [0.00026 + 1e-6 * i];
    });
    const question = flours(list, 2);
    const { answer } = kept(question);
    expect(held(answer)).toEqual([39]);
    expect(answer.value).toBeCloseTo(costAt(LEANEST, 0.0002), 5);
    // Asked for, a dear one stays among them.
    const doses = [{ material: '20', percent: 5, of: 'binder' as const }];
    const asked = kept(flours(list, 3, { doses })).answer;
    expect(held(asked)).toEqual([20, 39]);
  });
});
