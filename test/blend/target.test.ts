import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess, evaluate } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { holdsWithout, marginOf, meets, type Target, verdictOf } from '../../src/core/blend/target.js';
import { worldOf } from '../../src/core/blend/world.js';
import { between, property } from '../science/counting.js';
import { codesOf } from '../support/problems.js';
import { material, model } from '../support/shipped-table.js';

describe('a window', () => {
  it('is met from its min to its max, both included, and missed by the distance to the nearer', () => {
    const target: Target = { property: 'dry-weight', min: 100, max: 120 };
    expect([99, 100, 110, 120, 121].map((v) => meets(target, v))).toEqual([false, true, true, true, false]);
    expect([90, 105, 125].map((v) => marginOf(target, v))).toEqual([-10, 5, -5]);
  });

  it('forgives the dust of arithmetic and nothing that a scale could tell', () => {
    property(
      between(1e-6, 1e6),
      (limit) => {
        expect(meets({ property: 'cost', max: limit }, limit * (1 + 1e-12))).toBe(true);
        expect(meets({ property: 'cost', max: limit }, limit * (1 + 1e-6))).toBe(false);
        expect(meets({ property: 'cost', min: limit }, limit * (1 - 1e-12))).toBe(true);
        expect(meets({ property: 'cost', min: limit }, limit * (1 - 1e-6))).toBe(false);
        return true;
      },
      200,
    );
  });

  it('is met just when the margin is not negative', () => {
    property(
      fc.tuple(between(-50, 50), between(0, 40), between(-100, 100)),
      ([min, width, value]) => {
        const target = { property: 'flow', min, max: min + width };
        const margin = marginOf(target, value);
        if (Math.abs(margin) < 1e-6) return false;
        expect(meets(target, value)).toBe(margin > 0);
        return true;
      },
      300,
    );
  });
});

describe('a verdict', () => {
  it('has a chance only where draws were made, and it is the share that meets', () => {
    const target = { property: 'dry-weight', max: 10 };
    expect(verdictOf(target, 9, null).chance).toBeNull();
    expect(verdictOf(target, 9, []).chance).toBeNull();
    expect(verdictOf(target, 9, [8, 9, 11, null]).chance).toBe(0.5);
    expect(verdictOf(target, null, [null, null], true)).toMatchObject({ met: true, margin: null, chance: 1 });
  });

  it('on the least time to pour holds for lime putty, which never sets, and for nothing that may set in the bowl', () => {
    const times = ['working-time', 'initial-set', 'final-set'];
    const met = (ids: readonly string[], grams: readonly number[], sides: Pick<Target, 'min' | 'max'>) => {
      const input = { materials: ids.map(material), figures: model, conditions: DEFAULT_CONDITIONS };
      const targets = times.map((t): Target => ({ property: t, ...sides }));
      const { verdicts } = assess(input, grams, targets, { draws: 0 });
      expect(verdicts.map((v) => v.value)).toEqual([null, null, null]);
      return verdicts.map((v) => v.met);
    };
    const lime = ['water', 'hydrated-lime'];
    const flash = ['water', 'portland-cement-grey', 'calcium-aluminate-cement'];
    expect(met(lime, [100, 100], { min: 5 })).toEqual([true, true, true]);
    expect(met(lime, [100, 100], { max: 600 })).toEqual([false, false, false]);
    expect(met(lime, [100, 100], { min: 5, max: 600 })).toEqual([false, false, false]);
    expect(met(flash, [100, 100, 100], { min: 5 })).toEqual([false, false, false]);
  });

  it('is asked of properties that exist', () => {
    const input = { materials: [material('water')], figures: model, conditions: DEFAULT_CONDITIONS };
    expect(codesOf(() => assess(input, [1], [{ property: 'colour', max: 1 }]))).toEqual(['property-unknown']);
  });

  it('holds for all targets at once no oftener than for the rarest', () => {
    const input = {
      materials: ['casting-plaster', 'water'].map(material),
      figures: model,
      conditions: DEFAULT_CONDITIONS,
    };
    const targets = [
      { property: 'demould-time', max: 48 },
      { property: 'strength', min: 13 },
      { property: 'working-time', min: 8 },
    ];
    const { verdicts, jointChance } = assess(input, [1000, 700], targets);
    const chances = verdicts.map((v) => v.chance!);
    expect(jointChance!).toBeLessThanOrEqual(Math.min(...chances));
    expect(jointChance!).toBeGreaterThanOrEqual(chances.reduce((s, c) => s + c, 0) - (chances.length - 1) - 1e-9);
    expect(jointChance!).toBeGreaterThan(0);
    expect(jointChance!).toBeLessThan(1);
  });
});

