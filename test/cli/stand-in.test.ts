import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { standInResultSchema } from '../../src/core/report/stand-in-schema.js';
import { folderOf, said } from '../support/cli.js';

const STALL = new URL('../../examples/garden-stall', import.meta.url).pathname;
const example = (name: string): string => join(STALL, name);

const KINDS = [
  ['stand-in-gypsum.yaml', 'gypsum', 'gypsum cement'],
  ['stand-in-rapid-cement.yaml', 'csa', 'rapid-setting cement'],
  ['stand-in-acrylic-gypsum.yaml', 'gypsum', 'polymer-modified gypsum'],
] as const;

describe('stand-in on the command line', () => {
  it.each(KINDS)('%s: finds a blend close in everything', async (file, system, kind) => {
    const { code, out } = await said(['stand-in', example(file), '--json']);
    const result = standInResultSchema.parse(JSON.parse(out));
    expect(code).toBe(0);
    expect(result.invented).toBe(true);
    const [best] = result.candidates;
    expect(best!.system).toBe(system);
    expect(best!.within && best!.holds).toBe(true);
    expect(best!.got.map((g) => g.property)).toEqual(result.wanted.map((w) => w.property));
    for (const [i, got] of best!.got.entries()) {
      const { low, high, tolerance } = result.wanted[i]!;
      const under = low === null ? 0 : Math.max(0, low - got.value!);
      const over = high === null ? 0 : Math.max(0, got.value! - high);
      expect(got.miss).toBeCloseTo(over - under, 12);
      expect(Math.abs(got.miss!)).toBeLessThanOrEqual(tolerance * (1 + 1e-9));
      expect(got.chance).toBeGreaterThan(0.3);
    }
    expect(best!.blend.filter((i) => i.kind !== 'water' && i.kind !== 'polymer').length).toBeLessThanOrEqual(4);
    expect(best!.blend.some((i) => i.kind === 'polymer')).toBe(file.includes('acrylic'));

    const text = await said(['stand-in', example(file)]);
    expect(text.code).toBe(0);
    expect(text.out).toContain(`stand-in for a ${kind}`);
    expect(text.out).toContain('invented example');
    for (const heading of ['WHAT THE DESCRIPTION TELLS', 'CLOSEST', 'HOW CLOSE', 'CAUTIONS']) {
      expect(text.out).toContain(heading);
    }
    for (const { name } of result.wanted) expect(text.out).toContain(name);
  });

  it('shows another one in full, and says how many there are', async () => {
    const file = example('stand-in-acrylic-gypsum.yaml');
    const second = await said(['stand-in', file, '--rank', '2']);
    expect(second.out).toContain('NUMBER 2');
    expect(second.out).toContain('CAUTIONS');
    const none = await said(['stand-in', file, '--rank', '9']);
    expect(none.code).toBe(2);
    expect(none.err).toMatch(/--rank.*at most \d/s);
    const odd = await said(['stand-in', file, '--rank', 'best']);
    expect(odd.code).toBe(2);
  });

  it('keeps to fewer ingredients when told', async () => {
    const { out } = await said(['stand-in', example('stand-in-gypsum.yaml'), '--at-most', '1', '--json']);
    for (const one of standInResultSchema.parse(JSON.parse(out)).candidates) {
      expect(one.blend.filter((i) => i.kind !== 'water').length).toBe(1);
    }
  });

  it('ends with 1 where nothing comes within tolerance, and still says what is nearest', async () => {
    const folder = folderOf({
      'light.yaml': `invented: true
mix: { powder: 100 g, liquid: 30 g }
sample: { volume: 250 mL, demoulded: 140 g, dry: 110 g }
hardness: very-hard
demould-time: 3 min
materials: { only: [portland-cement-grey, masonry-sand] }
`,
    });
    const { code, out } = await said(['stand-in', join(folder, 'light.yaml')]);
    expect(code).toBe(1);
    expect(out).toContain('OFF');
    // 140 g in 250 mL with 30 % of water is a very light powder.
    expect(out).toContain('WARNING');
  });

  it('says what is wrong with a description, each with its line', async () => {
    const folder = folderOf({
      'wrong.yaml': `kind: polymer-gypsum
mix: { powder: 100 g, liquid: 36 g }
sample: { volume: 250 mL, demoulded: 300 g, dry: 400 g }
hardnes: hard
`,
      'wrong-too.yaml': `kind: polymer-gypsum
mix: { powder: 100 g, liquid: 36 g }
sample: { volume: 250 mL, demoulded: 300 g, dry: 400 g }
`,
    });
    const first = await said(['stand-in', join(folder, 'wrong.yaml')]);
    expect(first.code).toBe(2);
    expect(first.err).toContain('hardness');
    const second = await said(['stand-in', join(folder, 'wrong-too.yaml'), '--json']);
    expect(second.code).toBe(2);
    const { problems } = JSON.parse(second.out);
    expect(problems.map((p: { path: string; line: number }) => [p.path, p.line])).toEqual(
      expect.arrayContaining([
        ['sample.dry', 3],
        ['mix.liquid-is', 2],
      ]),
    );
  });
});

