import { describe, expect, it } from 'vitest';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import { entryPrices } from '../../src/core/optimise/entry-prices.js';
import { AIMS, type Aim } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import type { Bound } from '../../src/core/optimise/settled.js';
import { costOf, fullMould, LOOSE, perGram, RATIO } from '../support/full-mould.js';
import { material, numberOf } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/** At what price a material that the blend does without would come in, on moulds told by hand. */

const GREY = 'portland-cement-grey';
const WHITE = 'portland-cement-white';
const PORTLAND = systemOf('portland');
const aim = (id: string, sense: 'min' | 'max'): Aim => ({ property: propertyById(id)!, sense });

function entries(question: Question, sought: Aim, unpriced: readonly Material[] = [], bounds?: readonly Bound[]) {
  const world = worldOf(question);
  const answer = settle(question, world, PORTLAND, bounds === undefined ? { aim: sought } : { aim: sought, bounds })!;
  return { answer, found: entryPrices(question, PORTLAND, answer, sought, unpriced) };
}

describe('the price at which a material enters the cheapest blend', () => {
  const even = (0.0004 * perGram(WHITE)) / perGram(GREY);

  it('is what the room it takes up is worth, and its loss what it costs above that, waste and all', () => {
    const { found } = entries(fullMould({ [GREY]: 0.0004, [WHITE]: 0.0009 }), AIMS.cheapest);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ material: WHITE, price: 0.0009, checked: true });
    expect(found[0]!.entersAt! / even).toBeCloseTo(1, 6);
    expect(found[0]!.loss / costOf(0.0009 - even)).toBeCloseTo(1, 6);
  });

  it('is told of what has no price yet, beside what has one', () => {
    const question = fullMould({ [GREY]: 0.0004, 'limestone-flour': 0.002 });
    const { found } = entries(question, AIMS.cheapest, [material(WHITE), material('slag-blend-cement')]);
    expect(found.map((e) => [e.material, e.price])).toEqual([
      ['limestone-flour', 0.002],
      [WHITE, null],
      ['slag-blend-cement', null],
    ]);
    expect(found[1]!.entersAt! / even).toBeCloseTo(1, 6);
    expect(found[1]).toMatchObject({ loss: 0, checked: true });
    // A filler that takes up room without water of its own.
    const filler = 0.0004 / perGram(GREY) / numberOf(material('limestone-flour').density);
    expect(found[0]!.entersAt! / filler).toBeCloseTo(1, 6);
    expect(found[0]!.loss / costOf(0.002 - filler)).toBeCloseTo(1, 6);
  });

  it('is not told of water, of what is in the blend, and of what the binder, the service or an empty bag bars', () => {
    const shelf = { [GREY]: 0.0004, [WHITE]: 0.0009, 'limestone-flour': 0.0001, 'casting-plaster': 0.0001 };
    const question = { ...fullMould(shelf), stock: new Map([[WHITE, 0]]) };
    const { answer, found } = entries(question, AIMS.cheapest);
    expect(answer.grams[3]).toBeGreaterThan(0);
    expect(found).toEqual([]);
    const full = { ...question, stock: new Map([[WHITE, 1000]]) };
    expect(entries(full, AIMS.cheapest).found.map((e) => e.material)).toEqual([WHITE]);
  });

  it('is not told of what would pay as it is, and is kept out by the least dose only', () => {
    const question = fullMould({ [GREY]: 0.0004, [WHITE]: 0.0009, 'limestone-flour': 0.0001 });
    const bounds = question.materials.map((m) => ({
      lower: 0,
      upper: m.id === 'limestone-flour' ? 0 : Number.POSITIVE_INFINITY,
    }));
    expect(entries(question, AIMS.cheapest, [], bounds).found.map((e) => e.material)).toEqual([WHITE]);
  });

  it('is its own price where it just breaks even', () => {
    const { answer, found } = entries(fullMould({ [GREY]: 0.0004, [WHITE]: even }), AIMS.cheapest);
    expect(found).toHaveLength(1);
    expect(found[0]!.material).toBe(answer.grams[1] === 0 ? GREY : WHITE);
    expect(found[0]!.entersAt! / found[0]!.price!).toBeCloseTo(1, 7);
    expect(found[0]!.loss).toBeLessThan(1e-9);
  });

  it('does not hold up where something else would come in first', () => {
    // With the limestone kept out, filler would pay below what its room is worth; settled anew, limestone is cheaper.
    const base = fullMould({ [GREY]: 0.0004, 'limestone-flour': 0.0001 });
    const question = {
      ...base,
      materials: [...base.materials, material('marble-flour')],
      prices: new Map([...base.prices, ['marble-flour', 0.002]]),
    };
    const bounds = question.materials.map((_m, i) => ({ lower: 0, upper: i === 2 ? 0 : Number.POSITIVE_INFINITY }));
    const { found } = entries(question, AIMS.cheapest, [], bounds);
    expect(found.map((e) => [e.material, e.checked])).toEqual([['marble-flour', false]]);
    const room = 0.0004 / perGram(GREY) / numberOf(material('marble-flour').density);
    expect(found[0]!.entersAt! / room).toBeCloseTo(1, 6);
  });

  it('is not told of a blend that is only the nearest', () => {
    const question = fullMould({ [GREY]: 0.0004, [WHITE]: 0.0009 });
    const { answer, found } = entries({ ...question, targets: [{ property: 'strength', min: 500 }] }, AIMS.cheapest);
    expect(answer.feasible).toBe(false);
    expect(found).toEqual([]);
  });

  it('is none for what would cost more even for nothing', () => {
    // The piece is to weigh at least so much: each gram of perlite asks for more cement in the water.
    const question = {
      ...fullMould({ [GREY]: 0.0004 }),
      targets: [{ property: 'water-to-binder', max: RATIO }, { property: 'fresh-density', min: 1.9 }, ...LOOSE],
      materials: ['water', GREY, 'perlite'].map(material),
      prices: new Map([
        [GREY, 0.0004],
        ['perlite', 0.0001],
      ]),
    };
    const { answer, found } = entries(question, AIMS.cheapest);
    expect(answer.feasible).toBe(true);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ material: 'perlite', entersAt: null, checked: null });
    // By a little perlite forced in, and as much less of the rest as the mould asks for.
    const forced = question.materials.map((_m, i) => ({ lower: i === 2 ? 0.5 : 0, upper: Number.POSITIVE_INFINITY }));
    const more = settle(question, worldOf(question), PORTLAND, { aim: AIMS.cheapest, bounds: forced })!;
    expect(more.grams[2]).toBeCloseTo(0.5, 3);
    expect(found[0]!.loss / ((more.value! - answer.value!) / more.grams[2]!)).toBeCloseTo(1, 2);
  });
});

