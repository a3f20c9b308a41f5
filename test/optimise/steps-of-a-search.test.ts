import { describe, expect, it } from 'vitest';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { IDENTITY, type Property, propertyValue } from '../../src/core/blend/property.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import type { Target } from '../../src/core/blend/target.js';
import { worldOf } from '../../src/core/blend/world.js';
import { AGREE } from '../../src/core/optimise/miss.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { distance, filling, searchOf } from '../../src/core/optimise/search-ground.js';
import type { Bound, SettleOptions } from '../../src/core/optimise/settled.js';
import { binderIn, costOf, fullMould, LEANEST, LOOSE, perGram, RATIO, VOLUME, WASTE } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/** Judgements and steps of a search on a shelf of water, plaster and limestone flour: every blend can be told by hand. */

const DEAR = 0.001;
const CHEAP = 0.0001;
const question = fullMould({ 'casting-plaster': DEAR, 'limestone-flour': CHEAP });
const search = (asked: Question = question, options: Partial<SettleOptions> = {}, system = 'gypsum') =>
  searchOf(asked, worldOf(asked), systemOf(system), { aim: AIMS[asked.objective], ...options });
/** A full mould of plaster with so much water and limestone flour to a gram of it. */
const piece = (ratio = RATIO, filler = 0): number[] => {
  const plaster = binderIn('casting-plaster', ratio, filler);
  return [ratio * plaster, plaster, filler * plaster];
};
const near = (grams: readonly number[]) => grams.map((g) => expect.closeTo(g, 6));
const total = (grams: readonly number[]) => grams.reduce((s, g) => s + g, 0);

describe('a search judges a blend', () => {
  it('by what it costs, and by its limits in shares of each', () => {
    const blend = search().judge(piece());
    expect(blend.miss).toBe(0);
    expect(blend.value).toBeCloseTo(costOf(DEAR * piece()[1]!), 9);
    expect(blend.grams).toEqual(piece());
    expect(blend.state.grams).toEqual(piece());
    // Water to plaster at 0.66 of at most 0.6: a tenth.
    expect(search().judge(piece(0.66)).miss).toBeCloseTo(0.1 - AGREE, 9);
    // A standing limit counts as well: 3.3 of filler to binder, of at most 3.
    expect(search().judge(piece(RATIO, 3.3)).miss).toBeCloseTo(0.1 - AGREE, 9);
  });

  it('by limits drawn in as far as it is told to', () => {
    const limits: Target[] = [
      { property: 'water-to-binder', min: 0.4, max: 0.6 },
      { property: 'fresh-volume', max: 1000 },
      ...LOOSE,
    ];
    const drawn = (key: string, by: number) =>
      search({ ...question, targets: limits }, { tighten: new Map([[key, by]]) });
    expect(drawn('water-to-binder max', 0.1).judge(piece(0.55)).miss).toBeCloseTo(0.05 / 0.5 - AGREE, 9);
    expect(drawn('water-to-binder max', 0.1).judge(piece(0.45)).miss).toBe(0);
    expect(drawn('water-to-binder min', 0.1).judge(piece(0.45)).miss).toBeCloseTo(0.05 / 0.6 - AGREE, 9);
    expect(drawn('water-to-binder min', 0.1).judge(piece(0.55)).miss).toBe(0);
    // 500 cm³ of at most 400: nothing is asked of the other side.
    expect(drawn('fresh-volume max', 600).judge(piece(0.55)).miss).toBeCloseTo(100 / 400 - AGREE, 6);
  });

  it('by what it takes beyond what is on hand, in shares of that', () => {
    const [, plaster] = piece();
    const stocked = (grams: number) =>
      search({ ...question, stock: new Map([['casting-plaster', grams / (1 - WASTE)]]) });
    expect(stocked(plaster! / 1.5).judge(piece()).miss).toBeCloseTo(0.5, 9);
    expect(stocked(plaster! / (1 + 0.5 * AGREE)).judge(piece()).miss).toBe(0);
    expect(stocked(plaster! / (1 + 2 * AGREE)).judge(piece()).miss).toBeCloseTo(2 * AGREE, 9);
    expect(stocked(2 * plaster!).judge(piece()).miss).toBe(0);
    // And that on top of a limit that it breaks.
    expect(stocked(piece(0.66)[1]! / 1.5).judge(piece(0.66)).miss).toBeCloseTo(0.6 - AGREE, 9);
    // What may not be used at all has no share of itself to be over by.
    expect(stocked(0).judge(piece()).miss).toBe(0);
    expect(stocked(0).judge([0, 0, 0]).miss).toBeGreaterThan(0);
  });

  it('by what it falls short of what it is held to, in shares of that', () => {
    const [, plaster] = piece();
    const least = (lower: number) => search(question, { bounds: [0, lower, 0].map((l) => ({ lower: l, upper: 1e9 })) });
    expect(least(2 * plaster!).judge(piece()).miss).toBeCloseTo(0.5, 9);
    expect(least(plaster! / (1 - 0.5 * AGREE)).judge(piece()).miss).toBe(0);
    expect(least(plaster! / (1 - 2 * AGREE)).judge(piece()).miss).toBeCloseTo(2 * AGREE, 9);
    expect(least(0.5 * plaster!).judge(piece()).miss).toBe(0);
  });
});

