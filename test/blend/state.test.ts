import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/core/blend/assess.js';
import { type Conditions, DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { central, numbersOf } from '../../src/core/blend/numbers.js';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { saturating } from '../../src/core/blend/state/dosing.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { FOR_GOOD } from '../../src/core/blend/state/water-state.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import { between, property } from '../science/counting.js';
import { codesOf } from '../support/problems.js';
import { material, model, numberOf } from '../support/shipped-table.js';

const blend = (grams: Readonly<Record<string, number>>, conditions: Partial<Conditions> = {}) => {
  const materials = Object.keys(grams).map(material);
  const world = worldOf({ materials, figures: model, conditions: { ...DEFAULT_CONDITIONS, ...conditions } });
  const list = Object.values(grams);
  const state = stateOf(world, list);
  const { value } = evaluate(world, list);
  return { world, state, of: (id: string): number => value(propertyById(id)!)! };
};

describe('who takes the water', () => {
  /** Water a gram of pure hemihydrate binds: 1.5 x 18.015/145.142 (IUPAC 2021 weights, binders.md a1). */
  const BOUND = 0.1862;

  it('gypsum first: 0.1862 g a gram of hemihydrate, the rest for the cement', () => {
    property(
      fc.tuple(between(50, 400), between(50, 400), between(0.45, 1)),
      ([plaster, cement, ratio]) => {
        const water = ratio * (plaster + cement);
        const { of } = blend({ 'casting-plaster': plaster, 'portland-cement-grey': cement, water });
        const purity = numberOf(material('casting-plaster').binder!.phases!.hemihydrate);
        const taken = BOUND * purity * model['gypsum-conversion']!.value * plaster;
        expect(of('water-to-cement')).toBeCloseTo((water - taken) / cement, 3);
        return true;
      },
      200,
    );
  });

  it('cement binds no more than Powers’ 0.23 g a gram, and more the longer it stays damp', () => {
    const grams = { 'portland-cement-grey': 100, water: 45 };
    const bound = (coverDays: number, hours: number): number =>
      100 * blend(grams, { coverDays }).state.water.boundAt(hours)[0]!;
    expect(bound(28, FOR_GOOD)).toBeLessThanOrEqual(23);
    expect(bound(28, FOR_GOOD)).toBeGreaterThan(bound(3, FOR_GOOD));
    expect(bound(3, FOR_GOOD)).toBeGreaterThan(bound(0, FOR_GOOD));
    expect(bound(28, 24)).toBeLessThan(bound(28, 72));
  });

  it('all that is bound and held was there to begin with, however starved the blend', () => {
    property(
      fc.tuple(between(0, 0.3), between(0, 1), between(0.2, 0.95)),
      ([ratio, share, humidity]) => {
        const grams = {
          'alpha-gypsum-cement': 100 * share,
          'portland-cement-grey': 100 * (1 - share),
          water: 100 * ratio,
        };
        const { state } = blend(grams, { humidity });
        const list = Object.values(grams);
        const kept = list.reduce(
          (s, g, i) => s + g * (state.water.boundAt(FOR_GOOD)[i]! + state.water.heldAtRest()[i]!),
          0,
        );
        expect(kept).toBeLessThanOrEqual(100 * ratio + 1e-9);
        return true;
      },
      300,
    );
  });
});

describe('k-value', () => {
  it('counts fly ash to its cap of the cement, EN 206: 300 and 100 kg with k 0.4 and a cap of a third count 340', () => {
    // Source: binders.md T21 (concrete.org.uk).
    const figure = (value: number) => ({
      value,
      low: value,
      high: value,
      unit: 'factor' as const,
      source: 'none',
      status: 'ours' as const,
    });
    const ash: Material = {
      ...material('fly-ash'),
      pozzolan: { ...material('fly-ash').pozzolan!, k: figure(0.4), kCap: figure(1 / 3) },
    };
    const world = worldOf({
      materials: [material('portland-cement-grey'), ash, material('water')],
      figures: model,
      conditions: DEFAULT_CONDITIONS,
    });
    const counted = (grams: readonly number[]): number => {
      const { counted: k } = stateOf(world, grams);
      return k[1]! * grams[1]!;
    };
    expect(counted([300, 100, 170])).toBeCloseTo(40, 9);
    expect(counted([300, 200, 170])).toBeCloseTo(40, 9);
    expect(counted([300, 50, 170])).toBeCloseTo(20, 9);
    expect(counted([0, 100, 50])).toBe(0);
  });
});

describe('doses', () => {
  it('stop growing about their limit, without a corner and never past it', () => {
    property(
      fc.tuple(between(0.001, 20), between(0.05, 5)),
      ([x, limit]) => {
        const at = saturating(x, limit);
        expect(at).toBeLessThanOrEqual(Math.min(x, limit) * (1 + 1e-12));
        expect(at).toBeGreaterThan(0.91 * Math.min(x, limit));
        expect(saturating(x * 1.01, limit)).toBeGreaterThanOrEqual(at * (1 - 1e-12));
        return true;
      },
      300,
    );
    expect(saturating(-1, 2)).toBe(-1);
  });

  it('citric acid slows plaster and plasticiser saves water', () => {
    const plain = blend({ 'casting-plaster': 1000, water: 700 });
    const slowed = blend({ 'casting-plaster': 1000, water: 700, 'citric-acid': 0.5 });
    expect(slowed.of('initial-set')).toBeGreaterThan(1.3 * plain.of('initial-set'));
    const dry = blend({ 'portland-cement-grey': 1000, water: 300 });
    const thinned = blend({ 'portland-cement-grey': 1000, water: 300, 'plasticiser-powder': 3 });
    expect(thinned.of('flow')).toBeGreaterThan(1.05 * dry.of('flow'));
  });
});

describe('conditions', () => {
  it('warmth hurries setting, and a cold room slows it', () => {
    const at = (temperature: number): number =>
      blend({ 'portland-cement-grey': 100, water: 40 }, { temperature }).of('initial-set');
    expect(at(30)).toBeLessThan(at(20));
    expect(at(10)).toBeGreaterThan(at(20));
  });

  it('thick walls and damp rooms dry slowly', () => {
    const dries = (more: Partial<Conditions>): number =>
      blend({ 'casting-plaster': 100, water: 70 }, more).of('weight-day-3');
    expect(dries({ wall: 4 })).toBeGreaterThan(dries({ wall: 1 }));
    expect(dries({ humidity: 0.85 })).toBeGreaterThan(dries({ humidity: 0.4 }));
  });

  it('vibration leaves less air than pouring', () => {
    const air = (pour: Conditions['pour']): number => blend({ 'casting-plaster': 100, water: 70 }, { pour }).state.air;
    expect(air('vibrated')).toBeLessThan(air('tapped'));
    expect(air('tapped')).toBeLessThan(air('poured'));
  });

  it('gypsum is half as strong where it is damp', () => {
    const at = (service: Conditions['service']): number =>
      blend({ 'casting-plaster': 100, water: 70 }, { service }).of('strength');
    expect(at('damp') / at('dry-indoor')).toBeCloseTo(model['plaster-wet-share']!.value, 6);
  });
});

describe('numbers of a material', () => {
  it('a gap in the density is an error, and only where the material is used', () => {
    const gap: Material = { ...material('perlite'), density: { value: null, reason: 'never measured' } };
    expect(codesOf(() => numbersOf(gap, central))).toEqual(['material-density-missing']);
  });

  it('water in an emulsion and in damp sand counts, what grains drink does not', () => {
    const emulsion = numbersOf(material('acrylic-emulsion'), central);
    expect(emulsion.freeWater).toBeCloseTo(1 - numberOf(material('acrylic-emulsion').solids), 9);
    const sand = numbersOf(material('masonry-sand'), central);
    const moisture = numberOf(material('masonry-sand').moisture) / 100;
    const absorption = numberOf(material('masonry-sand').absorption) / 100;
    // Both are shares of the dry grain (C566, C128): a gram as scooped holds 1/(1 + moisture) of it.
    expect(sand.freeWater).toBeCloseTo((moisture - absorption) / (1 + moisture), 9);
    expect(sand.solids).toBeCloseTo(1 / (1 + moisture), 9);
  });
});
