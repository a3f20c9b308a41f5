import { cpSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { nameOf } from '../../src/cli/verb.js';
import { VERBS } from '../../src/cli/verbs.js';
import { MODELS as ALL_MODELS } from '../../src/core/science/provenance.js';
import { folderOf, said, spawned } from '../support/cli.js';

const ROOT = join(import.meta.dirname, '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'pourwright-units-'));
cpSync(join(ROOT, 'examples', 'garden-stall'), folder, { recursive: true });

/** What stays metric on a sheet in US units, and why. All else that looks metric is a slip. */
const STAYS: Readonly<Record<string, RegExp>> = {
  // Figures of laws and standards are theirs.
  'chromium limit of EU law': /may not exceed 2 mg in a kilogram of cement/g,
  'its directive’s title': /chromium\(VI\) at most 2 mg\/kg of cement/g,
  'dust limits of the EU': /0\.1 mg(?: in a cubic metre of air|\/m³ respirable silica)/g,
  'dust limits of the US': /(?:50 µg|15 mg total and 5 mg respirable dust) in a cubic metre of air/g,
  // Things go by the name the maker gave them.
  'packs of the price list': /\d+ × [\d.]+ (?:kg|g|L|mL)\b|“[\d.]+ (?:kg|g|L|mL)”/g,
  // A note beside a figure is about what its source prints.
  'notes on figures of the table': /132 kg in the 0\.73 m3 that|123-128 kg\/m3\./g,
  'what solubility tables print': /\(2\.0-2\.6 g\/L at 25 °C\)/g,
  // A scale shows what it shows: the card has the unit its steps are round in.
  'a scale that counts grams': /[\d.]+ g scale reads [\d.]+ g/g,
};
/** With --why: equations in the units they are written in, with the titles of their papers. */
const MODELS = /THE MODELS .* WHAT MAY SPOIL IT/;
/** Said in both. */
const BOTH = /about 1 MPa \(150 psi\)/;

const NUMBER = '(?<![\\w.,])\\d[\\d.]*';
const METRIC = new RegExp(
  `${NUMBER} ?(?:mg|g|kg|µg|t|mL|L|cm3|cm³|m3|m³|µm|mm|cm|m|MPa|kPa|g/cm3|kg/m3|g/g|mg/kg)(?![\\w/])|°C|\\b(?:kilo)?gram(?:me)?s?\\b|\\b(?:centi|milli)?metres?\\b|\\b(?:milli)?litres?\\b|[⟦⟧]`,
  'g',
);

const US = ['--units', 'us'] as const;

const oneLine = (text: string): string => text.replace(/\s+/g, ' ');

/** Metric quantities of a sheet that have no business there, each with what stands around it. */
function metricIn(sheet: string): string[] {
  const rest = Object.values(STAYS).reduce((text, stays) => text.replace(stays, '…'), oneLine(sheet));
  const checked = rest.replace(MODELS, 'WHAT MAY SPOIL IT').replace(BOTH, '…');
  return [...checked.matchAll(METRIC)].map((m) => checked.slice(Math.max(0, m.index - 40), m.index + 30));
}

const SHEETS: readonly (readonly string[])[] = [
  ['assess', 'recipes/old-planter.yaml', '--cautions', '--why'],
  ['assess', 'recipes/plaster-and-cement.yaml', '--cautions'],
  ['assess', 'recipes/far-too-wet.yaml', '--cautions'],
  ['assess', 'recipes/window-dish.yaml', '--cautions', '--why'],
  ['propose', 'herb-planter.yaml', '--cautions', '--parts', 'scoop'],
  ['propose', 'incense-dish.yaml', '--cautions', '--why'],
  ['propose', 'soap-tray.yaml', '--cautions'],
  ['propose', 'impossible-planter.yaml', '--cautions'],
  ['propose', 'wall-pocket.yaml', '--alternatives', '3', '--cautions'],
  ['propose', 'wall-pocket.yaml', '--reasons', '--cautions'],
  ['propose', 'wall-pocket.yaml', '--sure', '0.9', '--cautions'],
  ['propose', 'wall-pocket.yaml', '--at-most', '3', '--parts', 'mass'],
  ['stand-in', 'stand-in-gypsum.yaml', '--cautions', '--why'],
  ['stand-in', 'stand-in-rapid-cement.yaml', '--cautions'],
  ['stand-in', 'stand-in-acrylic-gypsum.yaml', '--cautions'],
  ['frontier', 'wall-pocket.yaml', '--of', 'dry-weight', '--against', 'cost', '--points', '5'],
  ['frontier', 'wall-pocket.yaml', '--of', 'strength', '--against', 'dry-weight', '--points', '5'],
  ['price', 'recipes/window-dish.yaml', 'herb-planter.yaml', '--at', '20'],
  ['card', 'recipes/old-planter.yaml'],
  ['card', 'wall-pocket.yaml'],
  ['order', 'spring-market.yaml', '--cautions'],
  ['pours', 'show', '1', '--shop', 'shop.yaml'],
  ['pours', 'fit', '--dry-run', '--shop', 'shop.yaml'],
  ['shelf'],
  ['shelf', '--kind', 'sand'],
  ['shelf', 'casting-plaster'],
  ['shelf', 'perlite'],
  ['shelf', 'silica-sand-coarse'],
  ['sieve', 'sieves/yard-sand.csv', 'sieves/dune-sand.yaml', '--with', 'silica-sand-coarse'],
];

describe('a sheet with --units us', () => {
  it.each(SHEETS.map((argv) => [argv.join(' '), argv] as const))(
    '%s has no metric unit left',
    (_line, argv) => {
      const { code, out, err } = spawned([...argv, '--units', 'us'], folder);
      expect([0, 1], err).toContain(code);
      expect(out.length).toBeGreaterThan(300);
      expect(metricIn(out)).toEqual([]);
    },
    50_000,
  );

  it('is looked at for every verb that prints quantities', () => {
    const seen = new Set([...SHEETS.map(([verb]) => verb), 'why']);
    // These print files and scripts.
    const others = ['shop', 'page', 'complete'];
    expect(VERBS.map(nameOf).filter((name) => !seen.has(name))).toEqual(others);
  });

  it('is what shelf prints, figure for figure, and JSON stays as it is', async () => {
    const [metric, us] = [await said(['shelf', 'casting-plaster']), await said(['shelf', 'casting-plaster', ...US])];
    expect(metric.out).toContain('density: 2.63 g/cm3 (2.55 to 2.7); from-memory');
    expect(us.out).toContain('density: 164 lb/ft3 (159 to 169); from-memory');
    expect(us.out).toContain('binder.heat: 130 J/g (110 to 150)');
    const list = await said(['shelf', '--kind', 'sand', ...US]);
    expect(list.out).toMatch(/lb\/ft³ +loose\n +silica-sand-coarse +165 +96\.8 +.*grains to about 0\.079 in/);
    for (const argv of [
      ['shelf', 'perlite', '--json'],
      ['why', 'strength', '--json'],
    ])
      expect((await said([...argv, ...US])).out).toBe((await said(argv)).out);
  });

  it('is what why tells of any property and model, but for equations and published checks', async () => {
    const unit = async (id: string): Promise<string> => oneLine((await said(['why', id, ...US])).out);
    expect(await unit('strength')).toMatch(/^strength, an estimate strength · psi /);
    expect(await unit('dry-weight')).toMatch(/^dry weight dry-weight · oz /);
    expect(await unit('peak-temperature')).toMatch(/peak-temperature · °F /);
    expect(await unit('water-density')).toContain('Holds for: 32-104 °F; within 0.03 % to 212 °F.');
    expect((await said(['why', 'water-density'])).out).toContain('Holds for: 0-40 °C; within 0.03 % to 100 °C.');
    const told = (out: string): string[] =>
      [...oneLine(out).matchAll(/(?:Holds for|Known to miss): .*?(?= (?:Known to miss|Source|Checks): )/g)].map(
        ([t]) => t,
      );
    const all: string[] = [];
    for (const { id } of ALL_MODELS) all.push(...told((await said(['why', id, ...US])).out));
    expect(all.length).toBeGreaterThan(2 * ALL_MODELS.length - 10);
    expect(metricIn(all.join(' '))).toEqual([]);
    expect(metricIn((await said(['why', 'evaporation'])).out)).not.toEqual([]);
  });

  it('sets no value, limit or margin against each other', async () => {
    const sheet = async (file: string, ...more: string[]): Promise<string> =>
      oneLine((await said(['propose', join(folder, file), ...more])).out);
    expect(await sheet('herb-planter.yaml', ...US)).toMatch(/at least 2176 psi 2200 psi just met/);
    expect(await sheet('herb-planter.yaml')).toMatch(/at least 15 MPa 15 MPa just met/);
    const impossible = await sheet('impossible-planter.yaml', ...US);
    expect(impossible).toMatch(/dry weight at most 1 lb 1\.64( oz)? 1 lb 1\.6 oz just met/);
    expect(impossible).toMatch(/at least 5802 psi: at least [1-9]\d* psi can be had/);
    expect(await sheet('impossible-planter.yaml')).toMatch(/dry weight at most 500 g 500 g just met/);
    const reasons = await sheet('wall-pocket.yaml', '--reasons', ...US);
    expect(reasons).toMatch(/at least 725\.2 psi 50 psi less: [\d.]+ % lighter \(0\.\d{1,2} oz\)/);
  }, 60_000);

  it('would be caught with a metric word in it, and the other system is', () => {
    for (const slip of ['up to 70 °C', 'batch 2.4 kg', 'wall 1.2 cm', 'per gram hydrated', '5 MPa', '250 cm³', '⟦5 g⟧'])
      expect(metricIn(`a sheet, ${slip}, and more`), slip).not.toEqual([]);
    const { out } = spawned(['assess', 'recipes/window-dish.yaml', '--cautions'], folder);
    expect(metricIn(out).length).toBeGreaterThan(20);
  });

  it('keeps what it says it keeps', () => {
    const sheets = ['recipes/old-planter.yaml', 'herb-planter.yaml'].map((file) =>
      oneLine(
        spawned([file.startsWith('recipes') ? 'assess' : 'propose', file, '--cautions', '--units', 'us'], folder).out,
      ),
    );
    for (const why of ['chromium limit of EU law', 'its directive’s title', 'dust limits of the EU'] as const)
      expect(
        sheets.some((sheet) => new RegExp(STAYS[why]!.source).test(sheet)),
        why,
      ).toBe(true);
  });

  it('has the cautions and risks of the metric sheet, figure for figure', () => {
    const sheet = oneLine(spawned(['propose', 'incense-dish.yaml', '--cautions', '--units', 'us'], folder).out);
    for (const words of [
      'Dry plaster in moving air at 95 to 104 °F at most, never above 113 °F: hotter drives out the water',
      'heats as it sets, to 140 or 158 °F in known accidents',
      'slowly from about 104 °F in very dry air and fast above 212 °F',
      'in moving air at 95 to 104 °F at most, never on a stove',
      '0.02 in in 10 in',
    ])
      expect(sheet).toContain(words);
    expect(sheet).toMatch(/batch \d+ lb [\d.]+ oz, wall 0\.39 in, /);
    expect(sheet).toMatch(/up to 1\d\d °F while setting \(upper bound\), about 1\d\d °F inside likely/);
  });
});

/** A shop that thinks in pounds: nothing is asked for, and nothing but law is metric. */
const US_SHOP = {
  'shop.yaml':
    'currency: USD\nunits: us\nregion: US\nprices: prices.csv\nscale: { step: 0.1 oz }\nscoop: 1/2 cup\nroom: { temperature: 65 °F, humidity: 45 % }\nbowl: 2 lb\n',
  'prices.csv':
    'material,pack,price\ncasting-plaster,25 lb,21.00\nportland-cement-grey,50 lb,14.00\nconcrete-sand,50 lb,6.00\n',
  'recipe.yaml':
    'title: Bowl\nshop: shop.yaml\nmould: { water: 20 fl oz }\nservice: warm\nuses: [candle, planter]\namounts:\n  casting-plaster: 20 oz\n  portland-cement-grey: 5 oz\n  concrete-sand: 10 oz\n  water: 14 oz\n',
  'brief.yaml':
    'title: Bowl\nshop: shop.yaml\nmould: { water: 20 fl oz }\nservice: dry-indoor\nobjective: cheapest\nbatch: { pieces: 2 }\n',
};

describe('a shop with units: us', () => {
  const shop = folderOf(US_SHOP);
  it.each([
    ['assess', 'recipe.yaml', '--cautions'],
    ['card', 'recipe.yaml'],
    ['price', 'recipe.yaml'],
    ['propose', 'brief.yaml', '--cautions'],
  ])('%s %s has US units by itself', (...argv) => {
    const { code, out, err } = spawned(argv, shop);
    expect([0, 1], err).toContain(code);
    expect(metricIn(out)).toEqual([]);
    expect(out).toMatch(/\d oz/);
  });

  it('keeps the degrees that were written', () => {
    expect(spawned(['card', 'recipe.yaml'], shop).out).toContain('water at 65 °F');
  });

  it('has them on the page to print', async () => {
    const file = join(shop, 'card.html');
    await said(['card', join(shop, 'recipe.yaml'), '--html', file]);
    const html = readFileSync(file, 'utf8').replace(/<style>.*?<\/style>|<[^>]+>/gs, ' ');
    expect(metricIn(html)).toEqual([]);
  });
});

describe('warnings and refusals', () => {
  const bench = folderOf({
    'wet.yaml':
      'mould: { water: 250 mL }\namounts: { portland-cement-grey: 100 g, concrete-sand: 300 g, water: 245 g }\n',
    'little.yaml': 'mould: { water: 250 mL }\namounts: { casting-plaster: 100 g, water: 60 g }\n',
    'core.yaml':
      'mould: { solid: { shape: cylinder, diameter: 8 cm, height: 8 cm }, core: { shape: cylinder, diameter: 9 cm, height: 4 cm } }\namounts: { casting-plaster: 100 g, water: 60 g }\n',
    'hot.yaml':
      'mould: { water: 250 mL }\nroom: { temperature: 60 °C }\namounts: { casting-plaster: 100 g, water: 60 g }\n',
  });
  it.each([
    ['wet.yaml', '245 g of water for a mould of 250 mL', '8.64 oz of water for a mould of 8.45 fl oz'],
    ['wet.yaml', '2.5 g of water for each gram of cement', '2.5 oz of water for each ounce of cement'],
    ['little.yaml', 'mL for a mould of 250 mL', 'fl oz for a mould of 8.45 fl oz'],
    [
      'core.yaml',
      'a core 9 cm across at its narrowest in a mould of 8 cm',
      'a core 3.5 in across at its narrowest in a mould of 3.1 in',
    ],
    ['hot.yaml', 'found “60 °C”, expected 1 to 45 °C', 'found “140 °F”, expected 34 to 113 °F'],
  ])('%s: %s, or %s', async (file, metric, us) => {
    const told = async (...more: string[]) => {
      const { out, err } = await said(['assess', join(bench, file), ...more]);
      return oneLine(out + err);
    };
    expect(await told()).toContain(metric);
    const there = await told('--units', 'us');
    expect(there).toContain(us);
    expect(metricIn(there)).toEqual([]);
  });
});

describe('JSON', () => {
  it('is the same whatever units are asked for: metric, with the US words beside', async () => {
    const file = join(folder, 'recipes/window-dish.yaml');
    const [metric, us] = [
      await said(['assess', file, '--json']),
      await said(['assess', file, '--json', '--units', 'us']),
    ];
    expect(us.out).toBe(metric.out);
    const { risks, cautions } = JSON.parse(metric.out);
    const heat = risks.find((r: { id: string }) => r.id === 'drying-heat');
    expect(heat.text).toContain('35 to 40 °C');
    expect(heat.us.text).toContain('95 to 104 °F');
    const pour = cautions.cautions.find((c: { id: string }) => c.id === 'plaster-heat-never-body');
    expect(pour.because).toMatch(/up to \d+ °C/);
    expect(pour.us).toEqual({
      text: expect.stringContaining('140 or 158 °F'),
      because: expect.stringMatching(/up to \d+ °F/),
    });
    expect(metric.out).not.toMatch(/[⟦⟧]/);
  });
});
