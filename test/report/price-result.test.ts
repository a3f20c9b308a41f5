import { describe, expect, it } from 'vitest';
import { priceResult } from '../../src/core/report/price-result.js';
import { type PriceResult, priceResultSchema } from '../../src/core/report/price-schema.js';
import { packsOnSale, packWords } from '../../src/core/shop/packs-on-sale.js';
import { Sum, sum } from '../../src/core/shop/sums.js';
import { briefOf, priceList, recipeOf, shopOf, shopWith } from '../support/bench-shelf.js';
import { problemsOf } from '../support/problems.js';

/** Invented recipes and costs. */
const SHOP = shopOf({
  currency: 'EUR',
  waste: '6 %',
  breakage: '8 %',
  labour: { rate: 15, minutes: 12, 'batch-minutes': 20 },
  mould: { price: 24, pours: 60 },
  packing: { cost: 0.9, weight: '120 g' },
  postage: [{ 'up-to': '500 g', price: 4.1 }],
  fee: { share: '6.5 %', each: 0.25 },
  margin: '20 %',
});
const PLASTER = {
  mould: { water: '300 mL' },
  amounts: { 'casting-plaster': '300 g', 'iron-oxide-red': '6 g', water: '200 g' },
};
const CEMENT = {
  mould: { water: '300 mL' },
  amounts: { 'portland-cement-grey': '200 g', 'masonry-sand': '400 g', water: '90 g' },
};

const packs = packsOnSale(priceList());
const price = (mixes: Parameters<typeof priceResult>[0], options = {}): PriceResult =>
  priceResultSchema.parse(priceResult(mixes, SHOP, packs, options));
const added = (amounts: readonly string[]) => sum(amounts.map((a) => new Sum(a))).toFixed(2);

describe('the price of a recipe and of a brief', () => {
  const plaster = recipeOf({ title: 'plaster', ...PLASTER }, SHOP);
  const result = price([plaster]);
  const blend = result.blends[0]!;

  it('prints lines that add up to the cost, and cost, fee and rest to the price', () => {
    expect(added(blend.lines.map((l) => l.amount))).toBe(blend.total);
    const { covering } = blend;
    expect(added([blend.total, covering.fee, covering.left])).toBe(covering.price);
    expect(blend.lines.map((l) => l.group)).toEqual([
      'materials',
      'colour',
      'mould',
      'labour',
      'failed',
      'packing',
      'postage',
    ]);
    expect(result.comparison).toBeNull();
  });

  it('counts materials just as the cost of a blend does', () => {
    for (const mixed of [plaster, briefOf(BRIEF, SHOP)]) {
      const { lines } = price([mixed]).blends[0]!;
      const materials = sum(
        lines.filter((l) => l.group === 'materials' || l.group === 'colour').map((l) => new Sum(l.exact)),
      );
      const cost = mixed.result.properties.find((p) => p.property === 'cost')!.value!;
      expect(materials.toNumber()).toBeCloseTo(cost, 6);
    }
  });

  it('posts the dry piece, not the wet one', () => {
    const dry = plaster.result.properties.find((p) => p.property === 'dry-weight')!.value!;
    expect(blend.posted!.weight).toBeCloseTo(dry + 120, 9);
    expect(blend.complete).toBe(true);
    const heavy = price([recipeOf({ ...CEMENT, mould: { water: '900 mL' } }, SHOP)]).blends[0]!;
    expect(heavy.complete).toBe(false);
    expect(heavy.gaps).toHaveLength(1);
  });

  it('tells the packs of a run, and from how many pieces the large one pays', () => {
    const choice = blend.packs.find((p) => p.material === 'casting-plaster')!;
    const grams = choice.pieceGrams;
    // 5 kg 9.80 and 25 kg 31.00: the large one is never dearer above 30 kg, and first pays above 15 kg.
    expect(choice.large).toMatchObject({
      always: Math.floor(30_000 / grams) + 1,
      first: Math.floor(15_000 / grams) + 1,
    });
    expect(choice.buy).toEqual([
      { text: grams * 100 > 30_000 ? '25 kg' : '5 kg', count: expect.any(Number) },
      ...choice.buy.slice(1),
    ]);
    expect(new Sum(choice.cost).toNumber()).toBeGreaterThan(0);
  });

  it('answers at a price the maker asks about', () => {
    const at = price([plaster], { at: '30' }).blends[0]!.at!;
    expect(added([blend.total, at.fee, at.left])).toBe('30.00');
    expect(at.fee).toBe('2.20'); // 30 x 6.5 % + 0.25
  });

  it('refuses every ingredient without a price, at once', () => {
    const odd = recipeOf(
      { amounts: { 'casting-plaster': '300 g', 'hydrated-lime': '20 g', borax: '1 g', water: '200 g' } },
      SHOP,
    );
    const problems = problemsOf(() => price([odd]));
    expect(problems.map((p) => [p.code, p.found])).toEqual([
      ['price-missing', 'hydrated-lime'],
      ['price-missing', 'borax'],
    ]);
  });

  it('prices a recipe without a mould by the batch', () => {
    expect(price([recipeOf({ amounts: PLASTER.amounts }, SHOP)]).blends[0]!.per).toBe('batch');
  });

  it('counts yen without decimals', () => {
    const shop = shopWith({ packing: { cost: '120', weight: 0 } }, { currency: 'JPY' });
    const yen = priceResultSchema.parse(priceResult([recipeOf(PLASTER, shop)], shop, packs));
    expect(yen.decimals).toBe(0);
    expect(yen.blends[0]!.total).toMatch(/^\d+$/);
  });
});

const BRIEF = {
  title: 'brief',
  mould: { water: '300 mL' },
  objective: 'cheapest',
  materials: { only: ['casting-plaster', 'limestone-flour', 'citric-acid'] },
  batch: { pieces: 5, waste: '6 %' },
};

describe('blends side by side', () => {
  const mixes = [recipeOf({ title: 'plaster', ...PLASTER }, SHOP), recipeOf({ title: 'cement', ...CEMENT }, SHOP)];

  it('lines up groups whose columns add up, and names the cheapest', () => {
    const { comparison, blends } = price(mixes, { once: ['0', '12'] });
    blends.forEach((blend, i) => {
      expect(added(comparison!.groups.map((g) => g.amounts[i]!))).toBe(blend.total);
    });
    const [a, b] = comparison!.totals.map(Number);
    expect(comparison!.cheapest).toEqual([a! <= b! ? 0 : 1]);
    expect(comparison!.once).toEqual(['0.00', '12.00']);
  });

  it('breaks even where once and gain say so', () => {
    const { comparison, blends } = price(mixes, { once: ['5', '0'] });
    const [a, b] = blends.map((x) => Number(x.exactTotal));
    const { byTheGram, wholePacks } = comparison!.pairs[0]!;
    if (a! < b!) expect(byTheGram).toEqual({ cheaper: 0, from: Math.ceil(5 / (b! - a!)), upTo: null });
    else expect(byTheGram).toEqual({ cheaper: 1, from: 1, upTo: null });
    expect(wholePacks.upTo).toBe(1000);
  });
});

describe('words of a pack', () => {
  it('takes the price off where the list gives both in one cell', () => {
    expect(['25 kg', '27.50 per 55 lb', '1.20 EUR/kg', '4.90 for 500 mL', '25 kg bag'].map(packWords)).toEqual([
      '25 kg',
      '55 lb',
      'kg',
      '500 mL',
      '25 kg bag',
    ]);
  });
});
