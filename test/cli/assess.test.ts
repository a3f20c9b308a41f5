import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { assessmentResultSchema } from '../../src/core/report/result-schema.js';
import { folderOf, said } from '../support/cli.js';

const where = folderOf({
  'plaster.yaml':
    'title: Plaster by weight\namounts: { casting-plaster: 1 kg, water: 700 g }\ntargets: { strength: { min: 5 MPa } }\n',
  'days.yaml':
    'weigh-days: [14, 90]\namounts: { casting-plaster: 1 kg, water: 700 g }\ntargets: { weight-day-5: { max: 1.4 kg } }\n',
  'misses.yaml': 'amounts: { casting-plaster: 1 kg, water: 1.4 kg }\ntargets: { strength: { min: 20 MPa } }\n',
  'mould.yaml':
    'mould: { water: 250 mL }\nbasis: scoop\namounts: { portland-cement-grey: 1, masonry-sand: 2, water: 0.8 }\n',
  'wet.yaml': 'mould: { water: 250 mL }\namounts: { portland-cement-grey: 1 cup, water: 250 mL }\n',
  'overdosed.yaml': 'amounts: { casting-plaster: 1 kg, borax: 30 g, water: 700 g }\n',
  'prices.csv': 'material,pack,price,currency\nportland-cement-grey,25 kg,8.90,EUR\nwater,1 kg,0,EUR\n',
  'shop.yaml': 'currency: EUR\nprices: prices.csv\n',
  'unpriced.yaml':
    'shop: shop.yaml\namounts: { portland-cement-grey: 1 kg, masonry-sand: 2 kg, water: 450 g }\ntargets: { cost: { max: 5 EUR } }\n',
  'mine.yaml': `materials:
  - id: my-gypsum
    name: my own gypsum
    kind: gypsum
    density: { value: 2.7, low: 2.6, high: 2.8, unit: g/cm3, source: none, status: ours }
    binder: { family: gypsum }
    hazards: { unknown: "an invented row of a test" }
`,
});
afterAll(() => rmSync(where, { recursive: true, force: true }));
const file = (name: string): string => join(where, name);

const result = async (argv: readonly string[]) => {
  const { code, out, err } = await said([...argv, '--json']);
  expect(err).toBe('');
  return { code, result: assessmentResultSchema.parse(JSON.parse(out)) };
};

