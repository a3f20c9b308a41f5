import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { PROPERTIES } from '../../src/core/blend/properties/index.js';
import { whyListSchema, whyResultSchema } from '../../src/core/report/why-schema.js';
import { MODELS } from '../../src/core/science/provenance.js';
import { sieveResultSchema } from '../../src/core/sieve/sieve-schema.js';
import { folderOf, said } from '../support/cli.js';

const example = (name: string) => fileURLToPath(new URL(`../../examples/garden-stall/sieves/${name}`, import.meta.url));
const YARD = example('yard-sand.csv');
const DUNE = example('dune-sand.yaml');

describe('sieve', () => {
  it('prints grading, modulus, verdict and plot of one sand, on narrow and wide terminals', async () => {
    for (const columns of [40, 80, 120]) {
      const { code, out } = await said(['sieve', YARD], '', { columns });
      expect(code).toBe(0);
      expect(out).toMatch(/Fineness modulus/);
      expect(out).toMatch(/envelope of ASTM C33/);
      expect(Math.max(...out.split('\n').map((l) => [...l].length))).toBeLessThanOrEqual(Math.max(columns, 40));
    }
  });

  it('finds the mix of several, with the shelf’s, as one JSON object of its schema', async () => {
    const { code, out } = await said(['sieve', YARD, DUNE, '--with', 'silica-sand-coarse', '--json']);
    expect(code).toBe(0);
    const result = sieveResultSchema.parse(JSON.parse(out));
    expect(result.sands.map((s) => s.name)).toEqual(['yard-sand', 'dune sand', 'coarse silica sand']);
    expect(result.mix!.byMass.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    expect(result.invented).toBe(true);
  });

  it('takes the curve that is asked for', async () => {
    const asked = async (...more: string[]) =>
      sieveResultSchema.parse(JSON.parse((await said(['sieve', YARD, DUNE, '--json', ...more])).out)).mix!.target;
    expect(await asked()).toMatchObject({ curve: 'andreasen', q: 0.37, smallest: 0.063 });
    expect(await asked('--curve', 'fuller', '--largest', '2 mm')).toMatchObject({
      curve: 'fuller',
      q: 0.5,
      largest: 2,
    });
    expect(await asked('--exponent', '0.25', '--smallest', '75 um')).toMatchObject({ q: 0.25, smallest: 0.075 });
  });

  it('reads standard input, as CSV and as YAML', async () => {
    for (const file of [YARD, DUNE]) {
      const { code, out } = await said(['sieve', '-'], readFileSync(file, 'utf8'));
      expect([code, /Fineness modulus/.test(out)]).toEqual([0, true]);
    }
  });

  it('writes a picture and a row that the shelf accepts, and never overwrites a row', async () => {
    const folder = folderOf({});
    const [svg, row] = [join(folder, 'a.svg'), join(folder, 'mine.yaml')];
    expect((await said(['sieve', DUNE, '--svg', svg, '--row', row])).code).toBe(0);
    expect(readFileSync(svg, 'utf8')).toMatch(/^<svg /);
    expect((await said(['shelf', '--check', row])).out).toMatch(/1 material, all in order/);
    expect((await said(['sieve', '--with', 'dune-sand', '--materials', row])).out).toMatch(/dune-sand, from the shelf/);
    expect((await said(['sieve', DUNE, '--row', row])).code).toBe(2);
  });

  it.each([
    [['sieve'], /1 to 6 sands/],
    [['sieve', YARD, '--svg', 'brief.yaml'], /ends in \.svg/],
    [['sieve', YARD, '--row', 'x.csv'], /ends in \.yaml/],
    [['sieve', YARD, DUNE, '--row', 'x.yaml'], /one sand of your own/],
    [['sieve', YARD, '--exponent', '7'], /0\.05 to 1/],
    [['sieve', YARD, DUNE, '--smallest', '3 mm', '--largest', '2 mm'], /less than --largest/],
    [['sieve', '--with', 'casting-plaster'], /a grading in its row/],
    [['sieve', 'no-such.csv'], /no such file/],
  ])('%j is refused', async (argv, words) => {
    const { code, err } = await said(argv);
    expect(code).toBe(2);
    expect(err).toMatch(words);
    expect(existsSync('x.yaml')).toBe(false);
  });
});

describe('why', () => {
  it('lists properties and models', async () => {
    const list = whyListSchema.parse(JSON.parse((await said(['why', '--json'])).out));
    expect(list.properties.map((p) => p.id)).toEqual(PROPERTIES.map((p) => p.id));
    expect(list.models).toHaveLength(MODELS.length);
    expect((await said(['why'])).out).toMatch(/^PROPERTIES/);
  });

  it('prints equation, symbols, source, validity, misfits and checks with their error', async () => {
    const { code, out } = await said(['why', 'dry-weight']);
    expect(code).toBe(0);
    for (const words of [/0\.1862/, /Symbols:/, /Source:/, /Holds for:/, /Known to miss:/, /printed .*ours .*%/])
      expect(out).toMatch(words);
    expect((await said(['why', 'dry-weight', '--all'])).out.length).toBeGreaterThan(out.length);
  });

  it('shows ACI’s table and the fibre note with strength', async () => {
    const { out } = await said(['why', 'strength']);
    expect(out).toMatch(/ACI 211\.1’s table beside/);
    expect(out).toMatch(/Fibre makes a piece tougher/);
  });

  it('is one JSON object of its schema for every property', async () => {
    for (const { id } of PROPERTIES) {
      const why = whyResultSchema.parse(JSON.parse((await said(['why', id, '--json'])).out));
      expect(why.property!.id).toBe(id);
    }
  });

  it('offers the nearest word', async () => {
    const { code, err } = await said(['why', 'dry-wieght']);
    expect([code, /Did you mean “dry-weight”/.test(err)]).toEqual([2, true]);
  });

  it.each([
    // Printed as “sulfate of the binder (SO3)”; it tells of the model so3-limit too.
    ['so3', 'sulfate'],
    // In its id and in what it is printed as, which mean the same.
    ['pozzolan', 'pozzolan-to-cement'],
    ['pores', 'capillary-pores'],
    // Models are found where no property is meant.
    ['hydration', 'hydration-growth'],
    ['flash-sett', 'flash-set'],
    ['so3-limt', 'so3-limit'],
  ])('takes “%s” for %s', async (word, meant) => {
    expect((await said(['why', word])).err).toContain(`Did you mean “${meant}”?`);
  });

  it('guesses nothing of a word that several hold', async () => {
    expect((await said(['why', 'cement'])).err).not.toContain('Did you mean');
  });
});
