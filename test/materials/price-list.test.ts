import { describe, expect, it } from 'vitest';
import { cheapestPerGram, readPrices, stockOf } from '../../src/core/materials/price-list.js';
import type { Material } from '../../src/core/materials/schema.js';
import { materialTable } from '../../src/core/materials/table.js';
import { explain } from '../../src/core/problems/words.js';
import { problemsOf } from '../support/problems.js';
import { materials, sources } from '../support/shipped-table.js';

const figure = (value: number) => ({
  value,
  low: value,
  high: value,
  unit: 'g/cm3' as const,
  source: 'none',
  status: 'ours' as const,
});
const material = (id: string, name: string, more: Partial<Material> = {}): Material => ({
  id,
  name,
  kind: 'filler',
  density: figure(2.5),
  hazards: [],
  ...more,
});

// Invented for this test.
const table = materialTable({
  materials: [
    material('portland-grey', 'Portland cement, grey', { kind: 'cement', also: ['grey cement'] }),
    material('silica-fume', 'Silica fume', { kind: 'pozzolan', also: ['microsilica'] }),
    material('silica-sand-fine', 'Silica sand, fine', { kind: 'sand', also: ['quartz sand'] }),
    material('silica-sand-coarse', 'Silica sand, coarse', { kind: 'sand', also: ['quartz sand'] }),
    material('perlite', 'Expanded perlite', { kind: 'light-aggregate', bulkDensity: figure(0.1) }),
    material('acrylic-emulsion', 'Acrylic emulsion', {
      kind: 'polymer',
      density: figure(1.05),
      solids: { ...figure(0.47), unit: 'g/g' },
    }),
  ],
  sources: {},
});
const read = (text: string, currency?: string) =>
  readPrices(text, 'prices.csv', table, currency === undefined ? {} : { currency });
const refused = (text: string, currency?: string) =>
  problemsOf(() => read(text, currency)).map(({ code, where, nearest }) => [code, where?.line, nearest]);

describe('a price list', () => {
  const text = [
    '# invented prices',
    'material;pack;price;currency;in stock;note',
    'portland-grey;25 kg;9,50;EUR;1 1/2 packs;',
    'Grey Cement;5 kg;4,20;EUR;1 kg;small bag',
    'microsilica;2.2 lb;6,00;EUR;300 g;',
    'perlite;10 L;7,90;EUR;5 L;',
    'acrylic emulsion;500 mL;4,90;EUR;0;',
  ].join('\n');

  it('is joined to the table by id, name or another word, and keeps every pack', () => {
    const list = read(text);
    expect(list.currency).toBe('EUR');
    expect(list.problems).toEqual([]);
    expect(list.offers.map((offer) => [offer.material.id, offer.amount, offer.pack, offer.where.line])).toEqual([
      ['portland-grey', '9.5', { grams: 25000 }, 3],
      ['portland-grey', '4.2', { grams: 5000 }, 4],
      ['silica-fume', '6', { grams: 997.903214 }, 5],
      ['perlite', '7.9', { cm3: 10000 }, 6],
      ['acrylic-emulsion', '4.9', { cm3: 500 }, 7],
    ]);
    expect(list.offers[1]).toMatchObject({ note: 'small bag', packText: '5 kg' });
  });

  it('gives the cheapest pack per gram; grains by the litre go by loose density, liquids by their own', () => {
    const best = cheapestPerGram(read(text));
    expect(best.get('portland-grey')!.perGram).toBeCloseTo(9.5 / 25000, 15);
    expect(best.get('portland-grey')!.offer.packText).toBe('25 kg');
    expect(best.get('perlite')!.perGram).toBeCloseTo(7.9 / 1000, 15);
    expect(best.get('acrylic-emulsion')!.perGram).toBeCloseTo(4.9 / 525, 15);
  });

  it('adds up what is on hand, where it says', () => {
    expect(Object.fromEntries(stockOf(read(text)))).toEqual({
      'portland-grey': 38500,
      'silica-fume': 300,
      perlite: 500,
      'acrylic-emulsion': 0,
    });
  });

  it('takes other column orders and headings, and the pack behind the price', () => {
    const list = read('Price,Item\n"27.50 per 55 lb",perlite\n1.20 EUR/kg,silica fume\n', 'EUR');
    expect(list.offers.map((offer) => [offer.material.id, offer.amount, offer.currency])).toEqual([
      ['perlite', '27.5', 'EUR'],
      ['silica-fume', '1.2', 'EUR'],
    ]);
  });

  it('a price of zero is a warning: it counts as free', () => {
    const list = read('material,pack,price\nperlite,10 L,0\n');
    expect(list.problems).toMatchObject([{ code: 'price-free', severity: 'warning', where: { line: 2 } }]);
    // One thing said, and not that it must be more.
    expect(explain(list.problems[0]!)).toBe(
      'prices.csv line 2, price: what has a price of zero counts as free: found “0”. If perlite is not free, write what a pack of it costs, or take the row out.',
    );
    expect(cheapestPerGram(list).get('perlite')!.perGram).toBe(0);
  });
});