describe('a recipe', () => {
  it('whose targets hold ends with 0', async () => {
    const { code, out } = await said(['assess', file('plaster.yaml')]);
    expect(code).toBe(0);
    expect(out).toMatch(/^Plaster by weight\nno mould · dry-indoor service/);
    expect(out).toContain('WHAT TO EXPECT OF THE BATCH');
    expect(out).toMatch(/met +strength, an estimate/);
    expect(out).toContain('Never put a hand or any body part in setting plaster');
  });

  it('shows an amount alike for the piece and to weigh out, rounded once', async () => {
    const amounts = 'amounts: { portland-cement-grey: 108.48 g, masonry-sand: 276.48 g, water: 54.449 g }\n';
    const { out } = await said(['assess', '-'], amounts);
    expect(out).toMatch(/grey portland cement +108 g +108 g/);
    expect(out).toMatch(/masonry sand +276 g +276 g/);
    expect(out).toMatch(/water +54\.4 g +54\.4 g/);
  });

  it('is told its weight on any day: of its targets, of its file and of --days, in order and each once', async () => {
    const { result: told } = await result(['assess', file('days.yaml'), '--days', '2,14,1']);
    const weights = told.properties.filter((p) => p.property.startsWith('weight-day-'));
    expect(weights.map((p) => p.property)).toEqual([1, 2, 3, 5, 7, 14, 28, 90].map((day) => `weight-day-${day}`));
    for (const [i, { value, low, high }] of weights.entries()) {
      expect(value!).toBeGreaterThan(low!);
      expect(value!).toBeLessThan(high!);
      expect(value!).toBeLessThanOrEqual(weights[i - 1]?.value ?? Number.POSITIVE_INFINITY);
    }
    expect(told.targets).toEqual([
      expect.objectContaining({ property: 'weight-day-5', name: 'weight after 5 days', max: 1400, met: true }),
    ]);
    expect(told.properties.findIndex((p) => p.property === 'dry-weight')).toBe(
      told.properties.findIndex((p) => p.property === 'weight-day-90') + 1,
    );
    expect((await said(['assess', file('days.yaml'), '--days', '2,14'])).out).toMatch(/weight after 14 days +\S+ k?g/);
  });

  it.each(['0', '366', '2,x', '2,,3', '1.5', ''])('with --days "%s" is refused in one line', async (days) => {
    const { code, out, err } = await said(['assess', file('plaster.yaml'), '--days', days]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toBe(`pourwright: --days: found “${days}”, expected whole days from 1 to 365, such as 2,14.\n`);
  });

  it.each(['weight-day-0', 'weight-day-366', 'weight-day-05'])('with a target on %s is told the days', async (id) => {
    const recipe = `amounts: { casting-plaster: 1 kg, water: 700 g }\ntargets: { ${id}: { max: 1 kg } }\n`;
    const { code, err } = await said(['assess', '-'], recipe);
    expect(code).toBe(2);
    expect(err).toContain(`line 2, targets.${id}: there is no such field here`);
    expect(err).toContain('expected a whole day: weight-day-1 to weight-day-365.');
  });

  it('that misses a target ends with 1', async () => {
    const { code, out } = await said(['assess', file('misses.yaml')]);
    expect(code).toBe(1);
    expect(out).toMatch(/MISSED +strength, an estimate/);
  });

  it('with more borax than the table allows is warned of in print and as data', async () => {
    const { code, out } = await said(['assess', file('overdosed.yaml')]);
    expect(code).toBe(0);
    expect(out).toMatch(/WARNING There is more of this in it than the table advises\. Borax is at 3 %/);
    const { result: told } = await result(['assess', file('overdosed.yaml')]);
    const warning = told.warnings.find((w) => w.code === 'recipe-overdosed');
    expect(warning?.severity).toBe('warning');
    expect(told.risks.find((r) => r.id === 'dose')?.level).toBe('high');
  });

  it.each([60, 120])('with a material that has no price names it beside the cost target, %d wide', async (columns) => {
    const { code, out } = await said(['assess', file('unpriced.yaml')], '', { columns });
    expect(code).toBe(1);
    expect(out).toMatch(/MISSED +materials cost/);
    expect(out.replace(/\s+/g, ' ')).toMatch(/no price for [a-z ]*masonry sand/);
    expect(out).not.toContain('no such property');
  });

  it('is told in full as data, each property with unit and range', async () => {
    const { code, result: told } = await result(['assess', file('plaster.yaml')]);
    expect(code).toBe(0);
    expect(told.format).toBe('pourwright.assessment/1');
    const of = (id: string) => told.properties.find((p) => p.property === id)!;
    expect(of('fresh-weight')).toMatchObject({ unit: 'g', value: 1700 });
    expect(of('water-to-plaster').value).toBeCloseTo(0.7, 9);
    expect(of('water-to-cement')).toMatchObject({ value: null, low: null, why: 'no cement' });
    for (const { value, low, high, models, restsOn } of told.properties) {
      expect(restsOn).not.toBe('');
      expect(models.length).toBeGreaterThan(0);
      if (value !== null) expect(low! <= high!).toBe(true);
    }
    expect(told.cautions.cautions.length).toBeGreaterThan(3);
    expect(told.cautions.closing).toContain('safety data sheet');
  });

  it.each([
    ['no water', 'amounts: { portland-cement-grey: 300 g, silica-sand-fine: 300 g, perlite: 20 g }\n', 'no water'],
    ['no water in plaster', 'amounts: { casting-plaster: 300 g }\n', 'no water'],
    [
      'less water than its grains drink',
      'amounts: { portland-cement-grey: 300 g, perlite: 100 g, water: 60 g }\n',
      'no water left for the binder: the grains drink it all',
    ],
  ])('with %s has no figure that means nothing', async (_name, text, words) => {
    const { out } = await said(['assess', '-'], text);
    expect(out.replace(/\s+/g, ' ')).toContain(`found “${words}”`);
    // None below zero, none of six noughts; a mix that never sets has no times, strength or pores.
    expect(out).not.toMatch(/ -\d|0\.000000/);
    for (const name of [
      'working time',
      'final set',
      'time to demoulding',
      'strength, an',
      'open pores',
      'shrinkage on',
    ])
      expect(out).not.toContain(`  ${name}`);
    const told = assessmentResultSchema.parse(JSON.parse((await said(['assess', '-', '--json'], text)).out));
    const property = (id: string) => told.properties.find((p) => p.property === id)!;
    for (const id of ['working-time', 'demould-time', 'strength', 'strength-at-demould'])
      expect(property(id)).toMatchObject({ value: null, low: null, high: null, why: 'no water to set with' });
    expect(property('water-to-binder')).toMatchObject({ value: 0 });
    expect(property('water-to-binder').low).toBeGreaterThanOrEqual(0);
    const { value, why } = property('drying-days');
    if (text.includes('perlite'))
      expect(value).toBeGreaterThan(0); // damp grains, or what they drank, dry out
    else expect([value, why]).toEqual([null, 'no water to dry out']);
  });

  it('keeps its cautions where it has no water', async () => {
    const { out } = await said(['assess', '-'], 'amounts: { casting-plaster: 300 g, perlite: 10 g }\n');
    expect(out).toContain('Plaster with little water sets hotter and locks harder');
  });

  it('in scoops fills its mould', async () => {
    const { result: told } = await result(['assess', file('mould.yaml')]);
    expect(told.piece.volume).toBeCloseTo(250, 9);
    expect(told.properties.find((p) => p.property === 'fresh-volume')!.value).toBeCloseTo(250, 6);
    expect(told.fills).toBeNull();
    const [cement, sand] = told.blend;
    expect(sand!.scoops! / cement!.scoops!).toBeCloseTo(2, 6);
  });

  it('that is nonsense earns plain warnings, before anything else', async () => {
    const { out } = await said(['assess', file('wet.yaml')]);
    const warnings = out.split('\n\n')[0]!.replace(/\n +/g, ' ');
    expect(warnings).toMatch(/WARNING .*wet\.yaml line 2, amounts: the water alone would fill the mould/);
    expect(warnings).toMatch(/WARNING .*cement and water in equal volumes is far too wet/);
    const { code, result: told } = await result(['assess', file('wet.yaml')]);
    expect(code).toBe(0);
    expect(told.warnings.map((w) => w.code)).toEqual(
      expect.arrayContaining(['recipe-water-equals-mould', 'recipe-cement-water-by-volume']),
    );
    for (const w of told.warnings) expect(w.severity).toBe('warning');
  });

  it('may use the maker’s own materials', async () => {
    const text = 'amounts: { my own gypsum: 100 g, water: 60 g }';
    const { code, out, err } = await said(['assess', '-', '--materials', file('mine.yaml')], text);
    expect(code).toBe(0);
    expect(out).toContain('my own gypsum');
    expect(err).toMatch(
      /^pourwright: warning: .*mine\.yaml line 2.*for my-gypsum this is taken from the shipped gypsums: /i,
    );
    // Without set times there are no figures for them, and nothing made up in their place.
    expect(out).not.toMatch(/initial set|undefined|NaN/);
    expect((await said(['assess', '-'], text)).code).toBe(2);
  });

  it('is as hot as shipped plaster where the maker’s own plaster tells no heat, and less sure', async () => {
    const hottest = async (name: string) => {
      const text = `mould: { water: 250 mL }\namounts: { ${name}: 100 g, water: 70 g }`;
      const { code, out } = await said(['assess', '-', '--materials', file('mine.yaml'), '--json'], text);
      expect(code).toBe(0);
      const { properties } = assessmentResultSchema.parse(JSON.parse(out));
      return properties.find((p) => p.property === 'peak-temperature')!;
    };
    const [mine, shipped] = [await hottest('my-gypsum'), await hottest('casting-plaster')];
    expect(Math.abs(mine.value! / shipped.value! - 1)).toBeLessThan(0.1);
    expect(mine.high! - mine.low!).toBeGreaterThan(shipped.high! - shipped.low!);
  });

  it('is told the same to a file as to a terminal of its width', async () => {
    const [wide, piped] = await Promise.all([
      said(['assess', file('plaster.yaml')], '', { columns: 88 }),
      said(['assess', file('plaster.yaml')], '', { columns: null }),
    ]);
    expect(piped.out).toBe(wide.out);
  });
});

describe('a recipe of cement, sulfate and carbonate', () => {
  const cold = 'thaumasite can form';
  const told = async (place: string) => {
    const amounts =
      'amounts: { portland-cement-grey: 200 g, casting-plaster: 20 g, metakaolin: 60 g, limestone-flour: 300 g, water: 250 g }';
    const { code, out } = await said(['assess', '-', '--cautions'], `${place}\n${amounts}\n`);
    return { code, text: out.replace(/\s+/g, ' ') };
  };

  it('is told of the cold of its room where it stands damp, and of winters outdoors (below 15 °C: Shi, Wang and Behnood)', async () => {
    for (const place of ['service: damp\nroom: { temperature: 10 °C }', 'uses: [outdoor]']) {
      const { code, text } = await told(place);
      expect(code, place).toBe(1);
      expect(text, place).toContain(cold);
    }
    expect((await told('service: damp\nroom: { temperature: 10 °C }')).text).toContain('room of 10 °C');
    for (const place of ['service: damp', 'room: { temperature: 10 °C }'])
      expect((await told(place)).text, place).not.toContain(cold);
  });
});
