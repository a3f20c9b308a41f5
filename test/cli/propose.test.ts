import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { assessmentResultSchema, proposalResultSchema } from '../../src/core/report/result-schema.js';
import { folderOf, said, spawned } from '../support/cli.js';

/** What a maker sees of a proposal. The shop and its prices are invented. */
const where = folderOf({
  'shop.yaml':
    'currency: EUR\nprices: prices.csv\nscale: { step: 1 g, fine: { step: 0.1 g, most: 200 g } }\nscoop: 100 mL\nwaste: 5 %\n',
  'prices.csv':
    'material,pack,price\ncasting-plaster,25 kg,31.00\nportland-cement-grey,25 kg,8.90\nmasonry-sand,25 kg,4.30\nlimestone-flour,10 kg,6.20\n',
  'met.yaml': `title: Small dish
invented: true
shop: shop.yaml
mould: { water: 300 mL }
service: dry-indoor
objective: cheapest
materials: { only: [casting-plaster, limestone-flour] }
targets:
  strength: { min: 5 MPa }
  dry-weight: { max: 1 lb }
batch: { pieces: 3 }
`,
  'collides.yaml': `title: Feather of iron
shop: shop.yaml
mould: { water: 300 mL }
objective: cheapest
materials: { only: [casting-plaster, limestone-flour] }
targets:
  strength: { min: 12 MPa }
  dry-weight: { max: 305 g }
`,
});
afterAll(() => rmSync(where, { recursive: true, force: true }));
const file = (name: string): string => join(where, name);

// biome-ignore lint/suspicious/noControlCharactersInRegex: escape codes are what is looked for
const ESCAPE = /\u001b/;
const widest = (text: string): number => Math.max(...text.split('\n').map((line) => [...line].length));

