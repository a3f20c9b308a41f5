import { describe, expect, it } from 'vitest';
import { assess } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import type { ModelFigures } from '../../src/core/materials/model-figures.js';
import type { Material } from '../../src/core/materials/schema.js';
import { material, model } from '../support/shipped-table.js';

/**
 * Published mixes through the whole forward model, not only through the equations it is made of (those are in
 * test/oracles). The materials are stated as the source states them.
 */
const figure = (value: number) => ({ value, low: value, high: value, source: 'test', status: 'ours' as const });

/** Something that only takes up room: a particle density and nothing else. */
const solid = (id: string, kind: Material['kind'], density: number): Material => ({
  id,
  name: id,
  kind,
  density: { ...figure(density), unit: 'g/cm3' },
  hazards: [],
});

const withModel = (values: Readonly<Record<string, number>>): ModelFigures => {
  const changed = Object.entries(values).map(([id, value]) => [id, { ...model[id]!, value, low: value, high: value }]);
  return { ...model, ...Object.fromEntries(changed) };
};

function valuesOf(materials: readonly Material[], grams: readonly number[], figures: ModelFigures) {
  const conditions = { ...DEFAULT_CONDITIONS, pour: 'vibrated' as const };
  const { properties } = assess({ materials, figures, conditions }, grams, [], { draws: 0 });
  return (property: string) => properties.find((p) => p.property === property)!.value!;
}

describe('wet and dry density of set plaster', () => {
  // Source: binders.md T3, rows of a supplier's sheet of use consistencies (bibliography key plaster-sheet), kg/m3.
  const T3 = [
    [0.7, 1586, 1105],
    [0.45, 1772, 1442],
    [0.32, 1913, 1741],
    [0.22, 2066, 2036],
  ] as const;
  // As the rows are meant: pure hemihydrate of 2.75, all of it set, nothing held in the pores, no air.
  const plaster: Material = {
    ...material('alpha-gypsum-cement'),
    density: { ...figure(2.75), unit: 'g/cm3' },
    binder: {
      ...material('alpha-gypsum-cement').binder!,
      phases: { hemihydrate: { ...figure(1), unit: 'g/g' } },
    },
  };
  const pure = withModel({ 'gypsum-conversion': 1, 'held-gypsum': 0, 'air-vibrated': 0 });

  it.each(T3)('water to plaster %f: wet %i, dry %i', (ratio, wet, dry) => {
    const of = valuesOf([plaster, material('water')], [1000, 1000 * ratio], pure);
    expect(Math.abs((1000 * of('fresh-density')) / wet - 1)).toBeLessThan(0.02);
    expect(Math.abs((1000 * of('dry-weight')) / of('fresh-volume') / dry - 1)).toBeLessThan(0.012);
  });
});

describe('the absolute-volume method', () => {
  const LB = 453.59237;
  const FT3 = 28316.846592;
  /** 62.4 lb/ft3: what the US examples take water to weigh. */
  const UNIT = (62.4 * LB) / FT3;
  const waterOf = (density: number): Material => ({
    ...material('water'),
    density: { ...figure(density), unit: 'g/cm3' },
  });

  it('US Navy course 14071 p. 17-10: 610, 305, 1735 and 1153 lb with 5 % air make a cubic yard', () => {
    const of = valuesOf(
      [
        solid('cement', 'cement', 3.15 * UNIT),
        waterOf(UNIT),
        solid('stone', 'sand', 2.6 * UNIT),
        solid('sand', 'sand', 2.65 * UNIT),
      ],
      [610, 305, 1735, 1153].map((lb) => lb * LB),
      withModel({ 'air-vibrated': 0.05 }),
    );
    // The course rounds each volume to 0.01 ft3 of 27.
    expect(Math.abs(of('fresh-volume') / (27 * FT3) - 1)).toBeLessThan(0.0008);
    expect(of('water-to-binder')).toBeCloseTo(0.5, 6);
  });

  it('CIVL 1112 example 2: 1030, 340, 1701 and 889 lb with 2 % air make a cubic yard', () => {
    const of = valuesOf(
      [
        solid('cement', 'cement', 3.15 * UNIT),
        waterOf(UNIT),
        solid('stone', 'sand', 2.65 * UNIT),
        solid('sand', 'sand', 2.6 * UNIT),
      ],
      [1030, 340, 1701, 889].map((lb) => lb * LB),
      withModel({ 'air-vibrated': 0.02 }),
    );
    expect(Math.abs(of('fresh-volume') / (27 * FT3) - 1)).toBeLessThan(0.0008);
    // The handout prints water to cement 0.33.
    expect(of('water-to-binder').toFixed(2)).toBe('0.33');
  });

  it('IS 10262-style M50 example: 412, 144, 4.994, 620.919 and 1282.365 kg make a cubic metre without air', () => {
    const kg = [412, 144, 4.994, 620.919, 1282.365];
    const of = valuesOf(
      [
        solid('cement', 'cement', 3.15),
        waterOf(1),
        solid('plasticiser', 'admixture', 1.145),
        solid('sand', 'sand', 2.61),
        solid('stone', 'sand', 2.655),
      ],
      kg.map((x) => 1000 * x),
      withModel({ 'air-vibrated': 0 }),
    );
    // The forward model never takes a mix to hold less than 0.2 % air.
    expect(Math.abs((of('fresh-volume') * 0.998) / 1e6 - 1)).toBeLessThan(0.0005);
    expect(of('fresh-weight')).toBeCloseTo(1000 * kg.reduce((a, b) => a + b, 0), 6);
  });

  it('EN 196-1 mortar 450, 1350 and 225 g without air: 2.301 g/cm3 (amounts from memory, density computed)', () => {
    const of = valuesOf(
      [solid('cement', 'cement', 3.1), solid('sand', 'sand', 2.65), waterOf(0.9982)],
      [450, 1350, 225],
      withModel({ 'air-vibrated': 0 }),
    );
    expect(of('fresh-density') / 0.998).toBeCloseTo(2.301, 2);
    expect(of('sand-to-binder')).toBeCloseTo(3, 9);
  });
});