describe('a search is open', () => {
  it('to what is on hand, and within bounds that only narrow that', () => {
    const stock = new Map([['limestone-flour', 100 / (1 - WASTE)]]);
    expect(search({ ...question, stock }).columns.map((c) => c.upper)).toEqual([
      Number.POSITIVE_INFINITY,
      Number.POSITIVE_INFINITY,
      expect.closeTo(100, 9),
    ]);
    const bounds: Bound[] = [
      { lower: 0, upper: Number.POSITIVE_INFINITY },
      { lower: 20, upper: 300 },
      { lower: 120, upper: 150 },
    ];
    expect(search({ ...question, stock }, { bounds }).columns).toEqual([
      { name: 'water', lower: 0, upper: Number.POSITIVE_INFINITY },
      { name: 'casting-plaster', lower: 20, upper: 300 },
      // More is asked for than there is: as much as there is.
      { name: 'limestone-flour', lower: expect.closeTo(100, 9), upper: expect.closeTo(100, 9) },
    ]);
  });
});

describe('a free step', () => {
  it('jumps to the optimum of the rows, which here hold everywhere', () => {
    expect(search().step(piece(), null, null)).toEqual(near(piece(RATIO, LEANEST)));
    // Among some materials only, to the best of these.
    expect(search().step(piece(0.3), null, [true, true, false])).toEqual(near(piece()));
  });

  it('comes as near as can be where the limits contradict each other, and nowhere where the mould cannot be filled', () => {
    const torn = { ...question, targets: [...question.targets, { property: 'water-to-binder', min: 0.9 }] };
    const nearest = search(torn).step(piece(), null, null)!;
    const [water, plaster] = nearest;
    expect(nearest).toHaveLength(3);
    expect(water! / plaster!).toBeGreaterThanOrEqual(RATIO - 1e-6);
    expect(water! / plaster!).toBeLessThanOrEqual(0.9 + 1e-6);
    const short = { ...question, stock: new Map(question.materials.map((m) => [m.id, 5])) };
    expect(search(short).step(piece(), null, null)).toBeNull();
  });

  it('goes for a ratio itself, where a step within reach goes by its slope', () => {
    // To a gram of water 10 - filler/water + 0.01 plaster/water: best with next to no water, which is little in all.
    const property: Property = {
      ...propertyById('water-to-binder')!,
      stateless: true,
      form: () => ({ numerator: [10, 0.01, -1], denominator: [1, 0, 0], link: IDENTITY }),
    };
    const made = search(question, { aim: { property, sense: 'max' } });
    // The limit on flow leaves 0.05 of the demand of plaster, 0.68.
    expect(made.step(piece(RATIO, 2), null, null)).toEqual(near(piece(0.034)));
    expect(made.step(piece(RATIO, 2), 10, null)).toEqual(near(piece(RATIO)));
  });
});

