import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { folderOf, said } from '../support/cli.js';

/** Prices are invented. */
const folder = folderOf({
  'recipe.yaml':
    'mould: { water: 300 mL }\namounts: { casting-plaster: 255 g, water: 190 g }\ntargets: { cost: { max: "$0.50" } }\n',
  'euros.yaml':
    'mould: { water: 300 mL }\namounts: { casting-plaster: 255 g, water: 190 g }\ntargets: { cost: { max: 0.50 EUR } }\n',
  'cheapest.yaml': 'mould: { water: 300 mL }\nobjective: cheapest\n',
  'strongest.yaml': 'mould: { water: 300 mL }\nobjective: strongest\nmaterials: { only: [casting-plaster] }\n',
  'list.csv': 'material,pack,price\ncasting plaster,25 lb,$18.75\n',
  'empty.csv': 'material,pack,price\n',
});
afterAll(() => rmSync(folder, { recursive: true }));

const at = (name: string): string => `${folder}/${name}`;

describe('a shop that names no currency', () => {
  it('has the one sign of its prices, in the result and in print', async () => {
    const argv = ['assess', at('recipe.yaml'), '--prices', at('list.csv')];
    expect(JSON.parse((await said([...argv, '--json'])).out)).toMatchObject({ currency: '$', met: true });
    const { out } = await said(argv);
    expect(out).toMatch(/materials cost {2}at most \$0\.50 {2}\$0\.4/);
    const exported = await said(['price', at('recipe.yaml'), '--prices', at('list.csv'), '--json']);
    expect(JSON.parse(exported.out)).toMatchObject({ currency: '$', decimals: 2 });
  });

  it('does not compare them with a sum in another', async () => {
    const { code, err } = await said(['assess', at('euros.yaml'), '--prices', at('list.csv')]);
    expect(code).toBe(2);
    expect(err).toMatch(/euros\.yaml line 3, targets\.cost\.max: .*found “0\.50 EUR”, expected \$/);
  });
});

describe('a cost where there are no prices', () => {
  it.each<[string, readonly string[], string]>([
    ['no list', ['propose', at('cheapest.yaml')], 'expected a price list: name a shop'],
    [
      'an empty list',
      ['propose', at('cheapest.yaml'), '--prices', at('empty.csv')],
      'empty.csv, without a row below its first”',
    ],
    [
      'no list to price by',
      ['price', at('strongest.yaml')],
      'strongest.yaml: a cost is asked for, and there are no prices',
    ],
    [
      'an empty list to price by',
      ['price', at('recipe.yaml'), '--prices', at('empty.csv')],
      'empty.csv, without a row below its first”',
    ],
    [
      'an empty list to draw by',
      ['frontier', at('strongest.yaml'), '--of', 'cost', '--against', 'strength', '--prices', at('empty.csv')],
      'empty.csv, without a row below its first”',
    ],
  ])('%s is told in one line', async (_name, argv, told) => {
    const { code, out, err } = await said(argv);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(told);
    expect(err).not.toContain('this material');
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});