describe('what is refused', () => {
  it('every bad row at once, each with its line and the nearest word', () => {
    const text = [
      'material,pack,price,currency,in stock',
      'silca fume,1 kg,5,EUR,',
      'quartz sand,25 kg,5,EUR,',
      'perlite,10 L,-7,EUR,',
      'perlite,0 L,7,EUR,',
      'perlite,10 cm,7,EUR,2',
      'silica-fume,1 kg,"1,234",EUR,',
      'portland-grey,25 kg,,EUR,',
      'portland-grey,25 kg,9,EUR,',
      'grey cement,25000 g,8,EUR,',
      '=cmd(),1 kg,5,EUR,',
      'constructor,1 kg,5,EUR,',
    ].join('\n');
    expect(refused(text)).toEqual([
      ['material-unknown', 2, 'silica-fume'],
      ['material-ambiguous', 3, undefined],
      ['field-out-of-range', 4, undefined],
      ['amount-not-positive', 5, undefined],
      ['unit-wrong-kind', 6, undefined],
      ['quantity-unreadable', 6, undefined],
      ['quantity-ambiguous', 7, undefined],
      ['field-missing', 8, undefined],
      ['material-unknown', 11, undefined],
      ['material-unknown', 12, undefined],
      ['price-duplicate', 10, undefined],
    ]);
  });

  it('a list full of mistakes, given up after a hundred', () => {
    const wrong = `material,pack,price\n${'silca fume,1 kg,5\n'.repeat(19_000)}`;
    expect(refused(wrong)).toHaveLength(100);
    expect(
      refused(
        `material,pack,price,in stock\nperlite,${' '.repeat(1000)}1 L${' '.repeat(500_000)}-x,5,${'9'.repeat(500_000)}\n`,
      ),
    ).toEqual([
      ['quantity-unreadable', 2, undefined],
      ['quantity-unreadable', 2, undefined],
    ]);
  });

  it('two currencies in one list, or another than the shop’s', () => {
    expect(refused('material,pack,price,currency\nperlite,1 L,5,EUR\nsilica-fume,1 kg,5,USD\n')).toEqual([
      ['currency-mixed', undefined, undefined],
    ]);
    expect(refused('material,pack,price\nperlite,1 L,$5\n', 'EUR')).toEqual([['currency-mixed', 2, undefined]]);
    expect(refused('material,price,currency\nperlite,5 per 1 L,EUR\n', 'USD')).toEqual([
      ['currency-mixed', 2, undefined],
    ]);
    expect(refused('material,pack,price,currency\nperlite,1 L,5,EUR\n', 'USD')).toEqual([
      ['currency-mixed', 2, undefined],
    ]);
  });

  it('a decimal comma that splits a row, with what to do', () => {
    const [problem] = problemsOf(() => read('material,pack,price\nperlite,10 L,7,90\n'));
    expect(explain(problem!)).toBe(
      'prices.csv line 2: this row of the table cannot be read. This row has 4 cells, the first row has 3; put a cell that holds “,” in double quotes.',
    );
  });

  it('a pack by volume of a powder without a loose density, but only when cost is asked for', () => {
    const list = read('material,pack,price\nsilica-fume,1 L,5\n');
    expect(problemsOf(() => cheapestPerGram(list))).toMatchObject([
      { code: 'material-density-missing', where: { file: 'prices.csv', line: 2 } },
    ]);
  });

  it('takes a liquid without water by its own volume: a litre of defoamer weighs what its density says', () => {
    const shipped = materialTable({ materials, sources });
    const list = readPrices('material,pack,price\nliquid defoamer,1 L,9.50\n', 'prices.csv', shipped);
    expect(cheapestPerGram(list).get('defoamer')?.perGram).toBeCloseTo(9.5 / 950, 12);
  });
});
