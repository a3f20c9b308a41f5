import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { folderOf, spawned } from '../support/cli.js';

/** Nothing, or less, of what a piece needs: the built command says one thing, and where. */

const FILES = {
  'shop.yaml': 'currency: EUR\nprices: prices.csv\npours: pours.csv\n',
  'prices.csv': 'material,pack,price\ncasting-plaster,25 kg,31.00\nperlite,10 L,6.20\n',
  'brief.yaml': 'shop: shop.yaml\nmould: { water: 300 mL }\nobjective: cheapest\n',
  'recipe.yaml':
    'shop: shop.yaml\nmould: { water: 250 mL }\namounts:\n  casting-plaster: 200 g\n  water: 130 g\n  perlite: 8 g\n',
  'order.yaml':
    'shop: shop.yaml\nstart: 2026-03-02\ndue: 2026-05-02\nbetween: 20 min\nitems:\n  - { brief: brief.yaml, pieces: 3, moulds: 1 }\n',
  'medium.yaml':
    'shop: shop.yaml\nmix: { powder: 100 g, liquid: 38 g }\nsample: { volume: 250 mL, demoulded: 462 g, dry: 398 g }\nprice: 95 EUR per 25 kg\n',
  'pours.csv': 'pour,blend,set min,weights\n1,casting-plaster 300; water 180,35,1 h: 285\n',
};
type File = keyof typeof FILES;
const folders: string[] = [];
afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});

/** Runs the command where one line of one file is another. */
function ranWith(file: File, was: string, is: string, argv: readonly string[]) {
  expect(FILES[file]).toContain(was);
  const where = folderOf({ ...FILES, [file]: FILES[file].replace(was, is) });
  folders.push(where);
  return spawned(argv, where);
}

function oneMessage(file: File, was: string, is: string, argv: readonly string[]): string {
  const { code, out, err } = ranWith(file, was, is, argv);
  expect(code, err).toBe(2);
  expect(out).toBe('');
  const lines = err.trimEnd().split('\n');
  expect(lines, err).toHaveLength(1);
  return lines[0]!;
}

const UNUSED = 'expected more than 0; leave the line out if it is not used.';

describe('nothing of a material', () => {
  it.each(['0', '0 g', '-5 g', '-5', '"0"', '"-5"', '0 mL', '1e-12', '.nan'])('perlite: %s, in a recipe', (amount) => {
    for (const verb of ['assess', 'price', 'card']) {
      const said = oneMessage('recipe.yaml', 'perlite: 8 g', `perlite: ${amount}`, [verb, 'recipe.yaml']);
      expect(said).toMatch(/^pourwright: recipe\.yaml line 6, amounts\.perlite: /);
      expect(said).not.toContain('contradict');
      if (amount !== '.nan') expect(said).toContain(UNUSED);
    }
  });

  it('as bare parts, and in an earlier piece', () => {
    const bare = 'amounts: { casting-plaster: 200, water: 130, perlite: 0 }\nbasis: mass\n';
    const recipe = FILES['recipe.yaml'];
    const parts = oneMessage('recipe.yaml', recipe, bare, ['assess', 'recipe.yaml']);
    expect(parts).toContain(`amounts.perlite: the amount must be more than zero: found “0”, ${UNUSED}`);
    const piece = '{ piece: { weight: 300 g, amounts: { casting-plaster: 200 g, water: 0 } } }';
    const earlier = oneMessage('brief.yaml', '{ water: 300 mL }', piece, ['propose', 'brief.yaml']);
    expect(earlier).toContain(
      `line 2, mould.piece.amounts.water: the amount must be more than zero: found “0”, ${UNUSED}`,
    );
  });

  it.each(['0', '0 %', '-1 %', '0 % of binder', '-1 % of binder'])('as a dose of %s', (dose) => {
    const is = `objective: cheapest\ndoses: { citric-acid: ${dose} }`;
    expect(oneMessage('brief.yaml', 'objective: cheapest', is, ['propose', 'brief.yaml'])).toContain(UNUSED);
  });

  it('one amount without a unit is one mistake, not two', () => {
    const said = oneMessage('recipe.yaml', 'perlite: 8 g', 'perlite: 8', ['assess', 'recipe.yaml']);
    expect(said).toMatch(/amounts\.perlite: this does not fit together: found “8”, expected a unit, as the other/);
  });
});

