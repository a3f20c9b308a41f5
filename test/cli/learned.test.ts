import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { folderOf, spawned } from '../support/cli.js';

/** A learned file that a hand has been in: the built command says where it slipped, and counts nothing of it. */

// What the shipped table says.
const DRYING = '{ value: 1.1, low: 0.5, high: 2.4 }';
const PLASTER = '{ value: 2.63, low: 2.55, high: 2.7 }';
const figure = (value: number | string, low: number | string, high: number | string, unit: string) =>
  `{ title: x, value: ${value}, low: ${low}, high: ${high}, unit: ${unit}, before: ${unit === 'g/cm3' ? PLASTER : DRYING} }`;
const DAYS = figure(1.2, 0.9, 1.5, 'days');
const DENSITY = figure(2.62, 2.6, 2.64, 'g/cm3');
const LEARNED = `format: pourwright.learned/1
from: { file: pours.csv, pours: 3, measurements: 9, fitted: 2026-05-04 }
figures:
  model.drying-days: ${DAYS}
  casting-plaster.density: ${DENSITY}
together: [[1], [0.1, 1]]
`;
const folders: string[] = [];
afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});

function assessed(learned: string) {
  const made = folderOf({
    'learned.yaml': learned,
    'shop.yaml': 'learned: learned.yaml\n',
    'recipe.yaml': 'shop: shop.yaml\namounts: { casting-plaster: 200 g, water: 130 g }\n',
  });
  folders.push(made);
  return spawned(['assess', 'recipe.yaml'], made);
}

describe('a learned file', () => {
  it.each<[string, string, string, string]>([
    [
      'a negative density',
      DENSITY,
      figure(-2.62, -2.64, -2.6, 'g/cm3'),
      'line 5, figures.casting-plaster.density.value: the value is out of range: found “-2.62”, expected ',
    ],
    [
      'kilograms a cubic metre',
      DENSITY,
      figure(2620, 2600, 2640, 'g/cm3'),
      'line 5, figures.casting-plaster.density.value: the value is out of range: found “2620”, expected ',
    ],
    [
      'a thousandth',
      DENSITY,
      figure(0.00262, 0.0026, 0.00264, 'g/cm3'),
      'line 5, figures.casting-plaster.density.value: the value is out of range: found “0.00262”, expected ',
    ],
    [
      'no number',
      DENSITY,
      figure('.nan', 2.6, 2.64, 'g/cm3'),
      'line 5, figures.casting-plaster.density.value: found “NaN”, expected a number.',
    ],
    [
      'a figure of a model',
      DAYS,
      figure(1.2, 0.9, 1500, 'days'),
      'line 4, figures.model.drying-days.high: the value is out of range: found “1500”, expected 0.25 to 3.313 days, as far as pours can move it. Run pours fit again, or take the figure out: then the table’s own counts.',
    ],
    [
      'a range upside down',
      DAYS,
      figure(1.2, 1.5, 0.9, 'days'),
      'line 4, figures.model.drying-days: the value is out of range: found “low 1.5, value 1.2, high 0.9”, expected low <= value <= high.',
    ],
    [
      'another unit',
      DAYS,
      figure(1.2, 0.9, 1.5, 'h'),
      'line 4, figures.model.drying-days.unit: found “h”, expected days.',
    ],
    [
      'a figure that is not there',
      'model.drying-days:',
      'model.drying-day:',
      'line 4, figures.model.drying-day: there is no such field here: found “model.drying-day”. Did you mean “model.drying-days”?',
    ],
  ])('%s is refused with its line', (_name, was, is, said) => {
    const { code, out, err } = assessed(LEARNED.replace(was, is));
    expect(code, err).toBe(2);
    expect(out).toBe('');
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(err).toContain(`pourwright: learned.yaml ${said}`);
  });

  it('as a fit may have written it counts', () => {
    expect(assessed(LEARNED)).toMatchObject({ code: 0, err: '' });
  });
});