describe('a step within reach', () => {
  it('moves each material by that share of the mass at most, up and down', () => {
    const from = piece();
    const [water, plaster, filler] = search().step(from, 0.05, null)!;
    expect(filler).toBeCloseTo(0.05 * total(from), 6);
    expect(water! / plaster!).toBeCloseTo(RATIO, 9);
    // Where flour is the dearer of the two it goes, as far down.
    const dear = fullMould({ 'casting-plaster': CHEAP, 'limestone-flour': DEAR });
    const lean = piece(RATIO, 1);
    expect(search(dear).step(lean, 0.05, null)![2]).toBeCloseTo(lean[2]! - 0.05 * total(lean), 6);
    expect(search(dear).step(piece(RATIO, 0.01), 0.05, null)![2]).toBe(0);
  });

  it('moves what is dosed by that share of its usual dose, or of what is there where that is more', () => {
    // Colour for nothing takes up room that plaster would cost: usual is 4 % of the binder.
    const plain = fullMould({ 'casting-plaster': DEAR });
    const asked: Question = {
      ...plain,
      materials: [...plain.materials, material('iron-oxide-red')],
      prices: new Map([...plain.prices, ['iron-oxide-red', 0]]),
    };
    const from = piece();
    const first = search(asked).step(from, 0.05, null)!;
    expect(first[2]).toBeCloseTo(0.05 * 0.04 * from[1]!, 6);
    const coloured = filling(worldOf(asked), [from[0]!, from[1]!, 0.05 * from[1]!], VOLUME);
    const next = search(asked).step(coloured, 0.05, null)!;
    expect(next[2]).toBeCloseTo(1.05 * coloured[2]!, 6);
  });

  it('stays within what is on hand, also from a blend that a hair of it is missing for', () => {
    const stock = new Map([['limestone-flour', 20 / (1 - WASTE)]]);
    expect(search({ ...question, stock }).step(piece(), 0.05, null)![2]).toBeCloseTo(20, 6);
    // A full mould with 20.16 g of flour.
    const flour = perGram('casting-plaster', RATIO, 1) - perGram('casting-plaster');
    const less = piece()[1]! - (20.16 * flour) / perGram('casting-plaster');
    const over = [RATIO * less, less, 20.16];
    const [, , back] = search({ ...question, stock }).step(over, 1.5e-4, null)!;
    expect(over[2]! - back!).toBeGreaterThan(1.5e-4 * total(over));
    expect(back).toBeCloseTo(20, 6);
    const bounds: Bound[] = [0, 0, over[2]! + 0.15].map((lower) => ({ lower, upper: Number.POSITIVE_INFINITY }));
    expect(search(question, { bounds }).step(over, 1.5e-4, null)![2]).toBeCloseTo(over[2]! + 0.15, 6);
  });

  it('sees what opens to it, though it looked from the same blend before', () => {
    const from = piece(0.5);
    const world = worldOf(question);
    const { value } = propertyValue(propertyById('strength')!, world, stateOf(world, from));
    const strong = { ...question, targets: [LOOSE[0]!, { property: 'strength', min: 0.98 * value! }] };
    const one = search(strong);
    const barred = one.step(from, 0.05, [true, true, false])!;
    const free = search(strong).step(from, 0.05, null)!;
    expect(barred[2]).toBe(0);
    expect(free[2]).toBeGreaterThan(1);
    expect(one.step(from, 0.05, null)).toEqual(free);
    expect(one.step(from, 0.05, [true, true, false])).toEqual(barred);
  });
});

describe('filling the mould', () => {
  it('scales a blend to it, and leaves nothing as it is', () => {
    const world = worldOf(question);
    expect(
      filling(
        world,
        piece().map((g) => g / 4),
        VOLUME,
      ),
    ).toEqual(near(piece()));
    expect(filling(world, [0, 0, 0], VOLUME)).toEqual([0, 0, 0]);
  });
});

describe('the distance of two blends', () => {
  it('is the most that a material differs, in shares of the first’s mass', () => {
    expect(distance([10, 30], [10, 30])).toBe(0);
    expect(distance([10, 30], [12, 20])).toBe(0.25);
    expect(distance([10, 30], [30, 35])).toBe(0.5);
    expect(distance([1, 0], [0, 0])).toBe(1);
    expect(distance([0, 0], [1, 0])).toBeCloseTo(1e9, 3);
  });
});