describe('nothing of anything else', () => {
  it.each<[File, string, string, string, string[]]>([
    ['brief.yaml', 'water: 300 mL', 'water: 0', 'mould.water: the amount must be more than zero: found “0”', []],
    [
      'brief.yaml',
      'water: 300 mL',
      'water: -1 mL',
      'mould.water: the amount must be more than zero: found “-1 mL”',
      [],
    ],
    ['brief.yaml', 'objective', 'wall: 0\nobjective', 'wall: the amount must be more than zero: found “0”', []],
    [
      'brief.yaml',
      'objective',
      'batch: { pieces: 0 }\nobjective',
      'batch.pieces: the value is out of range: found “0”, expected more than 0.',
      [],
    ],
    [
      'brief.yaml',
      'objective',
      'batch: { waste: -5 % }\nobjective',
      'batch.waste: the value is out of range: found “-5 %”, expected a share such as “5 %”, 0 or more.',
      [],
    ],
    [
      'brief.yaml',
      'objective',
      'strength-age: 0 h\nobjective',
      'strength-age: the value is out of range: found “0 days”, expected 0.5 to 3650 days.',
      [],
    ],
    ['prices.csv', '10 L,6.20', '10 L,-6', 'prices.csv line 3, price: the value is out of range: found “-6”', []],
    ['prices.csv', '10 L,6.20', '0 L,6', 'prices.csv line 3, pack: the amount must be more than zero: found “0 L”', []],
    [
      'prices.csv',
      'price\ncasting-plaster,25 kg,31.00\nperlite,10 L,6.20',
      'price,in stock\nperlite,10 L,6.20,-2 packs',
      'prices.csv line 2, in stock: the value is out of range: found “-2 packs”, expected 0 packs or more.',
      [],
    ],
    [
      'order.yaml',
      'between: 20 min',
      'between: -5 min',
      'order.yaml line 4, between: the value is out of range: found “-5 min”',
      ['order', 'order.yaml'],
    ],
    [
      'order.yaml',
      'between: 20 min',
      'mixing: -5',
      'order.yaml line 4, mixing: the value is out of range: found “-5”',
      ['order', 'order.yaml'],
    ],
    [
      'order.yaml',
      'pieces: 3',
      'pieces: 0',
      'items[0].pieces: the value is out of range: found “0”, expected more than 0.',
      ['order', 'order.yaml'],
    ],
    [
      'medium.yaml',
      'powder: 100 g',
      'powder: 0 g',
      'medium.yaml line 2, mix.powder: the amount must be more than zero',
      ['stand-in', 'medium.yaml'],
    ],
    [
      'medium.yaml',
      'volume: 250 mL',
      'volume: 0',
      'medium.yaml line 3, sample.volume: the amount must be more than zero',
      ['stand-in', 'medium.yaml'],
    ],
    [
      'medium.yaml',
      'price: 95 EUR',
      'price: 0 EUR',
      'medium.yaml line 4, price: the amount must be more than zero: found “0 EUR per 25 kg”, expected more than 0; leave the line out if the price is not known.',
      ['stand-in', 'medium.yaml'],
    ],
    [
      'pours.csv',
      '1 h: 285',
      '1 h: -3',
      'pours.csv line 2, weights: the amount must be more than zero: found “-3”',
      ['pours', 'show', '1', '--shop', 'shop.yaml'],
    ],
    [
      'pours.csv',
      ',35,',
      ',0,',
      'pours.csv line 2, set min: the amount must be more than zero: found “0”',
      ['pours', 'fit', '--shop', 'shop.yaml'],
    ],
  ])('%s: %s as %s', (file, was, is, said, argv) => {
    expect(oneMessage(file, was, is, argv.length > 0 ? argv : ['propose', 'brief.yaml'])).toContain(said);
  });

  it('of the one thing that is told of a medium', () => {
    const sample = 'sample: { volume: 0, dry: 398 g }\n';
    const said = oneMessage('medium.yaml', FILES['medium.yaml'], sample, ['stand-in', 'medium.yaml']);
    expect(said).toContain('medium.yaml line 1, sample.volume: the amount must be more than zero');
  });

  it('a core that is longer than its mould, though smaller', () => {
    const is =
      'solid: { shape: box, length: 10 cm, width: 6 cm, height: 4 cm }, core: { shape: box, length: 12 cm, width: 2 cm, height: 2 cm }';
    expect(oneMessage('brief.yaml', 'water: 300 mL', is, ['propose', 'brief.yaml'])).toBe(
      'pourwright: brief.yaml line 2, mould.core: no mould can have this shape: found “a core 12 cm long in a mould of 10 cm”, expected a core that fits inside the mould, with room for a wall.',
    );
  });

  it('a pour that names nothing of a material says so and is shown without a curve', () => {
    const { code, out } = ranWith('pours.csv', 'water 180', 'water -180', [
      'pours',
      'show',
      '1',
      '--shop',
      'shop.yaml',
    ]);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('blend: the amount must be more than zero: found “-180 g”');
  });

  it('a price of nothing is a warning of every verb that reads the list, and of the check once', () => {
    const warned =
      /^pourwright: warning: prices\.csv line 3, price: what has a price of zero counts as free: found “0”\. If perlite is not free, .*\.$/i;
    const proposed = ranWith('prices.csv', '6.20', '0', ['propose', 'brief.yaml']);
    expect(proposed.code).toBe(0);
    expect(proposed.err.trimEnd()).toMatch(warned);
    const checked = ranWith('prices.csv', '6.20', '0', ['shop', 'check', 'shop.yaml']);
    expect(checked.err).toBe('');
    expect(checked.out.match(/counts as free/gi)).toHaveLength(1);
  });
});
