import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { problemResultSchema } from '../../src/core/report/result-schema.js';
import { folderOf, said, spawned } from '../support/cli.js';

/** Mistakes as makers meet them: the built command in a folder of its own, its exit code, its words, what it leaves. */

const GOOD = `shop: shop.yaml
mould: { water: 300 mL }
objective: cheapest
materials: { only: [casting-plaster, limestone-flour] }
`;
const FILES = {
  'brief.yaml': GOOD,
  'shop.yaml': 'currency: EUR\nprices: prices.csv\n',
  'prices.csv': 'material,pack,price\ncasting-plaster,25 kg,31.00\nlimestone-flour,10 kg,6.20\n',
};
const folders: string[] = [];
afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});

function folder(more: Readonly<Record<string, string>> = {}): string {
  const made = folderOf({ ...FILES, ...more });
  folders.push(made);
  return made;
}

/** Runs, and expects one or more plain lines of complaint, nothing on the output, nothing written, no trace of the code. */
function refused(argv: readonly string[], where: string): readonly string[] {
  const before = readdirSync(where).sort();
  const { code, out, err } = spawned(argv, where);
  expect(code, err).toBe(2);
  expect(out).toBe('');
  expect(readdirSync(where).sort()).toEqual(before);
  const lines = err.trimEnd().split('\n');
  for (const line of lines) {
    expect(line).toMatch(/^pourwright: /);
    expect(line).not.toMatch(/node_modules|\.ts:|\.js:\d|\bat \w+ \(|Error:|undefined|NaN|\[object/);
    expect(line.length).toBeLessThan(400);
  }
  return lines;
}

const brief = (text: string) => ({ 'brief.yaml': text });

describe('a mistake in a file ends with exit code 2 and one clear line', () => {
  it.each<[string, Readonly<Record<string, string>>, RegExp]>([
    [
      'an unknown material, with the nearest',
      brief(GOOD.replace('casting-plaster', 'casting-plastre')),
      /brief\.yaml line 4, materials\.only\[0\]: there is no such material: found “casting-plastre”\. Did you mean “casting-plaster”\?/,
    ],
    [
      'an impossible mould',
      brief(
        GOOD.replace(
          '{ water: 300 mL }',
          '{ solid: { shape: cylinder, diameter: 5 cm, height: 5 cm }, core: { shape: cylinder, diameter: 6 cm, height: 4 cm } }',
        ),
      ),
      /brief\.yaml line 2, mould\.core: no mould can have this shape/,
    ],
    [
      'a unit of the wrong kind',
      brief(GOOD.replace('300 mL', '300 MPa')),
      /brief\.yaml line 2, mould\.water: found “300 MPa”, expected a/,
    ],
    [
      'no binder that stands the place',
      brief(`${GOOD}service: wet\n`),
      /brief\.yaml line 4, materials: this does not fit together: found “no binder that may be used here”/,
    ],
    [
      'limits that contradict each other',
      brief(`${GOOD}targets: { dry-weight: { min: 300 g, max: 200 g } }\n`),
      /brief\.yaml line 5, targets\.dry-weight: these limits contradict each other/,
    ],
    [
      'a field that does not exist, with the nearest',
      brief(GOOD.replace('objective', 'objectiv')),
      /brief\.yaml line 3, objectiv: there is no such field here.*Did you mean “objective”\?/,
    ],
    [
      'a target without its side',
      brief(`${GOOD}targets:\n  strength: 5 MPa\n`),
      /brief\.yaml line 6, targets\.strength: found “5 MPa”, expected min or max, such as strength: \{ min: 5 MPa \}\.$/,
    ],
    [
      'a mould without the way it was measured',
      brief(GOOD.replace('{ water: 300 mL }', '300')),
      /line 2, mould: found “300”, expected water, solid, core or piece, such as mould: \{ water: 300 \}\.$/,
    ],
    [
      'targets that are none',
      brief(`${GOOD}targets: light\n`),
      /line 5, targets: found “light”, expected named fields\.$/,
    ],
    [
      'a currency in small letters',
      { 'shop.yaml': 'currency: eur\nprices: prices.csv\n' },
      /shop\.yaml line 1, currency: found “eur”, expected three capital letters, such as EUR\.$/,
    ],
    [
      'a region there is no caution for, without a guess',
      { 'shop.yaml': 'currency: EUR\nprices: prices.csv\nregion: UK\n' },
      /shop\.yaml line 3, region: found “UK”, expected one of US, EU\.$/,
    ],
    [
      'malformed YAML',
      brief('mould: { water: 300 mL\nobjective: cheapest\n'),
      /brief\.yaml line \d+(:\d+)?: this is not valid YAML/,
    ],
    ['an empty file', brief(''), /brief\.yaml: the file is empty/],
    ['a binary file', brief('mould\u0000: \u0001\u0002'), /brief\.yaml: this is not a text file/],
    [
      'a price for an unknown material',
      { 'prices.csv': 'material,pack,price\ncasting-plastre,25 kg,31.00\nlimestone-flour,10 kg,6.20\n' },
      /prices\.csv line 2, material: there is no such material: found “casting-plastre”\. Did you mean “casting-plaster”\?/,
    ],
    [
      'a price that is missing',
      { 'prices.csv': 'material,pack,price\nlimestone-flour,10 kg,6.20\n' },
      /brief\.yaml line 4, materials\.only\[0\]: a cost is asked for, and this material has no price/,
    ],
    [
      'a malformed table',
      { 'prices.csv': 'material,pack,price\n"casting-plaster,25 kg,31.00\n' },
      /prices\.csv line 2.*double quote/,
    ],
    [
      'a shop that is not there, with the nearest',
      brief(GOOD.replace('shop.yaml', 'shopp.yaml')),
      /brief\.yaml line 1, shop: there is no such file: found “shopp\.yaml”\. Did you mean “shop\.yaml”\?/,
    ],
  ])('%s', (_name, files, message) => {
    const lines = refused(['propose', 'brief.yaml'], folder(files));
    // A misspelt field is also a missing one.
    expect(lines.length).toBeLessThanOrEqual(2);
    expect(lines.filter((line) => message.test(line))).toHaveLength(1);
  });

  it('a huge file, without reading it', () => {
    const where = folder();
    truncateSync(join(where, 'brief.yaml'), 60_000_000);
    const began = Date.now();
    expect(refused(['propose', 'brief.yaml'], where)[0]).toMatch(
      /brief\.yaml: the file is too large: found “60000000 bytes”/,
    );
    expect(Date.now() - began).toBeLessThan(20_000);
  });

  it('a folder in the place of a file', () => {
    const where = folder();
    mkdirSync(join(where, 'inside'));
    expect(refused(['propose', 'inside'], where)[0]).toMatch(/inside: the file cannot be read\. This is a folder/);
  });

  it.each<[string, string, RegExp]>([
    [
      'a negative mass',
      'amounts: { casting-plaster: -3 g, water: 2 g }',
      /recipe\.yaml line 1, amounts\.casting-plaster: the amount must be more than zero/,
    ],
    ['a mass of nothing', 'amounts: { casting-plaster: 0 g, water: 2 g }', /the amount must be more than zero/],
    [
      'a material twice',
      'amounts:\n  casting-plaster: 3 g\n  plaster of paris: 3 g\n  water: 2 g',
      /recipe\.yaml line 3, .*this material stands here twice/,
    ],
    ['the same key twice', 'amounts:\n  water: 3 g\n  water: 2 g', /recipe\.yaml line 3/],
    [
      'parts without a basis',
      'amounts: { casting-plaster: 3, water: 2 }',
      /recipe\.yaml line 1, basis: it is not said whether the parts are by mass or by volume/,
    ],
  ])('%s, in a recipe', (_name, text, message) => {
    const where = folder({ 'recipe.yaml': text });
    expect(refused(['assess', 'recipe.yaml'], where)[0]).toMatch(message);
  });
});

describe('several mistakes', () => {
  it('are told at once, a line each', () => {
    const where = folder(
      brief('mould: { water: 3 kg/m3 }\nobjective: lightest\nwall: 9 g\ntargets: { strength: { min: 9 g } }\n'),
    );
    const lines = refused(['propose', 'brief.yaml'], where);
    expect(lines.map((line) => /line (\d+)/.exec(line)?.[1])).toEqual(['3', '1', '4']);
  });

  it('are data with --json', async () => {
    const where = folder(brief('mould: { water: 3 kg/m3 }\nobjective: lightest\nwall: 9 g\n'));
    const { code, out } = await said(['propose', join(where, 'brief.yaml'), '--json']);
    expect(code).toBe(2);
    const { problems } = problemResultSchema.parse(JSON.parse(out));
    expect(problems.map((p) => [p.code, p.line, p.path])).toEqual([
      ['unit-wrong-kind', 3, 'wall'],
      ['unit-wrong-kind', 1, 'mould.water'],
    ]);
  });
});

describe('a mistake on the command line', () => {
  it.each<[readonly string[], RegExp]>([
    [['propse', 'brief.yaml'], /unknown command 'propse'.*propose/],
    [['weigh'], /Verbs: propose, assess/],
    [['propose'], /missing required argument/],
    [['propose', 'brief.yaml', '--unit', 'us'], /unknown option '--unit'.*--units/],
    [['propose', 'brief.yaml', '--units', 'imperial'], /imperial.*metric, us/],
    [['propose', 'brief.yaml', '--units', 'imperial'], /metric, us\. Add --help to see what is there\n$/],
    [['propose', 'bref.yaml'], /bref\.yaml: there is no such file\. Did you mean “brief\.yaml”\?/],
    [['shelf', '--kind', 'sandd'], /--kind.*Did you mean “sand”\?/],
    [['shelf', 'casting plastre'], /found “casting plastre”\. Did you mean “casting-plaster”\?\n$/],
    [['shelf', 'nope'], /there is no such material: found “nope”\. “pourwright shelf” lists them all\.\n$/i],
  ])('%j', async (argv, message) => {
    const where = folder();
    const inFolder = argv.map((word) => (/\.yaml$/.test(word) ? join(where, word) : word));
    const { code, out, err } = await said(inFolder);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(/^pourwright: /);
    expect(err.replaceAll(`${where}/`, '')).toMatch(message);
  });
});

describe('a mistake on the command line, with --json,', () => {
  it.each<[readonly string[], string, RegExp]>([
    [['propose', '--json'], 'usage', /^missing required argument/],
    [['propose', 'a.yaml', 'b.yaml', '--json'], 'usage', /^too many arguments/],
    [['nosuch', '--json'], 'usage', /^unknown command 'nosuch'\. Verbs: propose/],
    [['propose', '--jsn', '--json'], 'option-unknown', /^unknown option '--jsn'.*--json/],
    [['propose', '-', '--units', 'imperial', '--json'], 'option-invalid', /metric, us\. Add --help/],
  ])('%j is data, and a line beside it', async (argv, code, message) => {
    const { code: exit, out, err } = await said(argv);
    expect(exit).toBe(2);
    const { problems } = problemResultSchema.parse(JSON.parse(out));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ code, severity: 'error' });
    expect(problems[0]!.message).toMatch(message);
    expect(err).toBe(`pourwright: ${problems[0]!.message}\n`);
  });
});

