import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Ajv2020 from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { type FrontierResult, frontierResultSchema } from '../../src/core/report/frontier-schema.js';
import { CAUTION_SEVERITIES } from '../../src/core/safety/caution.js';
import { folderOf, said, spawned } from '../support/cli.js';
import { readTable } from '../support/read-table.js';

const root = new URL('../..', import.meta.url).pathname;
const STALL = join(root, 'examples', 'garden-stall');
const POCKET = join(STALL, 'wall-pocket.yaml');
const TRADE = ['frontier', POCKET, '--of', 'dry-weight', '--against', 'cost'];

const folders: string[] = [];
const folder = (files: Readonly<Record<string, string>> = {}): string => {
  const made = folderOf(files);
  folders.push(made);
  return made;
};
afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});

// biome-ignore lint/suspicious/noControlCharactersInRegex: escape codes are what is looked for
const ESCAPE = /\u001b/;
const widest = (text: string): number => Math.max(...text.split('\n').map((line) => [...line].length));

describe('frontier as a command of its own', () => {
  const where = folder();
  const { code, out, err } = spawned([...TRADE, '--json', '--csv', 'trade.csv', '--svg', 'trade.svg'], where);
  const result: FrontierResult = frontierResultSchema.parse(JSON.parse(out));

  it('ends with 0, writes both files and says so', () => {
    expect(code).toBe(0);
    expect(err).toMatch(/wrote trade\.csv\n(.*\n)*.*wrote trade\.svg\n/);
    expect(readdirSync(where).sort()).toEqual(['trade.csv', 'trade.svg']);
  });

  it('gives data that the shipped schema allows', () => {
    const schema = JSON.parse(readFileSync(join(root, 'dist', 'schemas', 'frontier-result.schema.json'), 'utf8'));
    const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schema);
    expect(validate(JSON.parse(out)) ? [] : validate.errors).toEqual([]);
    expect(validate({ ...result, points: [{ of: 1 }] })).toBe(false);
    expect(result).toMatchObject({
      invented: true,
      currency: 'EUR',
      of: { property: 'dry-weight', better: 'min' },
      against: { property: 'cost', better: 'min' },
    });
    expect(result.points.length).toBeGreaterThanOrEqual(25);
  });

  it('writes a table with the same points, headed by name and unit, that adds up to what the materials cost', () => {
    const { data, errors, meta } = readTable(readFileSync(join(where, 'trade.csv'), 'utf8'));
    expect(errors).toEqual([]);
    expect(meta.fields!.slice(0, 3)).toEqual(['dry-weight [g]', 'cost [EUR]', 'system']);
    expect(data.length).toBe(result.points.length);
    const prices = readTable(readFileSync(join(STALL, 'prices.csv'), 'utf8'));
    // The cheapest pack by weight. Perlite is sold by the litre: its price is taken from the first point.
    const perGram = new Map<string, number>([['water', 0]]);
    for (const { material, pack, price } of prices.data) {
      const [amount, unit] = (pack ?? '').split(' ');
      if (unit !== 'kg' && unit !== 'g') continue;
      const each = Number(price) / (Number(amount) * (unit === 'kg' ? 1000 : 1));
      perGram.set(material!, Math.min(each, perGram.get(material!) ?? Number.POSITIVE_INFINITY));
    }
    const kept = 1 - 0.06;
    let checked = 0;
    data.forEach((row, i) => {
      const point = result.points[i]!;
      expect(Number(row['dry-weight [g]'])).toBe(point.of);
      expect(Number(row['cost [EUR]'])).toBe(point.against);
      expect(row['system']).toBe(point.system);
      const grams = meta.fields!.slice(3).flatMap((field): [string, number][] => {
        const value = row[field];
        return value === undefined || value === '' ? [] : [[field.replace(' [g]', ''), Number(value)]];
      });
      expect(Object.fromEntries(grams)).toEqual(Object.fromEntries(point.blend.map((b) => [b.material, b.pieceGrams])));
      const perlite = grams.find(([id]) => id === 'perlite')?.[1] ?? 0;
      const rest = grams.reduce((sum, [id, g]) => sum + (id === 'perlite' ? 0 : g * perGram.get(id)!), 0);
      if (i === 0) perGram.set('perlite', (point.against * kept - rest) / perlite);
      else expect((rest + perlite * perGram.get('perlite')!) / kept / point.against).toBeCloseTo(1, 5);
      checked++;
    });
    expect(checked).toBeGreaterThanOrEqual(25);
  });

  it('writes a picture of it', () => {
    expect(readFileSync(join(where, 'trade.svg'), 'utf8')).toMatch(
      /^<svg [^>]*role="img"[^>]*><title>dry weight against materials cost: Light wall pocket<\/title>/,
    );
  });

  it('has the cautions of every blend: each point names its own, the set has each once, the gravest first', () => {
    const { cautions, firstAid, closing } = result.cautions!;
    const ids = cautions.map((c) => c.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect([...ids].sort()).toEqual([...new Set(result.points.flatMap((p) => p.cautions))].sort());
    const graves = cautions.map((c) => CAUTION_SEVERITIES.indexOf(c.severity));
    expect(graves).toEqual([...graves].sort((a, b) => a - b));
    expect(firstAid.length).toBeGreaterThan(3);
    expect(closing).toContain('safety data sheet');
    for (const { cautions: own } of result.points) expect(own.length).toBeGreaterThan(5);
  });

  it('has of a point what a recipe of the same grams is told', async () => {
    const kept = readFileSync(POCKET, 'utf8')
      .replace(/^objective:.*$/gm, '')
      .replace('shop: shop.yaml', `shop: ${join(STALL, 'shop.yaml')}`);
    // The batch of the brief, six pieces and the shop's waste: how hot a bowl gets depends on how much is in it.
    for (const { blend, cautions } of [result.points[0]!, result.points.at(-1)!]) {
      const amounts = blend.map((b) => `  ${b.material}: ${(6 / (1 - 0.06)) * b.pieceGrams} g`).join('\n');
      const recipe = join(
        folder({ 'one.yaml': `${kept.replace(/^batch:.*$/gm, '')}\namounts:\n${amounts}\n` }),
        'one.yaml',
      );
      const told = JSON.parse((await said(['assess', recipe, '--json'])).out);
      expect(told.cautions.cautions.map((c: { id: string }) => c.id)).toEqual(cautions);
    }
  });

  it('draws in signs in a pipe, without colours, and lists the ends', () => {
    const pipe = spawned(TRADE, where);
    expect(pipe.code).toBe(0);
    expect(pipe.out).not.toMatch(ESCAPE);
    expect(pipe.out).toMatch(/^Light wall pocket\ninvented example · dry weight against materials cost/);
    expect(pipe.out).toContain('└──');
    expect(pipe.out).toMatch(/dry weight +materials cost +binder\n/);
    expect(pipe.out).toMatch(
      new RegExp(`\\n +${Math.round(result.points[0]!.of)} g +\\d\\.\\d{2,3} EUR +gypsum plaster\\n`),
    );
    expect(pipe.out).toMatch(new RegExp(`9 of ${result.points.length} points`));
    expect(pipe.out).not.toMatch(/undefined|NaN|null|\[object/);
    const [, told] = pipe.out.replace(/\s+/g, ' ').split('CAUTIONS of any of these blends');
    for (const { short } of result.cautions!.cautions) expect(told!.split(short), short).toHaveLength(2);
    expect(told!.trim().endsWith(result.cautions!.closing)).toBe(true);
  });
});

describe('frontier on a terminal', () => {
  it.each([40, 80])('of %i columns fits, with as many marks as there is room for', async (columns) => {
    const { out, code } = await said(TRADE, '', { columns });
    expect(code).toBe(0);
    expect(widest(out)).toBeLessThanOrEqual(columns);
    expect(out.match(/^ +[\d ]*g? *│.*[ox]/gm)!.length).toBeGreaterThan(8);
  });

  it('is coloured where that is wanted, and says the same then', async () => {
    const plain = await said(TRADE);
    const coloured = await said(TRADE, '', { colour: true });
    expect(coloured.out).toMatch(ESCAPE);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colours are taken off
    expect(coloured.out.replace(/\u001b\[\d+m/g, '')).toBe(plain.out);
  });

  it('gives the points that are asked for, goes the way that is said, and prints the units asked for', async () => {
    const few = await said([...TRADE, '--points', '6', '--json']);
    expect(JSON.parse(few.out).points.length).toBeLessThan(9);
    const heavy = await said(['frontier', POCKET, '--of', 'max:dry-weight', '--against', 'cost', '--json']);
    const { of, points } = frontierResultSchema.parse(JSON.parse(heavy.out));
    expect(of.better).toBe('max');
    expect(points[0]!.of).toBeGreaterThan(points.at(-1)!.of);
    const us = await said([...TRADE, '--units', 'us']);
    expect(us.out).toMatch(/\d oz/);
    expect(us.out).not.toMatch(/\d g\b/);
  });
});

describe('frontier of a brief', () => {
  it('that nothing meets ends with 1 and one clear sentence', () => {
    const { code, out, err } = spawned(
      ['frontier', join(STALL, 'impossible-planter.yaml'), '--of', 'cost', '--against', 'dry-weight'],
      folder(),
    );
    expect(code).toBe(1);
    expect(err).toBe('');
    expect(
      out.match(/No blend meets the brief, so there is nothing to trade: propose tells what collides\./g),
    ).toHaveLength(1);
    expect(out).not.toContain('│');
    expect(out).not.toContain('CAUTIONS');
  });

  it('of which one blend is best at both says so', async () => {
    const where = folder({
      'one.yaml': `title: One\nmould: { water: 200 mL }\nobjective: lightest\nmaterials: { only: [casting-plaster] }\ntargets: { water-to-binder: { max: 0.7 } }\n`,
    });
    const { code, out } = await said([
      'frontier',
      join(where, 'one.yaml'),
      '--of',
      'dry-weight',
      '--against',
      'fresh-weight',
    ]);
    expect(code).toBe(0);
    expect(out).toContain('One blend is best at both: there is nothing to trade.');
    expect(out).not.toContain('│');
  });
});

describe('frontier refuses with one message, 2, and nothing written', () => {
  const free = folder({ 'free.yaml': 'mould: { water: 200 mL }\nobjective: lightest\n' });
  it.each<[string, readonly string[], RegExp]>([
    [
      'a property that is nearly one',
      [POCKET, '--of', 'dry-wieght', '--against', 'cost'],
      // Without the list of all.
      /--of: there is no such property: found “dry-wieght”\. Did you mean “dry-weight”\?\n/,
    ],
    [
      'the other one too',
      [POCKET, '--of', 'cost', '--against', 'demold-time'],
      /--against.*Did you mean “demould-time”\?/,
    ],
    [
      'one by the name it is printed by',
      [POCKET, '--of', 'cost', '--against', 'flow-index'],
      /--against.*Did you mean “flow”\?/,
    ],
    ['a property that is none', [POCKET, '--of', 'glitter', '--against', 'cost'], /“pourwright why” lists them all/],
    ['one property twice', [POCKET, '--of', 'cost', '--against', 'max:cost'], /--against.*another property/],
    ['a property with no better way', [POCKET, '--of', 'flow', '--against', 'cost'], /min:flow or max:flow/],
    ['a lacking property', [POCKET, '--of', 'cost'], /--against/],
    ['a picture of another kind', [POCKET, '--of', 'strength', '--against', 'cost', '--svg', 'x.png'], /ends in \.svg/],
    ['a table of another kind', [POCKET, '--of', 'strength', '--against', 'cost', '--csv', 'x.yaml'], /ends in \.csv/],
    ['no points', [POCKET, '--of', 'strength', '--against', 'cost', '--points', '0'], /--points.*1 to 500/],
    [
      'cost without prices',
      [join(free, 'free.yaml'), '--of', 'strength', '--against', 'cost'],
      /--against.*price list/,
    ],
    [
      'the weight on a day that is too late, as in a brief',
      [POCKET, '--of', 'min:weight-day-900', '--against', 'cost'],
      /^pourwright: --of: there is no such property: found “min:weight-day-900”, expected a whole day: weight-day-1 to weight-day-365\.\n$/,
    ],
    ['a brief that is not there', ['poket.yaml', '--of', 'strength', '--against', 'cost'], /poket\.yaml/],
  ])('%s', (_, argv, told) => {
    const where = folder();
    const more = argv.includes('--csv') ? ['--svg', 'y.svg'] : ['--csv', 'y.csv'];
    const { code, out, err } = spawned(['frontier', ...argv, ...more], where);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err.trim().split('\n')).toHaveLength(1);
    expect(err).toMatch(told);
    expect(readdirSync(where)).toEqual([]);
  });

  it('as data where that is asked for', () => {
    const where = folder();
    const { code, out } = spawned(['frontier', POCKET, '--of', 'dry-wieght', '--against', 'cost', '--json'], where);
    expect(code).toBe(2);
    const [problem] = JSON.parse(out).problems;
    expect(problem).toMatchObject({ code: 'property-unknown', path: '--of' });
    expect(problem.message).toContain('Did you mean “dry-weight”?');
    expect(existsSync(join(where, 'y.csv'))).toBe(false);
  });
});
