import { rmSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderOf, said } from '../support/cli.js';

const example = (name: string): string => `examples/garden-stall/${name}`;

const BRIEF = example('herb-planter.yaml');
const SIEVED = example('sieves/yard-sand.csv');

describe('a file of another kind', () => {
  it.each([
    ['assess', 'herb-planter.yaml', 'a brief', 'a recipe', 'propose'],
    ['propose', 'recipes/old-planter.yaml', 'a recipe', 'a brief', 'assess'],
    ['propose', 'stand-in-gypsum.yaml', 'a medium', 'a brief', 'stand-in'],
    ['order', 'shop.yaml', 'a shop file', 'an order', 'shop check'],
    ['stand-in', 'spring-market.yaml', 'an order', 'a medium', 'order'],
  ])('pourwright %s %s says that it is %s', async (verb, file, found, expected, try_) => {
    const { code, err, out } = await said([verb, example(file)]);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(`found “${found}”, expected ${expected}`);
    expect(err).toContain(`try pourwright ${try_}.`);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it.each<[string, readonly string[], string, string, string]>([
    ['price', ['price', example('shop.yaml')], 'a shop file', 'a brief or a recipe', 'try pourwright shop check'],
    ['card', ['card', example('spring-market.yaml')], 'an order', 'a brief or a recipe', 'try pourwright order'],
    [
      'a price list',
      ['propose', BRIEF, '--prices', example('shop.yaml')],
      'a shop file',
      'a price list',
      'try pourwright shop check',
    ],
    [
      'another price list',
      ['propose', BRIEF, '--prices', example('pours.csv')],
      'a record of pours',
      'a price list',
      'try pourwright pours show --file',
    ],
    [
      'a materials file',
      ['propose', BRIEF, '--materials', example('shop.yaml')],
      'a shop file',
      'a materials file',
      'try pourwright shop check',
    ],
    ['shelf --check', ['shelf', '--check', BRIEF], 'a brief', 'a materials file', 'try pourwright propose'],
    ['sieve', ['sieve', BRIEF], 'a brief', 'a sieve analysis', 'try pourwright propose'],
    ['propose', ['propose', example('pours.csv')], 'a record of pours', 'a brief', 'try pourwright pours show --file'],
    ['propose', ['propose', example('prices.csv')], 'a price list', 'a brief', 'try it with --prices'],
    ['card', ['card', SIEVED], 'a sieve analysis', 'a brief or a recipe', 'try pourwright sieve'],
    [
      'pours show',
      ['pours', 'show', '--file', example('prices.csv')],
      'a price list',
      'a record of pours',
      'It has “material, price”: try it with --prices',
    ],
    [
      'pours fit',
      ['pours', 'fit', '--file', example('prices.csv')],
      'a price list',
      'a record of pours',
      'try it with',
    ],
  ])('in place of what %s reads is told in one line', async (_name, argv, found, expected, hint) => {
    const { code, err, out } = await said(argv);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(`found “${found}”, expected ${expected}. It has`);
    expect(err).toContain(hint);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it('is no longer one when it has what was asked for, whatever else it has: its own mistake is told', async () => {
    const { err } = await said(['propose', '-'], 'objective: cheepest\nmould: { water: 1 L }\nprices: x.csv\n');
    expect(err).toContain('Did you mean “cheapest”?');
    expect(err).not.toContain('a shop file');
  });

  it.each(['propose', 'assess', 'order', 'stand-in', 'price', 'card'])(
    'pourwright %s says of a single word how its file begins',
    async (verb) => {
      const { code, err, out } = await said([verb, '-'], 'hello\n');
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err).toMatch(
        /^pourwright: standard input: found “hello”, expected named fields, one a line, such as “\w+: …”/,
      );
      expect(err).not.toContain('undefined');
    },
  );
});

describe('a price list that counts its rows', () => {
  const inFolder = async (first: string, row: string, argv: readonly string[]) => {
    const folder = folderOf({ 'list.csv': `${first}\n${row}\n` });
    const told = await said([...argv, `${folder}/list.csv`]);
    rmSync(folder, { recursive: true });
    return told;
  };
  const LISTS = [
    ['id,material,pack,price', '1,casting plaster,25 kg,31.00'],
    ['no;material;price', '1;casting plaster;31.00 per 25 kg'],
    ['Number,date,item,weight,cost', '1,2026-03-02,casting plaster,25 kg,31.00'],
    ['id,pack,price', 'casting-plaster,25 kg,31.00'],
    ['no,date,goods,price (EUR)', '1,2026-03-02,casting plaster,31.00'],
  ] as const;

  it.each(LISTS)('is no record of pours: %s', async (first, row) => {
    for (const verb of ['show', 'fit']) {
      const { code, out, err } = await inFolder(first, row, ['pours', verb, '--file']);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err).not.toMatch(/found “a record of pours”|1 pour/);
      if (!first.includes('goods')) expect(err).toContain('found “a price list”, expected a record of pours');
    }
  });

  it.each(LISTS.slice(0, 4))('is a price list to every other verb: %s', async (first, row) => {
    expect((await inFolder(first, row, ['propose'])).err).toContain('found “a price list”, expected a brief');
  });

  it('and one that lacks its materials says so', async () => {
    const { err } = await inFolder(...LISTS[3], ['propose', BRIEF, '--prices']);
    expect(err).toContain('must name the columns material, price');
  });

  it('a record under such a heading is still read', async () => {
    for (const [first, row] of [
      ['id,date,weights', '1,2026-03-02,0 h 500 g; 24 h 480 g'],
      ['no,recipe,cost', '1,old-planter.yaml,2.50'],
      ['pour,note,price', '1,nice,3'],
    ] as const)
      expect((await inFolder(first, row, ['pours', 'show', '--file'])).out, first).toContain('1 pour in');
  });
});

describe('a record whose pours all lack the same', () => {
  const rows = Array.from({ length: 30 }, (_, i) => `${i + 1},2026-05-0${1 + (i % 9)},,`).join('\n');
  const fitted = async (more: string) => {
    const folder = folderOf({ 'pours.csv': `pour,date,blend,note\n${rows}\n${more}` });
    const { code, err } = await said(['pours', 'fit', '--file', `${folder}/pours.csv`]);
    rmSync(folder, { recursive: true });
    expect(code).toBe(2);
    return err;
  };

  it('is told once, with how many they are', async () => {
    const err = await fitted('');
    expect(err).toMatch(/Pours 1, 2, 3, … \(30 pours\): blend: this field is missing: expected materials and weights/);
    expect(err.match(/this field is missing/g)).toHaveLength(2);
    expect(err.length).toBeLessThan(500);
  });

  it('and one that lacks something else is told beside them, with its line', async () => {
    expect(await fitted('31,,gravel 3 g,\n')).toMatch(
      /a recipe file under brief\. pour 31: .*pours\.csv line 32, blend: .*“gravel”/,
    );
  });
});
