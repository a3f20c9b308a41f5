import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { fewestIngredients, supported } from '../../src/core/optimise/support.js';
import { binderIn, costOf, fullMould, LEANEST, LOOSE, RATIO, WASTE } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/** The most ingredients and the least dose on moulds of plaster and flours that are alike but for their price and stock. */

const DEAR = 0.001;
interface Flour {
  readonly price: number;
  readonly stock?: number;
  readonly more?: Partial<Material>;
}

/** Plaster and these flours, all of them limestone. */
function flours(list: readonly Flour[], ingredients: number | null, more: Partial<Question> = {}): Question {
  const plain = fullMould({ 'casting-plaster': DEAR });
  const named = list.map((f, i): Material => ({ ...material('limestone-flour'), id: `flour-${i}`, ...f.more }));
  return {
    ...plain,
    materials: [...plain.materials, ...named],
    prices: new Map([...plain.prices, ...list.map((f, i) => [`flour-${i}`, f.price] as const)]),
    stock: new Map(list.flatMap((f, i) => (f.stock === undefined ? [] : [[`flour-${i}`, f.stock / (1 - WASTE)]]))),
    limits: { ingredients, leastDose: 5 },
    ...more,
  };
}
const freeOf = (question: Question): Settled =>
  settle(question, worldOf(question), systemOf('gypsum'), { aim: AIMS[question.objective] })!;
const kept = (question: Question, nearest = true, free = freeOf(question)) =>
  supported(question, worldOf(question), systemOf('gypsum'), free, AIMS[question.objective], nearest);
const fewest = (question: Question) =>
  fewestIngredients(question, worldOf(question), systemOf('gypsum'), freeOf(question), AIMS[question.objective]);
/** Cost of a piece with so much flour of a price to a gram of plaster. */
const costAt = (filler: number, price: number): number =>
  costOf(binderIn('casting-plaster', RATIO, filler) * (DEAR + filler * price));
/** Which flours a blend holds. */
const held = ({ grams }: Settled): number[] => grams.slice(2).flatMap((g, i) => (g > 1e-6 ? [i] : []));
const sand = (sides: { min?: number; max?: number }) => [
  { property: 'water-to-binder', max: RATIO },
  ...LOOSE,
  { property: 'sand-to-binder', ...sides },
];

describe('at most so many ingredients', () => {
  // The cheapest flour runs out at 100 g; the next is to be had as much as one likes.
  const short: Flour[] = [{ price: 0.0001, stock: 100 }, { price: 0.00015 }];

  it('leave a blend as it is that has no more', () => {
    const question = flours(short, 3);
    const free = freeOf(question);
    expect(held(free)).toEqual([0, 1]);
    expect(kept(question, true, free)).toEqual({ answer: free, free: null, tried: 0 });
    const any = flours(short, null);
    expect(kept(any, true, free)!.answer).toBe(free);
  });

  it('choose between what is cheap and what there is enough of', () => {
    const two = kept(flours(short, 2))!;
    expect(two.answer.feasible).toBe(true);
    expect(held(two.answer)).toEqual([1]);
    expect(two.answer.value).toBeCloseTo(costAt(LEANEST, 0.00015), 5);
    expect(two.free!.value).toBeLessThan(two.answer.value!);
    expect(two.tried).toBeGreaterThan(0);
    const one = kept(flours(short, 1))!;
    expect(held(one.answer)).toEqual([]);
    expect(one.answer.value).toBeCloseTo(costAt(0, 0), 5);
    // Where the dear one costs nearly what plaster does, 100 g of the cheap one are better.
    const dear = kept(flours([short[0]!, { price: 0.00099 }], 2))!;
    expect(held(dear.answer)).toEqual([0]);
    expect(dear.answer.grams[2]).toBeCloseTo(100, 3);
  });

  it('turn round where more is better', () => {
    const question = flours(short, 2, { objective: 'heaviest' });
    const { answer } = kept(question)!;
    expect(held(answer)).toHaveLength(1);
    expect(answer.value).toBeCloseTo(freeOf(flours([short[1]!], null, { objective: 'heaviest' })).value!, 3);
  });

  it('count what was asked for as one', () => {
    const asked = flours([short[0]!, short[1]!], 2, {
      doses: [{ material: 'flour-0', percent: 10, of: 'binder' }],
    });
    const answer = kept(asked)!.answer;
    // Asked for, flour 0 stays, and there is no room for another.
    expect(held(answer)).toEqual([0]);
    expect(answer.grams[2]! / answer.grams[1]!).toBeCloseTo(0.1, 6);
  });

  it('come as near as can be where so few keep nothing, if that is asked', () => {
    const question = flours(short, 1, { targets: sand({ min: 1 }) });
    expect(freeOf(question).feasible).toBe(true);
    expect(kept(question, false)).toBeNull();
    const { answer, free } = kept(question)!;
    expect(answer.feasible).toBe(false);
    expect(held(answer)).toEqual([]);
    expect(free!.feasible).toBe(true);
  });

  it('are chosen among the likeliest of a long shelf', () => {
    // Of thirty flours each but one runs out: at the end of the shelf, and neither the cheapest nor the dearest.
    const many: Flour[] = Array.from({ length: 30 }, (_v, i) =>
      i === 29 ? { price: 0.00032 } : { price: 0.0001 + 0.00002 * i, stock: 12 },
    );
    const { answer } = kept(flours(many, 2))!;
    expect(held(answer)).toEqual([29]);
    expect(answer.value).toBeCloseTo(costAt(LEANEST, 0.00032), 5);
  });
});

