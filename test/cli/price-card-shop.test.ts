import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { shopSchema } from '../../src/core/brief/schema.js';
import { cardResultSchema } from '../../src/core/report/card-schema.js';
import { priceResultSchema } from '../../src/core/report/price-schema.js';
import { shopPricesResultSchema } from '../../src/core/report/shop-schema.js';
import { shopTemplate } from '../../src/core/shop/shop-template.js';
import { shopOf } from '../support/bench-shelf.js';
import { folderOf, said, spawned } from '../support/cli.js';

/** Invented shop. The price list has its own column order, semicolons and decimal commas, as a spreadsheet may save it. */
const SHOP = `invented: true
currency: EUR
prices: prices.csv
scale: { step: 1 g, fine: { step: 0.1 g, most: 100 g } }
bowl: 2 kg
waste: 5 %
labour: { rate: 15, minutes: 12, batch-minutes: 20 }
mould: { price: 24, pours: 60 }
packing: { cost: 0.90, weight: 120 g }
postage: [{ up-to: 500 g, price: 4.10 }, { up-to: 1 kg, price: 5.49 }]
fee: { share: 6.5 %, each: 0.25 }
margin: 20 %
`;
const PRICES = `Price;Material;Pack size;Notes
9,80;casting-plaster;5 kg;=HYPERLINK("x")
31,00;casting-plaster;25 kg;
8,90;portland-cement-grey;25 kg;
4,30;masonry-sand;25 kg;
9,50;iron-oxide-red;1 kg;
`;
const PLASTER = `title: Plaster dish
invented: true
shop: shop.yaml
mould: { water: 250 mL }
amounts: { casting-plaster: 250 g, iron-oxide-red: 5 g, water: 170 g }
`;
const CEMENT = `title: Cement dish
invented: true
shop: shop.yaml
mould: { water: 250 mL }
amounts: { portland-cement-grey: 170 g, masonry-sand: 320 g, water: 80 g }
`;
const BRIEF = `title: Cheap dish
invented: true
shop: shop.yaml
mould: { water: 250 mL }
objective: cheapest
materials: { only: [casting-plaster] }
batch: { pieces: 4 }
`;
const FILES = {
  'shop.yaml': SHOP,
  'prices.csv': PRICES,
  'plaster.yaml': PLASTER,
  'cement.yaml': CEMENT,
  'brief.yaml': BRIEF,
};

const bench = folderOf(FILES);
const at = (name: string) => join(bench, name);
const json = async (argv: readonly string[]) => JSON.parse((await said([...argv, '--json'])).out);