describe('a property the blend does not have', () => {
  const blends = {
    plaster: { 'casting-plaster': 100, water: 70 },
    portland: { 'portland-cement-grey': 100, water: 45 },
    'wet sand': { 'silica-sand-fine': 100, water: 20 },
  };
  const judged = (blend: keyof typeof blends, target: Target): boolean => {
    const materials = Object.keys(blends[blend]).map(material);
    const world = worldOf({ materials, figures: model, conditions: DEFAULT_CONDITIONS });
    const { state, value } = evaluate(world, Object.values(blends[blend]));
    const prop = propertyById(target.property)!;
    expect(value(prop)).toBeNull();
    return holdsWithout(prop, target, world, state);
  };

  it('meets a limit whose row it keeps: numerator against limit times nothing', () => {
    expect(judged('plaster', { property: 'pozzolan-to-cement', min: 0.25 })).toBe(true);
    expect(judged('plaster', { property: 'paste-to-voids', min: 1.1 })).toBe(true);
    expect(judged('portland', { property: 'water-to-plaster', max: 0.7 })).toBe(false);
    expect(judged('portland', { property: 'water-to-plaster', min: 0.7 })).toBe(true);
    expect(judged('plaster', { property: 'water-to-cement', max: 0.5 })).toBe(false);
  });

  it('is told so that the verdict follows from it', () => {
    const told = (given: Readonly<Record<string, number>>, target: Target): [boolean, string | null] => {
      const materials = Object.keys(given).map(material);
      const input = { materials, figures: model, conditions: DEFAULT_CONDITIONS };
      const { verdicts, properties } = assess(input, Object.values(given), [target], { draws: 0 });
      return [verdicts[0]!.met, properties.find((p) => p.property === target.property)!.why ?? null];
    };
    const sulfate = { property: 'sulfate', max: 12 };
    expect(told({ 'casting-plaster': 100, water: 70 }, sulfate)).toEqual([false, '52 %, but no portland cement']);
    expect(material('casting-plaster').so3).toMatchObject({ value: 52.4 });
    expect(material('calcium-aluminate-cement').so3).toMatchObject({ value: 0.1 });
    expect(told({ 'calcium-aluminate-cement': 100, water: 40 }, sulfate)).toEqual([
      true,
      '0.1 %, but no portland cement',
    ]);
    expect(told({ 'natural-hydraulic-lime': 100, water: 60 }, sulfate)).toEqual([true, 'no portland cement']);
    const salted = { 'natural-hydraulic-lime': 100, 'potassium-sulfate': 1, water: 60 };
    expect(told(salted, sulfate)).toEqual([false, 'sulfate, but no cement']);
    const pozzolan = { property: 'pozzolan-to-cement', max: 0.5 };
    expect(told({ 'casting-plaster': 100, water: 70 }, pozzolan)).toEqual([true, 'no portland cement']);
    expect(told({ 'casting-plaster': 100, metakaolin: 20, water: 80 }, pozzolan)).toEqual([
      false,
      'pozzolan, but no portland cement',
    ]);
  });

  it('meets no limit on what every piece must have', () => {
    expect(judged('wet sand', { property: 'strength', max: 10 })).toBe(false);
    expect(judged('wet sand', { property: 'demould-time', max: 60 })).toBe(false);
    // There are no prices in this world.
    expect(judged('plaster', { property: 'cost', max: 100 })).toBe(false);
  });
});