describe('where money is not the objective', () => {
  it('a limit on cost gives a price, and without one there is none', () => {
    // The lightest slurry within a budget: cement and filler share the mould so that the money just does.
    const shelf = { [GREY]: 0.0008, 'limestone-flour': 0.0001, [WHITE]: 0.0012 };
    const light = aim('fresh-weight', 'min');
    const plain = fullMould(shelf);
    const budget = { ...plain, targets: [...plain.targets, { property: 'cost', max: 0.4 }] };
    const { answer, found } = entries(budget, light);
    expect(answer.grams[1]).toBeGreaterThan(10);
    expect(answer.grams[2]).toBeGreaterThan(10);
    expect(answer.grams[3]).toBe(0);
    // Duals of room and money: each of the two in the blend is worth its weight.
    const room = 1 / numberOf(material('limestone-flour').density);
    const perMoney = (1 + RATIO - perGram(GREY) / room) / (0.0008 - (0.0001 * perGram(GREY)) / room);
    const perRoom = (1 - perMoney * 0.0001) / room;
    const byHand = (1 + RATIO - perRoom * perGram(WHITE)) / perMoney;
    expect(byHand).toBeLessThan(0.0012);
    expect(found.map((e) => e.material)).toEqual([WHITE]);
    expect(found[0]!.entersAt! / byHand).toBeCloseTo(1, 5);
    expect(found[0]!.checked).toBe(true);
    expect(found[0]!.loss / (-perMoney * (0.0012 - byHand))).toBeCloseTo(1, 5);
  });

  it.each([
    ['min', 0.0008],
    ['max', 0.0008],
  ] as const)('a gram put in loses what it spoils, whichever way is better: %s', (sense, price) => {
    const question = fullMould(
      { [GREY]: price, [WHITE]: price },
      {
        targets: [{ property: 'water-to-binder', min: RATIO, max: RATIO }, ...LOOSE],
      },
    );
    const { answer, found } = entries(question, aim('fresh-weight', sense));
    const out = answer.grams[1] === 0 ? 1 : 2;
    const [mine, other] = out === 1 ? ([GREY, WHITE] as const) : ([WHITE, GREY] as const);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ material: mine, price, entersAt: null, checked: null });
    // Room it takes from the other: what that would weigh, less what this weighs.
    const byHand = Math.abs((1 + RATIO) * (1 - perGram(mine) / perGram(other)));
    expect(found[0]!.loss / byHand).toBeCloseTo(1, 5);
  });
});