describe('price on the command line', () => {
  it('prices a recipe: lines, total, price, packs', async () => {
    const { code, out } = await said(['price', at('plaster.yaml'), '--at', '25']);
    expect(code).toBe(0);
    for (const word of [
      'COST OF ONE PIECE',
      'beta casting plaster',
      'red iron oxide (colour)',
      'your work',
      'covers everything',
      'as asked',
      'WHAT SAVES MOST',
      'PACKS for 100 pieces',
    ]) {
      expect(out).toContain(word);
    }
    const lines = [...out.matchAll(/^ {2}\S.*? (\d+\.\d\d)$/gm)].map((m) => Math.round(100 * Number(m[1])));
    const total = /^ {2}cost +(\d+\.\d\d) EUR$/m.exec(out)![1];
    expect(lines.length).toBeGreaterThan(5);
    expect(lines.reduce((a, b) => a + b, 0)).toBe(Math.round(100 * Number(total)));
  });

  it('prints one documented JSON object, for a brief too, and several files side by side', async () => {
    const one = priceResultSchema.parse(await json(['price', at('brief.yaml'), '--pieces', '40']));
    expect(one).toMatchObject({ format: 'pourwright.price/1', currency: 'EUR', run: 40, comparison: null });
    expect(one.blends[0]!.batchPieces).toBe(4);
    const two = priceResultSchema.parse(
      await json(['price', at('plaster.yaml'), at('cement.yaml'), '--once', '0', '15']),
    );
    expect(two.comparison!.pairs).toHaveLength(1);
    const { out } = await said(['price', at('plaster.yaml'), at('cement.yaml'), '--once', '0', '15']);
    expect(out).toContain('SIDE BY SIDE');
    expect(out).toMatch(/is the cheaper from/);
  });

  it('says where one was the cheaper before, and which is for the run', async () => {
    const words = async (once: string, run: string): Promise<string> => {
      const both = ['price', at('plaster.yaml'), at('cement.yaml'), '--once', once, '0', '--pieces', run];
      const { comparison } = priceResultSchema.parse(await json(both));
      const { from, first, atRun } = comparison!.pairs[0]!.wholePacks;
      expect(atRun).toBe(Number(run) < from! && (first === null || Number(run) < first) ? 1 : 0);
      const told = (await said(both)).out.replace(/\s+/g, ' ').match(/empty shelf: (.*?\.)/)![1]!;
      expect(told).toContain(`from ${from} pieces on`);
      return told;
    };
    expect(await words('15', '30')).toBe(
      '“Plaster dish” is the cheaper for good from 23 pieces on, now and then from 16; for 30 pieces too (looked at up to 300 pieces).',
    );
    expect(await words('40', '30')).toBe(
      '“Plaster dish” is the cheaper for good from 48 pieces on, now and then from 41; for 30 pieces “Cement dish” is (looked at up to 300 pieces).',
    );
    expect(await words('10', '30')).toBe(
      '“Plaster dish” is the cheaper from 12 pieces on (looked at up to 300 pieces).',
    );
  });

  it('ends with 1 where something cannot be counted, and says what', async () => {
    const folder = folderOf({
      ...FILES,
      'shop.yaml': SHOP.replace(', { up-to: 1 kg, price: 5.49 }', '').replace('500 g', '200 g'),
    });
    const { code, out } = await said(['price', join(folder, 'plaster.yaml')]);
    expect(code).toBe(1);
    expect(out).toContain('NOT COUNTED postage: the parcel is heavier');
  });

  it('ends with 1 where a blend misses what is asked of it, and names that', async () => {
    const folder = folderOf({ ...FILES, 'heavy.yaml': `${PLASTER}targets: { dry-weight: { max: 100 g } }\n` });
    const { code, out } = await said(['price', join(folder, 'heavy.yaml')]);
    expect(code).toBe(1);
    expect(out.replace(/\s+/g, ' ')).toContain('misses what is asked of it. Missed: dry weight; its own sheet tells');
    const light = folderOf({ ...FILES, 'light.yaml': `${PLASTER}targets: { dry-weight: { max: 900 g } }\n` });
    const kept = await said(['price', join(light, 'light.yaml')]);
    expect([kept.code, kept.out.includes('misses')]).toEqual([0, false]);
  });

  it.each([
    [['price', 'plaster.yaml', '--at', 'plenty'], 'expected a price'],
    [['price', 'plaster.yaml', '--at', '25 GBP'], 'more than one currency'],
    [['price', 'plaster.yaml', '--pieces', '0'], 'a whole number from 1'],
    [['price', 'plaster.yaml', 'cement.yaml', '--once', '5'], 'one sum for each of the 2 files'],
    [['price', 'nothing.yaml'], 'there is no such file'],
    [['price', 'plaster.yaml', '--prices', 'plaster.yaml'], ''],
  ])('refuses %j', async (argv, words) => {
    const { code, err, out } = await said(argv.map((a) => (a.endsWith('.yaml') ? at(a) : a)));
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(out).toBe('');
  });

  it('prices the others where one has an ingredient without a price, and says which and what helps', async () => {
    const folder = folderOf({
      ...FILES,
      'limed.yaml': CEMENT.replace('amounts: {', 'amounts: { hydrated-lime: 20 g,'),
      'light.yaml':
        'shop: shop.yaml\ntitle: Light\nmould: { water: 250 mL }\nobjective: lightest\nmaterials: { only: [casting-plaster, pumice] }\ndoses: { pumice: 30 % of binder }\n',
    });
    const files = ['plaster.yaml', 'limed.yaml', 'light.yaml', 'cement.yaml'].map((name) => join(folder, name));
    const { code, out, err } = await said([
      'price',
      ...files,
      '--once',
      '0',
      '--once',
      '1',
      '--once',
      '2',
      '--once',
      '3',
    ]);
    expect(err).toBe('');
    expect(code).toBe(1);
    const flat = out.replace(/\s+/g, ' ');
    expect(flat).toContain('limed.yaml: a cost is asked for, and this material has no price: found “hydrated-lime”');
    expect(flat).toMatch(
      /NOT PRICED \S*light\.yaml: .* found “pumice”, expected a row for it in the price list\. Or bar it in the brief: “materials: \{ never: \[pumice\] \}”/,
    );
    expect(flat).toContain('once, before the first 0.00 EUR 3.00 EUR');
    const { blends, unpriced } = priceResultSchema.parse(JSON.parse((await said(['price', ...files, '--json'])).out));
    expect(blends).toHaveLength(2);
    expect(unpriced!.map((u) => u.index)).toEqual([1, 2]);
    const alone = await said(['price', files[2]!]);
    expect(alone.code).toBe(2);
    expect(alone.err).toMatch(/light\.yaml: .*pumice.*never/);
  });

  it('names every ingredient that has no price, and files of two shops', async () => {
    const folder = folderOf({
      ...FILES,
      'prices.csv': 'material,pack,price\nmasonry-sand,25 kg,4.30\n',
      'other.yaml': SHOP,
    });
    const { code, err } = await said(['price', join(folder, 'plaster.yaml')]);
    expect(code).toBe(2);
    expect(err).toContain('casting-plaster');
    expect(err).toContain('iron-oxide-red');
    writeFileSync(at('odd.yaml'), PLASTER.replace('shop: shop.yaml\n', ''));
    const two = await said(['price', at('plaster.yaml'), at('odd.yaml')]);
    expect(two.code).toBe(2);
    expect(two.err).toContain('--shop');
  });
});