describe('of sets of ingredients', () => {
  const CHEAP: Flour = { price: 0.0001, stock: 100 };
  const triedOf = (list: readonly Flour[], ingredients = 2) => kept(flours(list, ingredients))!.tried;

  it('one is settled where the next is much worse by its rows', () => {
    expect(triedOf([CHEAP, { price: 0.00015 }])).toBe(1);
    expect(triedOf([CHEAP, { price: 0.00015 }, { price: 0.0002 }])).toBe(1);
  });

  it('those that are hardly worse are settled too, until three in a row bring nothing better', () => {
    const close = (n: number): Flour[] => Array.from({ length: n }, (_v, i) => ({ price: 0.00015 + 1e-7 * i }));
    expect(triedOf([CHEAP, ...close(2)])).toBe(2);
    expect(triedOf([CHEAP, ...close(3)])).toBe(3);
    expect(triedOf([CHEAP, ...close(4)])).toBe(4);
    expect(triedOf([CHEAP, ...close(6)])).toBe(4);
  });

  it('the first will do that loses next to nothing', () => {
    // What runs out at 60 g is hardly cheaper than the rest.
    const list: Flour[] = [{ price: 0.000149, stock: 60 }, { price: 0.00015 }, { price: 0.0001501 }];
    const { answer, free, tried } = kept(flours(list, 2))!;
    expect(held(free!)).toEqual([0, 1]);
    expect(held(answer)).toEqual([1]);
    expect(tried).toBe(1);
  });

  it('two are settled where none keeps everything: the nearest is looked for, not proven', () => {
    const plain = flours([{ price: 0.0001 }], 1, { targets: sand({ min: 1 }) });
    const others = ['a', 'b', 'c'].map((id): Material => ({ ...material('casting-plaster'), id }));
    const question = {
      ...plain,
      materials: [...plain.materials, ...others],
      prices: new Map([...plain.prices, ...others.map((m, i) => [m.id, DEAR * (1.1 + 0.1 * i)] as const)]),
    };
    const { answer, tried } = kept(question)!;
    expect(tried).toBe(2);
    expect(answer.feasible).toBe(false);
    expect(kept(question, false)).toBeNull();
  });
});

describe('the least dose', () => {
  it('leaves out what there is too little of, or takes another of its kind that can be weighed', () => {
    // At least 2.5 g of flour are needed; of the cheaper there are 3.
    const question = flours([{ price: 0.0001, stock: 3 }, { price: 0.0008 }], null, {
      targets: sand({ min: 0.005, max: 0.012 }),
    });
    const { answer } = kept(question)!;
    expect(answer.feasible).toBe(true);
    expect(held(answer)).toEqual([1]);
    expect(answer.grams[3]).toBeGreaterThanOrEqual(5 * (1 - WASTE) * (1 - 1e-5));
  });

  it('holds for what is chosen among too', () => {
    const tight = flours(
      [
        { price: 0.0001, stock: 100 },
        { price: 0.00012, stock: 100 },
        { price: 0.00014, stock: 100 },
      ],
      3,
      { targets: sand({ max: 0.42 }) },
    );
    const { answer } = kept(tight)!;
    expect(held(answer).length).toBeLessThanOrEqual(2);
    for (const i of held(answer)) expect(answer.grams[2 + i]).toBeGreaterThanOrEqual(5 * (1 - WASTE) * (1 - 1e-5));
  });
});

describe('the fewest ingredients', () => {
  it('are as many as it takes to keep everything', () => {
    expect(fewest(flours([{ price: 0.0001 }], null))).toBe(1);
    expect(fewest(flours([{ price: 0.0001 }], null, { targets: sand({ min: 1 }) }))).toBe(2);
    // 100 g of each to 245 g of plaster: one flour does not do for one to one.
    const scarce = [
      { price: 0.0001, stock: 150 },
      { price: 0.00012, stock: 150 },
      { price: 0.00014, stock: 150 },
    ];
    expect(fewest(flours(scarce, null, { targets: sand({ min: 1 }) }))).toBe(4);
    expect(fewest(flours(scarce, null, { targets: sand({ min: 0.6 }) }))).toBe(3);
    expect(fewest(flours(scarce, null, { targets: sand({ min: 0.2 }) }))).toBe(2);
  });

  it('are not known where nothing keeps everything', () => {
    expect(fewest(flours([{ price: 0.0001 }], null, { targets: sand({ min: 1, max: 0.9 }) }))).toBeNull();
    expect(fewest(flours([{ price: 0.0001, stock: 10 }], null, { targets: sand({ min: 1 }) }))).toBeNull();
  });

  it('count a dose that was asked for', () => {
    const doses = [{ material: 'flour-0', percent: 10, of: 'binder' as const }];
    expect(fewest(flours([{ price: 0.0001 }], null, { doses }))).toBe(2);
  });
});