describe('the command in a pipe', () => {
  const shell = (line: string, where: string, env: Readonly<Record<string, string>> = {}) =>
    spawnSync('bash', ['-o', 'pipefail', '-c', line], {
      cwd: where,
      encoding: 'utf8',
      env: { ...process.env, ...env },
    });
  const built = `"${process.execPath}" "${join(import.meta.dirname, '..', '..', 'dist', 'pourwright.cjs')}"`;

  it('reads standard input for "-", and prints no escape codes', () => {
    const { stdout, stderr, status } = shell(`${built} propose - < brief.yaml`, folder());
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(stdout).toContain('beta casting plaster');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: escape codes are what is looked for
    expect(stdout).not.toMatch(/\u001b/);
  });

  it('is quiet when the reader has seen enough', () => {
    const where = folder();
    writeFileSync(join(where, 'out.txt'), '');
    for (const line of [
      `${built} shelf | head -n 1`,
      `${built} shelf --json | head -c 10`,
      `${built} --help | head -n 1`,
    ]) {
      const { stderr, stdout } = shell(line, where);
      expect(stderr).toBe('');
      expect(stdout.length).toBeGreaterThan(0);
    }
  });

  it('loses nothing in a file, or on the way to a reader who is slow or who lets nobody wait', () => {
    const where = folder();
    const whole = Number(shell(`${built} shelf --json | wc -c`, where).stdout);
    // More than a pipe holds.
    expect(whole).toBeGreaterThan(100_000);
    const late = '(sleep 1; wc -c)';
    const unwaiting = 'perl -MFcntl -e "fcntl(STDOUT, F_SETFL, O_WRONLY | O_NONBLOCK); exec @ARGV"';
    for (const line of [
      `${built} shelf --json > shelf.json; wc -c < shelf.json`,
      `${built} shelf --json | ${late}`,
      `${unwaiting} ${built} shelf --json | ${late}`,
    ]) {
      const { stdout, stderr } = shell(line, where);
      expect(stderr).toBe('');
      expect(Number(stdout)).toBe(whole);
    }
  });

  it.skipIf(!existsSync('/dev/full'))('says in one line that a disk is full', () => {
    const { stderr, status } = shell(`${built} shelf > /dev/full`, folder());
    expect(status).toBe(2);
    expect(stderr).toBe('pourwright: standard output cannot be written: the disk is full\n');
  });

  it('does its work where nobody wants the output', () => {
    const { stderr, status } = shell(`${built} shelf > /dev/null`, folder());
    expect({ stderr, status }).toEqual({ stderr: '', status: 0 });
  });

  it('says what is wrong with what was piped in', () => {
    const { stderr, status } = shell(`echo 'mould: {}' | ${built} propose -`, folder());
    expect(status).toBe(2);
    expect(stderr).toMatch(/^pourwright: standard input/);
    expect(shell(`${built} propose - < /dev/null`, folder()).stderr).toMatch(/standard input: the file is empty/);
  });
});