describe('card on the command line', () => {
  it('prints what to weigh, in what order, with clock, blanks and every caution', async () => {
    const { code, out } = await said(['card', at('plaster.yaml'), '--pieces', '9']);
    expect(code).toBe(0);
    for (const word of [
      'mixing bowl: Water first.',
      'dry tub:',
      'scale reads',
      'MIX AND POUR',
      'Sift the powder',
      'pour by',
      'WRITE DOWN',
      'weight at demoulding ',
      'CAUTIONS',
      'In an eye:',
      'safety data sheet',
    ]) {
      expect(out).toContain(word);
    }
    expect(out).toMatch(/Make \d bowls alike/);
  });

  it('fills as many moulds as assess tells of the same recipe, and says that waste is taken off', async () => {
    const told = (await said(['assess', at('plaster.yaml')])).out.match(/fills ([\d.]+ moulds?), 5 % waste taken off/);
    expect(told).not.toBeNull();
    const words = `a bowl fills ${told![1]} of 250 mL, 5 % waste taken off`;
    expect((await said(['card', at('plaster.yaml')])).out.replace(/\s+/g, ' ')).toContain(words);
    await said(['card', at('plaster.yaml'), '--html', at('fills.html')]);
    expect(readFileSync(at('fills.html'), 'utf8')).toContain(words);
    // By what waste is: 5 % of the mix fills nothing. JSON has both, and the card the same.
    const [assessed, card] = [await json(['assess', at('plaster.yaml')]), await json(['card', at('plaster.yaml')])];
    expect(assessed.batch.pieces).toBeCloseTo(0.95 * assessed.fills, 9);
    expect(Number(assessed.batch.pieces.toPrecision(3))).toBe(Number.parseFloat(told![1]!));
    expect(card.bowls).toMatchObject({ waste: 0.05, pieces: assessed.batch.pieces * (1 / card.bowls.count) });
  });

  it('tells what the scoops are where there is room for them, and only there', async () => {
    const [wide, narrow] = await Promise.all(
      [80, 70].map((columns) => said(['card', at('plaster.yaml')], '', { columns })),
    );
    expect(wide!.out).toContain('Last column: scoops of 100 mL');
    expect(narrow!.out).toContain('scale reads');
    expect(narrow!.out).not.toContain('scoops');
  });

  it('prints one documented JSON object', async () => {
    const card = cardResultSchema.parse(await json(['card', at('cement.yaml'), '--bowl', '300 g']));
    expect(card).toMatchObject({ format: 'pourwright.card/1', bowls: { count: 2, limit: '300 g' } });
  });

  it('writes a page to print, and only into a file that is one', async () => {
    const { code, out, err } = await said(['card', at('plaster.yaml'), '--html', at('card.html'), '--paper', 'letter']);
    expect([code, out]).toEqual([0, '']);
    expect(err).toContain('wrote');
    const html = readFileSync(at('card.html'), 'utf8');
    expect(html).toMatch(/^<!doctype html>/);
    expect(html).toContain('@page{size:letter');
    const wrong = await said(['card', at('plaster.yaml'), '--html', at('cement.yaml')]);
    expect(wrong.code).toBe(2);
    expect(readFileSync(at('cement.yaml'), 'utf8')).toBe(CEMENT);
  });

  it.each([
    [['card', 'plaster.yaml', '--bowl', '3 min'], 'a mass or a volume'],
    [['card', 'plaster.yaml', '--pieces', '1.5'], 'a whole number'],
    [['card', 'plaster.yaml', '--html', '/no/such/folder/x.html'], 'There is no such folder'],
    [['card', 'plaster.yaml', '--paper', 'a5'], 'a4, letter'],
  ])('refuses %j', async (argv, words) => {
    const { code, err } = await said(argv.map((a) => (a.endsWith('.yaml') ? at(a) : a)));
    expect(code).toBe(2);
    expect(err).toContain(words);
  });

  it('asks for a mould before it counts pieces', async () => {
    writeFileSync(at('loose.yaml'), PLASTER.replace('mould: { water: 250 mL }\n', ''));
    const { code, err } = await said(['card', at('loose.yaml'), '--pieces', '3']);
    expect(code).toBe(2);
    expect(err).toContain('a mould in the recipe');
    expect((await said(['card', at('loose.yaml')])).code).toBe(0);
  });
});