describe('a brief that can be met', () => {
  it('ends with 0 and prints the blend, the verdicts, the figures and the cautions', async () => {
    const { code, out, err } = await said(['propose', file('met.yaml')]);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toMatch(
      /^Small dish\ninvented example · cheapest · gypsum plaster · mould 300 mL · dry-indoor service/,
    );
    for (const heading of ['BLEND for 3 pieces, 5 % waste', 'TARGETS', 'WHAT TO EXPECT OF ONE PIECE', 'CAUTIONS']) {
      expect(out).toContain(heading);
    }
    expect(out).toMatch(/met {2}dry weight +at most 454 g|met {2}dry weight/);
    expect(out).toMatch(/strength, an estimate/);
    expect(out).toContain('Never put a hand or any body part in setting plaster');
    expect(out).toContain('safety data sheet');
    expect(out).not.toMatch(ESCAPE);
    expect(out).not.toMatch(/undefined|NaN|null|\[object/);
  });

  it('weighs out what the figures are of: the parts of a piece add up to its weight as poured', async () => {
    const { out } = await said(['propose', file('met.yaml'), '--json']);
    const result = proposalResultSchema.parse(JSON.parse(out));
    expect(result.status).toBe('met');
    expect(result.met).toBe(true);
    const sum = (of: (b: (typeof result.blend)[number]) => number): number =>
      result.blend.reduce((s, b) => s + of(b), 0);
    const poured = result.properties.find((p) => p.property === 'fresh-weight')!.value!;
    expect(sum((b) => b.pieceGrams)).toBeCloseTo(poured, 6);
    // What is weighed fills so many moulds: three and what is wasted, but for the steps of the scale.
    expect(sum((b) => b.batchGrams)).toBeCloseTo(result.fills! * poured, 6);
    expect(result.fills! * 0.95).toBeCloseTo(3, 1);
    const cost = result.properties.find((p) => p.property === 'cost')!.value!;
    const perGram: Record<string, number> = {
      'casting-plaster': 31 / 25_000,
      'limestone-flour': 6.2 / 10_000,
      water: 0,
    };
    expect(sum((b) => b.pieceGrams * perGram[b.material]!) / 0.95).toBeCloseTo(cost, 9);
    for (const { litres, scoops, partsByMass, batchGrams } of result.blend) {
      expect(scoops).toBeCloseTo(litres! * 10, 9);
      expect(partsByMass).toBeGreaterThan(0);
      expect(batchGrams).toBeGreaterThan(0);
    }
  });

  it('is told as assess tells of what is weighed out, to the last figure', () => {
    const ran = spawned(['propose', 'met.yaml', '--json'], where);
    const proposed = proposalResultSchema.parse(JSON.parse(ran.out));
    const amounts = proposed.blend.map((b) => `${b.material}: ${b.batchGrams} g`).join(', ');
    writeFileSync(
      file('weighed.yaml'),
      `title: Small dish\nshop: shop.yaml\nmould: { water: 300 mL }\namounts: { ${amounts} }\ntargets: { strength: { min: 5 MPa }, dry-weight: { max: 1 lb } }\n`,
    );
    const assessed = assessmentResultSchema.parse(JSON.parse(spawned(['assess', 'weighed.yaml', '--json'], where).out));
    expect(assessed.fills).toBeCloseTo(proposed.fills!, 9);
    expect(assessed.targets.map((t) => [t.property, t.met])).toEqual(proposed.targets.map((t) => [t.property, t.met]));
    for (const { property, value } of proposed.properties) {
      const there = assessed.properties.find((p) => p.property === property)!.value;
      if (value === null) expect(there).toBeNull();
      else expect(Math.abs(there! - value), property).toBeLessThanOrEqual(1e-9 * Math.abs(value));
    }
  });

  it('is the same when read from standard input', async () => {
    const text = `shop: ${file('shop.yaml')}\nmould: { water: 300 mL }\nobjective: cheapest\nmaterials: { only: [casting-plaster] }\n`;
    const { code, out } = await said(['propose', '-'], text);
    expect(code).toBe(0);
    expect(out).toContain('beta casting plaster');
    expect(out).toContain('untitled brief');
  });

  it('takes another shop and another price list', async () => {
    const costs = async (...more: string[]): Promise<number> => {
      const { out } = await said(['propose', file('met.yaml'), '--json', ...more]);
      return proposalResultSchema.parse(JSON.parse(out)).objective.weighed!;
    };
    const dear = folderOf({
      'prices.csv': 'material,pack,price\ncasting-plaster,1 kg,31.00\nlimestone-flour,1 kg,62.00\n',
    });
    expect(await costs('--prices', join(dear, 'prices.csv'))).toBeGreaterThan(5 * (await costs()));
    rmSync(dear, { recursive: true });
  });

  it('prints pounds and Fahrenheit where they are asked for', async () => {
    const { out } = await said(['propose', file('met.yaml'), '--units', 'us']);
    // What may spoil a piece and the cautions are told in fixed words.
    const figures = out.slice(0, out.indexOf('Ranges hold'));
    expect(figures).toMatch(/\d oz\b/);
    expect(figures).toMatch(/\d °F/);
    expect(figures).toMatch(/\d psi/);
    expect(figures).not.toMatch(/\d g\b|\d °C|\d MPa/);
  });

  it('says what the figures rest on, and the cautions in full, when asked', async () => {
    const plain = await said(['propose', file('met.yaml')]);
    const { out } = await said(['propose', file('met.yaml'), '--why', '--cautions']);
    expect(out).toContain('WHAT THE FIGURES REST ON');
    expect(out).toContain('Source:');
    expect(out.length).toBeGreaterThan(1.5 * plain.out.length);
  });
});

describe('a brief that nothing can meet', () => {
  it('ends with 1 and says what collides and by how much the nearest misses', async () => {
    const { code, out, err } = await said(['propose', file('collides.yaml')]);
    expect(code).toBe(1);
    expect(err).toBe('');
    expect(out).toContain('NO BLEND MEETS EVERYTHING');
    expect(out).toMatch(/These cannot hold together[.:](.*\n)*? {4}dry weight at most 305 g/);
    expect(out).toMatch(/missed by \d/);
    expect(out).toContain('NEAREST BLEND');
    expect(out).toContain('CAUTIONS');
  });

  it('is data with --json, by the same schema', async () => {
    const { code, out } = await said(['propose', file('collides.yaml'), '--json']);
    expect(code).toBe(1);
    const result = proposalResultSchema.parse(JSON.parse(out));
    expect(result.status).toBe('nearest');
    expect(result.met).toBe(false);
    expect(result.conflict!.collisions.length).toBeGreaterThan(0);
    for (const { missedBy } of result.conflict!.missed) expect(missedBy).toBeGreaterThan(0);
  });
});

describe('the sheet', () => {
  it.each([40, 60, 80, 100])('fits a terminal of %i columns', async (columns) => {
    for (const name of ['met.yaml', 'collides.yaml']) {
      const { out } = await said(['propose', file(name), '--why'], '', { columns });
      expect(widest(out)).toBeLessThanOrEqual(columns);
    }
  });

  it('is coloured only where colour is wanted, and says the same then', async () => {
    const plain = await said(['propose', file('met.yaml')]);
    const coloured = await said(['propose', file('met.yaml')], '', { colour: true });
    expect(plain.out).not.toMatch(ESCAPE);
    expect(coloured.out).toMatch(ESCAPE);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colours are taken off
    expect(coloured.out.replace(/\u001b\[\d+m/g, '')).toBe(plain.out);
  });
});

describe('help', () => {
  it.each([
    [[], /Usage: pourwright \[options\] \[command\]/],
    [['--help'], /Every verb has its own help/],
    [['--version'], /^\d+\.\d+\.\d+\n$/],
    [['propose', '--help'], /Usage: pourwright propose \[options\] <brief>(.|\n)*--units <system>(.|\n)*--json/],
    [['assess', '--help'], /Usage: pourwright assess \[options\] <recipe>(.|\n)*--why/],
    [['shelf', '--help'], /Usage: pourwright shelf \[options\] \[material\](.|\n)*--kind(.|\n)*--check/],
  ])('%j ends with 0', async (argv, expected) => {
    const { code, out, err } = await said(argv as string[]);
    expect(code).toBe(0);
    expect(err).toBe('');
    expect(out).toMatch(expected as RegExp);
  });

  it('of every verb there is fits the terminal and names its options', async () => {
    const { out } = await said(['--help']);
    const verbs = [...out.matchAll(/^ {2}([a-z-]+) (?:\[|<)/gm)].map((m) => m[1]!);
    expect(verbs.length).toBeGreaterThan(8);
    for (const verb of verbs.filter((v) => v !== 'help')) {
      const help = await said([verb, '--help'], '', { columns: 80 });
      expect(help.code, verb).toBe(0);
      expect(help.out).toContain(`Usage: pourwright ${verb}`);
      expect(widest(help.out), verb).toBeLessThanOrEqual(80);
    }
  });
});