describe('propose with fewer ingredients and in parts', () => {
  it('keeps to them, says what that costs, and gives whole numbers with the size of a part', async () => {
    const file = example('wall-pocket.yaml');
    const { code, out } = await said(['propose', file, '--at-most', '2', '--parts', 'scoop', '--json']);
    const result = JSON.parse(out);
    expect(code).toBe(0);
    expect(result.blend.filter((i: { kind: string }) => i.kind !== 'water').length).toBeLessThanOrEqual(2);
    expect(result.limits.ingredients).toBe(2);
    expect(result.limits.without).toBeLessThan(result.objective.exact);
    expect(result.parts.by).toBe('scoop');
    const scoop = 120;
    expect(result.parts.scoops).toBeCloseTo(result.parts.part / scoop, 9);
    for (const part of result.parts.parts) {
      expect(Number.isInteger(part.parts)).toBe(true);
      expect(part.error).toBeGreaterThan(0);
    }
    const text = await said(['propose', file, '--at-most', '2', '--parts', 'scoop']);
    expect(text.out).toMatch(/IN PARTS by scoop: \d+ .* : \d+ /);
    expect(text.out).toContain('a scoop can be off by');
    expect(text.out).toContain('with at most 2 dry ingredients');
  });

  it('takes both from the brief, and the option before the brief', async () => {
    const brief = readFileSync(example('wall-pocket.yaml'), 'utf8').replace(
      'shop: shop.yaml',
      `shop: ${example('shop.yaml')}`,
    );
    const folder = folderOf({
      'pocket.yaml': `${brief}\nlimits: { ingredients: 3, least-dose: 20 g }\nparts: { by: mass, most: 5 }\n`,
    });
    const file = join(folder, 'pocket.yaml');
    const own = JSON.parse((await said(['propose', file, '--json'])).out);
    expect(own.limits).toMatchObject({ ingredients: 3, leastDose: 20 });
    expect(own.parts.by).toBe('mass');
    expect(Math.max(...own.parts.parts.map((p: { parts: number }) => p.parts))).toBeLessThanOrEqual(5);
    for (const i of own.blend) if (i.kind !== 'water') expect(i.batchGrams).toBeGreaterThanOrEqual(20);
    const told = JSON.parse((await said(['propose', file, '--at-most', '2', '--parts', 'scoop', '--json'])).out);
    expect(told.limits).toMatchObject({ ingredients: 2, leastDose: 20 });
    expect(told.parts.by).toBe('scoop');
  });

  it.each([
    [['--at-most', '0'], '--at-most'],
    [['--at-most', 'few'], '--at-most'],
    [['--parts', 'cups'], 'mass, scoop'],
  ])('refuses %s', async (options, named) => {
    const { code, err } = await said(['propose', example('wall-pocket.yaml'), ...options]);
    expect(code).toBe(2);
    expect(err).toContain(named);
  });

  it('refuses so few ingredients that the doses asked for leave no room for a binder', async () => {
    const { code, err } = await said(['propose', example('soap-tray.yaml'), '--at-most', '1']);
    expect(code).toBe(2);
    expect(err).toContain('ar-glass-fibre asked for');
    expect(err).toContain('at least 2');
  });

  it('says which limit the scale is too coarse for', async () => {
    const folder = folderOf({
      'shop.yaml': 'invented: true\nscale: { step: 5 g }\n',
      'fine.yaml': `invented: true
shop: shop.yaml
mould: { water: 60 mL }
objective: lightest
materials: { only: [casting-plaster] }
targets: { water-to-binder: { min: 0.701, max: 0.704 } }
`,
    });
    const { code, out } = await said(['propose', join(folder, 'fine.yaml')]);
    expect(code).toBe(1);
    expect(out).toContain('no rounding of it to 5 g');
    expect(out).toMatch(/water-to-binder.*missed by/);
    expect(out).toMatch(/A scale that tells [\d.]+ g would do/);
  });
});