describe('shop on the command line', () => {
  /** Takes the # off every line that holds a setting, leaving the prose. */
  const uncommented = (text: string): string => text.replace(/^( *)# ?((?: {2,}- \{|(?: {2})?[a-z-]+:).*)$/gm, '$1$2');

  it.each(['metric', 'us'] as const)(
    'writes a file (%s) that reads as it is, and with every line switched on',
    (units) => {
      const text = shopTemplate(units);
      expect(shopOf(parse(text))).toMatchObject({ units, costs: { labour: null, margin: 0 } });
      const full = shopSchema.parse(parse(uncommented(text)));
      expect(Object.keys(full).sort()).toEqual(
        [...Object.keys(shopSchema.shape)].filter((k) => !NOT_IN_TEMPLATE.has(k)).sort(),
      );
      const { costs, bowl, scale } = shopOf(full);
      expect(costs.postage).toHaveLength(3);
      expect(bowl).not.toBeNull();
      expect(scale.fine).not.toBeNull();
      expect(costs.sealer).not.toBeNull();
    },
  );

  it('never touches a file that is there', async () => {
    const folder = folderOf({});
    const file = join(folder, 'shop.yaml');
    expect((await said(['shop', 'init', file])).code).toBe(0);
    const written = readFileSync(file, 'utf8');
    const again = await said(['shop', 'init', file, '--units', 'us']);
    expect(again.code).toBe(2);
    expect(again.err).toContain('left as it is');
    expect(readFileSync(file, 'utf8')).toBe(written);
    const odd = await said(['shop', 'init', join(folder, 'prices.csv')]);
    expect(odd.code).toBe(2);
    expect(existsSync(join(folder, 'prices.csv'))).toBe(false);
  });

  it('checks a shop and says what a price will not count', async () => {
    const { code, out } = await said(['shop', 'check', at('shop.yaml')]);
    expect(code).toBe(0);
    expect(out).toContain('5 packs of 4 materials');
    expect(out).toContain('will not count: sealer, pieces that fail (breakage).');
    const wrong = folderOf({ 'shop.yaml': SHOP.replace('rate: 15', 'rtae: 15') });
    const { code: bad, err } = await said(['shop', 'check', join(wrong, 'shop.yaml')]);
    expect(bad).toBe(2);
    expect(err).toContain('Did you mean “rate”');
    expect((await said(['shop', 'chek'])).err).toContain('Did you mean “check”');
  });

  it('exports prices that no spreadsheet runs, and reads them back the same', async () => {
    const { code, out } = await said(['shop', 'prices', at('shop.yaml')]);
    expect(code).toBe(0);
    expect(out.split('\n')[0]).toBe('material,called,pack,price,currency,price per kg,in stock,note');
    expect(out).toContain('casting-plaster,beta casting plaster,5 kg,9.8,EUR,1.96,');
    for (const cell of out.split(/[\n,]/)) expect(cell).not.toMatch(/^"?[=+@]/);
    expect(out).toContain(`'=HYPERLINK`);
    const to = at('export.csv');
    expect((await said(['shop', 'prices', at('shop.yaml'), '--csv', to])).code).toBe(0);
    expect((await said(['shop', 'prices', at('shop.yaml'), '--csv', to])).code).toBe(2);
    const again = await said(['shop', 'prices', at('shop.yaml'), '--prices', to]);
    expect(again.out).toBe(out);
    const asJson = shopPricesResultSchema.parse(
      JSON.parse((await said(['shop', 'prices', at('shop.yaml'), '--json'])).out),
    );
    expect(asJson.offers.map((o) => o.material)).toEqual(
      out
        .trimEnd()
        .split('\n')
        .slice(1)
        .map((line) => line.split(',')[0]),
    );
    expect(asJson.offers.find((o) => o.material === 'casting-plaster')).toMatchObject({ grams: 5000, price: '9.8' });
    const [own, exported] = [
      await json(['price', at('plaster.yaml')]),
      await json(['price', at('plaster.yaml'), '--prices', to]),
    ];
    expect(exported.blends[0].lines).toEqual(own.blends[0].lines);
  });
});

/** What only an example needs. */
const NOT_IN_TEMPLATE = new Set(['title', 'invented']);

describe('the built command', () => {
  it('prices, prints a card and starts a shop as a process of its own', () => {
    const price = spawned(['price', 'plaster.yaml', '--json'], bench);
    expect([price.code, price.err]).toEqual([0, '']);
    expect(priceResultSchema.parse(JSON.parse(price.out)).blends).toHaveLength(1);
    const card = spawned(['card', 'plaster.yaml', '--html', 'built.html'], bench);
    expect([card.code, card.out]).toEqual([0, '']);
    expect(readFileSync(at('built.html'), 'utf8')).toContain('Plaster dish');
    const fresh = folderOf({});
    expect(spawned(['shop', 'init'], fresh).code).toBe(0);
    expect(spawned(['shop', 'check'], fresh).code).toBe(0);
    expect(spawned(['shop', 'init'], fresh).code).toBe(2);
  });
});
