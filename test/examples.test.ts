import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assessmentResultSchema, proposalResultSchema } from '../src/core/report/result-schema.js';
import { said } from './support/cli.js';

/** Every example runs, from a copy, so that none of them can leave anything behind. */
const ROOT = join(import.meta.dirname, '..');
const STALL = join('examples', 'garden-stall');
const home = process.cwd();
let copy = '';

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), 'pourwright-examples-'));
  cpSync(join(ROOT, 'examples'), join(copy, 'examples'), { recursive: true });
  process.chdir(copy);
});
afterAll(() => {
  process.chdir(home);
  rmSync(copy, { recursive: true, force: true });
});

/** Nothing, or what is told of a search that takes its time. */
const PROGRESS = /^(pourwright: (looking|searching|trying)[^\n]*\n)*$/;

const files = (folder: string): string[] =>
  readdirSync(join(ROOT, folder))
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => join(folder, name));
const holds = (file: string, field: string): boolean =>
  new RegExp(`^${field}:`, 'm').test(readFileSync(join(ROOT, file), 'utf8'));

const briefs = files(STALL).filter((file) => holds(file, 'objective'));
const recipes = files(join(STALL, 'recipes'));

/** Lines of a README that are indented as commands, without their remarks. */
const commands = (readme: string): string[][] =>
  readFileSync(join(ROOT, readme), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('    pourwright '))
    .map((line) =>
      line
        .trim()
        .replace(/\s+#.*$/, '')
        .split(/\s+/)
        .slice(1),
    );

describe('the briefs', () => {
  const impossible = briefs.filter((file) => file.includes('impossible'));

  it('exercise every objective, and are marked as invented', () => {
    expect(briefs.length).toBeGreaterThanOrEqual(6);
    expect(impossible).toHaveLength(1);
    const objectives = new Set(
      briefs.map((file) => /^objective: (\w+)/m.exec(readFileSync(join(ROOT, file), 'utf8'))![1]),
    );
    expect([...objectives].sort()).toEqual(['cheapest', 'heaviest', 'lightest', 'quickest', 'strongest']);
    for (const file of [...briefs, ...recipes]) expect(holds(file, 'invented'), file).toBe(true);
  });

  it.each(briefs)('%s is met, or says what collides', async (file) => {
    const { code, out, err } = await said(['propose', file, '--json']);
    expect(err).toMatch(PROGRESS);
    const result = proposalResultSchema.parse(JSON.parse(out));
    const met = !impossible.includes(file);
    expect(code).toBe(met ? 0 : 1);
    expect(result.status).toBe(met ? 'met' : 'nearest');
    expect([...result.targets, ...result.standing].every((v) => v.met)).toBe(met);
    expect((result.conflict?.collisions.length ?? 0) > 0).toBe(!met);
    expect(result.invented).toBe(true);
  });
});

describe('the recipes', () => {
  it.each(recipes)('%s is assessed', async (file) => {
    const { code, out, err } = await said(['assess', file, '--json']);
    expect(err).toMatch(PROGRESS);
    const result = assessmentResultSchema.parse(JSON.parse(out));
    expect(code).toBe(result.met ? 0 : 1);
    expect(result.invented).toBe(true);
    if (file.includes('far-too-wet')) {
      expect(result.warnings.map((w) => w.code)).toContain('recipe-cement-water-by-volume');
    }
  });
});

describe('the page of the examples', () => {
  const lines = commands(join(STALL, 'README.md'));

  it('shows more than one verb', () => {
    expect(lines.length).toBeGreaterThan(10);
    expect(new Set(lines.map(([verb]) => verb)).size).toBeGreaterThan(3);
  });

  it.each(lines.map((argv) => [argv.join(' '), argv] as const))('pourwright %s runs', async (_line, argv) => {
    const { code, out, err } = await said(argv);
    expect(err).toMatch(PROGRESS);
    // Done: met, or a target missed.
    expect([0, 1]).toContain(code);
    expect(out.length).toBeGreaterThan(100);
    expect(out).not.toMatch(/undefined|NaN|\[object/);
  });

  it('names every file of the folder', () => {
    const page = readFileSync(join(ROOT, STALL, 'README.md'), 'utf8');
    const names = readdirSync(join(ROOT, STALL)).filter((n) => /\.(yaml|csv)$/.test(n));
    expect(names.length).toBeGreaterThan(10);
    for (const name of names) expect(page).toContain(name);
  });
});

describe('the README', () => {
  it('names only verbs that exist', async () => {
    const { out } = await said(['--help']);
    const verbs = new Set([...out.matchAll(/^ {2}([a-z-]+) (?:\[|<)/gm)].map((m) => m[1]!));
    const text = readFileSync(join(ROOT, 'README.md'), 'utf8');
    const used = [...text.matchAll(/`pourwright ([a-z-]+)/g), ...text.matchAll(/^\| `([a-z-]+)/gm)].map((m) => m[1]!);
    expect(used.length).toBeGreaterThan(5);
    for (const verb of used) expect(verbs, verb).toContain(verb);
  });

  it('proposes a blend by its demo line, as a process of its own', () => {
    const script = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { scripts: { demo: string } };
    const line = /node dist\/pourwright\.cjs (.+)$/.exec(script.scripts.demo)![1]!.split(' ');
    const out = execFileSync(process.execPath, [join(ROOT, 'dist', 'pourwright.cjs'), ...line], { encoding: 'utf8' });
    expect(out).toContain('BLEND for');
    expect(out).toContain('CAUTIONS');
  });

  it('walks a newcomer from water fill to weigh-out: its shop, price list and brief work as printed', async () => {
    const text = readFileSync(join(ROOT, 'README.md'), 'utf8');
    const fenced = [...text.matchAll(/```yaml\n([\s\S]*?)```/g)].map((m) => m[1]!);
    const csv = /((?: {4}\S.*\n)+)/
      .exec(text.slice(text.indexOf('    material,pack,price')))![1]!
      .replace(/^ {4}/gm, '');
    const [shop, brief] = [fenced.find((y) => y.includes('prices:'))!, fenced.find((y) => y.includes('objective:'))!];
    const { folderOf } = await import('./support/cli.js');
    const folder = folderOf({ 'prices.csv': csv, 'shop.yaml': shop, 'pocket.yaml': brief });
    const { code, out, err } = await said(['propose', join(folder, 'pocket.yaml'), '--json']);
    // What is weighed out is what the newcomer wrote down to have.
    const own = ['casting-plaster', 'portland-cement-grey', 'silica-sand-fine', 'perlite', 'water'];
    const weighed = (JSON.parse(out) as { blend: { material: string }[] }).blend.map((i) => i.material);
    expect(weighed.length).toBeGreaterThan(1);
    for (const id of weighed) expect(own).toContain(id);
    expect(err).toMatch(PROGRESS);
    expect(code).toBe(0);
    // What is poured is written down by the line as printed, and a recipe of one's own is told.
    const line = /^ {4}pourwright (pours add .+)$/m.exec(text)![1]!;
    const argv = [...line.matchAll(/"([^"]*)"|\S+/g)].map(([word, quoted]) => quoted ?? word);
    const here = process.cwd();
    process.chdir(folder);
    try {
      const added = await said(argv);
      expect([added.code, added.err]).toEqual([0, '']);
      expect(readFileSync('pours.csv', 'utf8')).toContain('351');
      // The next prediction is the shop's own once its file says so, by the line that README and fit both print.
      const fitted = await said(['pours', 'fit', '--shop', 'shop.yaml']);
      const named = /`(learned: \S+)`/.exec(text)![1]!;
      expect(fitted.out.replace(/\s+/g, ' ')).toContain(`add this line to it: ${named}`);
      const asked = async (): Promise<unknown> => JSON.parse((await said(['assess', 'recipe.yaml', '--json'])).out);
      writeFileSync('recipe.yaml', fenced.find((y) => y.includes('amounts:'))!);
      expect(await asked()).toMatchObject({ ownFigures: [] });
      writeFileSync('shop.yaml', `${shop}${named}\n`);
      expect(((await asked()) as { ownFigures: unknown[] }).ownFigures.length).toBeGreaterThan(0);
      const told = await said(['assess', 'recipe.yaml', '--json']);
      expect([told.code, told.err]).toEqual([0, '']);
      expect(assessmentResultSchema.parse(JSON.parse(told.out)).fills).toBeGreaterThan(1);
    } finally {
      process.chdir(here);
      rmSync(folder, { recursive: true });
    }
  });
});
