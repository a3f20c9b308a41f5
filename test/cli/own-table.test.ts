import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { folderOf, spawned } from '../support/cli.js';

/** A maker's own table with a slip in it, checked by itself and as a shop's: the built command says one thing. */

const figure = (value: number, unit: string, low = value, high = value) =>
  `{ value: ${value}, low: ${low}, high: ${high}, unit: ${unit}, source: none, status: ours }`;
const TABLE = `materials:
  - id: blue-bin-plaster
    name: the plaster in the blue bin
    kind: gypsum
    density: ${figure(2.62, 'g/cm3')}
    bulkDensity: ${figure(0.9, 'g/cm3')}
    binder:
      family: gypsum
      initialSet: ${figure(12, 'min')}
      finalSet: ${figure(24, 'min')}
    hazards: { unknown: "sheet not read yet" }
`;
const folders: string[] = [];
afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});

function folder(table: string): string {
  const made = folderOf({
    'mine.yaml': table,
    'shop.yaml': 'materials: [mine.yaml]\n',
    'recipe.yaml': 'shop: shop.yaml\namounts: { blue-bin-plaster: 200 g, water: 130 g }\n',
  });
  folders.push(made);
  return made;
}

describe('a slip in a maker’s own table', () => {
  it.each<[string, string, string, string]>([
    [
      'a unit slipped in all of a figure',
      figure(2.62, 'g/cm3'),
      figure(2620, 'g/cm3'),
      'mine.yaml line 5, materials[0].density.value: the value is out of range: found “2620”, expected more than 0 and at most 25 g/cm3.',
    ],
    [
      'a range upside down',
      figure(2.62, 'g/cm3'),
      figure(2.62, 'g/cm3', 2.7, 2.5),
      'mine.yaml line 5, materials[0].density: the value is out of range. Low 2.7, value 2.62, high 2.5: low <= value <= high must hold.',
    ],
    [
      'a heap heavier than its grains',
      figure(0.9, 'g/cm3'),
      figure(2.9, 'g/cm3'),
      'mine.yaml line 6, materials[0].bulkDensity.value: the value is out of range: found “2.9”, expected at most the particle density, 2.62 g/cm3.',
    ],
    [
      'a final set before the initial one',
      figure(24, 'min'),
      figure(9, 'min'),
      'mine.yaml line 10, materials[0].binder.finalSet.value: the value is out of range: found “9”, expected more than the initial set, 12 min.',
    ],
  ])('%s', (_name, was, is, said) => {
    const where = folder(TABLE.replace(was, is));
    const ways = [
      ['shelf', '--check', 'mine.yaml'],
      ['assess', 'recipe.yaml'],
      ['shop', 'check', 'shop.yaml'],
    ];
    for (const argv of ways) expect(spawned(argv, where)).toEqual({ code: 2, out: '', err: `pourwright: ${said}\n` });
  });

  it('without one it is taken', () => {
    const where = folder(TABLE);
    expect(spawned(['shelf', '--check', 'mine.yaml'], where).code).toBe(0);
    expect(spawned(['assess', 'recipe.yaml'], where).code).toBe(0);
  });
});
