import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { folderOf, said } from '../support/cli.js';

const HEAD = 'mould: { water: 300 mL }\nobjective: strongest\n';
const RECIPE = 'mould: { water: 300 mL }\namounts: { casting-plaster: 300 g, water: 200 g }\n';
const ORDER = 'start: 2026-05-04\ndue: 2026-06-30\nitems:\n  - { pieces: 2, moulds: 1, ';

const folder = folderOf({
  'brief.yaml': `${HEAD}shop: sculpture-atelier.yaml\n`,
  'near.yaml': `${HEAD}shop: shoop.yaml\n`,
  'self.yaml': `${HEAD}shop: self.yml\n`,
  'dir.yaml': `${HEAD}shop: .\n`,
  'shop.yaml': 'currency: EUR\nprices: list.csv\n',
  'own.yaml': 'materials: [ours.yaml]\n',
  'poured.yaml': 'pours: poured.csv\n',
  'recipe.yaml': RECIPE,
  'order.yaml': `${ORDER}recipe: lost.yaml }\n`,
  'faster.yaml': `${ORDER}recipe: recipe.yaml, faster: lost.yaml }\n`,
  'record.csv': 'pour,brief,set min\n1,lost.yaml,20\n',
});
afterAll(() => rmSync(folder, { recursive: true }));

const at = (name: string): string => `${folder}/${name}`;

describe('a file that another file names and that is not there is told where it is named', () => {
  it.each<[string, readonly string[], string]>([
    [
      'the shop of a brief',
      ['propose', at('brief.yaml')],
      'brief.yaml line 3, shop: there is no such file: found “sculpture-atelier.yaml”.\n',
    ],
    [
      'its near miss, as it would stand there',
      ['propose', at('near.yaml')],
      'found “shoop.yaml”. Did you mean “shop.yaml”?\n',
    ],
    [
      'never itself',
      ['propose', at('self.yaml')],
      'self.yaml line 3, shop: there is no such file: found “self.yml”.\n',
    ],
    ['a folder', ['propose', at('dir.yaml')], 'dir.yaml line 3, shop: the file cannot be read'],
    [
      'the price list of a shop',
      ['shop', 'check', at('shop.yaml')],
      'shop.yaml line 2, prices: there is no such file: found “list.csv”.',
    ],
    [
      'a shop’s own materials',
      ['shop', 'check', at('own.yaml')],
      'own.yaml line 1, materials[0]: there is no such file',
    ],
    [
      'its record of pours',
      ['pours', 'show', '--shop', at('poured.yaml')],
      'poured.yaml line 1, pours: there is no such file',
    ],
    [
      'a recipe of an order',
      ['order', at('order.yaml')],
      'order.yaml line 4, items[0].recipe: there is no such file: found “lost.yaml”.',
    ],
    ['the faster one', ['order', at('faster.yaml')], 'faster.yaml line 4, items[0].faster: there is no such file'],
    [
      'the recipe of a pour',
      ['pours', 'fit', '--file', at('record.csv')],
      'record.csv line 2, brief: there is no such file: found “lost.yaml”.',
    ],
  ])('%s', async (_name, argv, told) => {
    const { code, out, err } = await said(argv);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(told);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it('and one that the command line names is told by its name', async () => {
    const { code, err } = await said(['propose', at('lost.yaml')]);
    expect(code).toBe(2);
    expect(err).toContain(`pourwright: ${at('lost.yaml')}: there is no such file.`);
  });
});
