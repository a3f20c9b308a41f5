import { describe, expect, it } from 'vitest';
import { assess, evaluate } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { figureByKey, withFigures } from '../../src/core/blend/figure-keys.js';
import { PROPERTIES, propertyById } from '../../src/core/blend/properties/index.js';
import { propertyValue } from '../../src/core/blend/property.js';
import { inBase } from '../../src/core/blend/state/amounts.js';
import { worldOf } from '../../src/core/blend/world.js';
import { problemsOf } from '../support/problems.js';
import { material, materials, model } from '../support/shipped-table.js';

/** What the maker reads of a property, and keys and scoops no other test looked at: mutation testing found them bare. */

const look = (parts: Readonly<Record<string, number>>) => {
  const world = worldOf({
    materials: Object.keys(parts).map(material),
    figures: model,
    conditions: DEFAULT_CONDITIONS,
  });
  return { world, state: evaluate(world, Object.values(parts)).state };
};

const BLENDS = [
  { water: 100 },
  { 'masonry-sand': 500, water: 40 },
  { 'portland-cement-grey': 300, water: 150, 'masonry-sand': 600 },
  { 'casting-plaster': 300, water: 200 },
  { 'csa-rapid-cement': 300, water: 120 },
  { 'hydrated-lime': 200, water: 200 },
  { metakaolin: 200, water: 150 },
].map(look);

describe('every property', () => {
  it.each(PROPERTIES.map((p) => p.id))('%s says in words what it is, what it rests on and in which unit', (id) => {
    const p = propertyById(id)!;
    expect(p.name).toMatch(/^\S.*\w/);
    expect(p.meaning.split(' ').length).toBeGreaterThan(2);
    expect(p.restsOn.split(' ').length).toBeGreaterThan(1);
    expect(p.unit).not.toBe('');
    expect(p.models.length + Number(id === 'cost')).toBeGreaterThan(0);
    for (const words of ['name', 'meaning'] as const) {
      expect(PROPERTIES.filter((other) => other[words] === p[words]).length).toBe(1);
    }
  });

  it('says why where a blend does not have it', () => {
    let asked = 0;
    for (const { world, state } of BLENDS) {
      for (const p of PROPERTIES) {
        const { value, why } = propertyValue(p, world, state);
        if (value !== null) continue;
        expect(why, p.id).toMatch(/\w{2,} \w/);
        asked++;
      }
    }
    expect(asked).toBeGreaterThan(60);
  });

  it('an unknown one is refused with the list of those there are', () => {
    const input = { materials: [material('water')], figures: model, conditions: DEFAULT_CONDITIONS };
    const [problem] = problemsOf(() => assess(input, [1], [{ property: 'colour', max: 1 }]));
    expect(problem!.expected!.split(', ')).toEqual(PROPERTIES.map((p) => p.id));
  });
});

describe('the key of a figure', () => {
  const tables = { materials, figures: model };
  const effect = material('plasticiser-powder').effects![0]!;

  it('tells the limit of an effect from its slope', () => {
    expect(figureByKey(tables, 'plasticiser-powder.effects.0')).toEqual(effect.per);
    expect(figureByKey(tables, 'plasticiser-powder.effects.0.limit')).toEqual(effect.limit);
    const other = { ...effect.per, value: -9 };
    const changed = withFigures(tables, new Map([['plasticiser-powder.effects.0.limit', other]]));
    const [first] = changed.materials.find((m) => m.id === 'plasticiser-powder')!.effects!;
    expect(first).toEqual({ ...effect, limit: other });
  });

  it('that leads nowhere, or to something that is no figure, finds nothing and changes nothing', () => {
    const keys = ['water.colour', 'water.', 'water.effects.0', 'water.density.value', 'no-such.density'];
    for (const key of keys) expect(figureByKey(tables, key), key).toBeUndefined();
    const changed = withFigures(tables, new Map(keys.map((key) => [key, effect.per])));
    expect(changed.materials).toEqual(materials);
  });
});

describe('what is scooped', () => {
  const input = {
    materials: ['water', 'casting-plaster', 'perlite'].map(material),
    figures: model,
    conditions: { ...DEFAULT_CONDITIONS, volume: null },
  };
  const spread = (property: string, scooped: readonly string[]): number => {
    const { properties } = assess(input, [180, 300, 15], [], { draws: 200, scooped: new Set(scooped) });
    const { low, high } = properties.find((p) => p.property === property)!;
    return high! - low!;
  };

  it('weighs otherwise in each draw, and only that: what stays on the scale does not move', () => {
    expect(spread('water-to-powder', [])).toBeLessThan(1e-9);
    const both = spread('water-to-powder', ['casting-plaster', 'perlite']);
    expect(spread('water-to-powder', ['casting-plaster'])).toBeGreaterThan(0.05);
    expect(spread('water-to-powder', ['perlite'])).toBeLessThan(0.3 * both);
  });

  it('is taken at its weight where no loose density is known', () => {
    expect(material('water').bulkDensity).toBeUndefined();
    expect(assess(input, [180, 300, 15], [], { draws: 20, scooped: new Set(['water']) }).properties).toEqual(
      assess(input, [180, 300, 15], [], { draws: 20 }).properties,
    );
  });
});

describe('a limit on drying shrinkage', () => {
  it('of nothing, or below, can be held by no share of sand', () => {
    const { world, state } = BLENDS[2]!;
    const { link } = propertyById('drying-shrinkage')!.form(world, state);
    expect([0, -1].map(link.inverse)).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });
});

describe('what a dose is a percent of', () => {
  const within = (base: Parameters<typeof inBase>[1]): string[] =>
    [
      { kind: 'cement', family: 'portland', solids: 0.5 },
      { kind: 'cement', family: 'csa', solids: 0.5 },
      { kind: 'cement', family: 'aluminate', solids: 0.5 },
      { kind: 'gypsum', family: 'gypsum', solids: 0.5 },
      { kind: 'lime', family: 'lime', solids: 0.5 },
      { kind: 'lime', family: 'natural-hydraulic-lime', solids: 0.5 },
      { kind: 'pozzolan', family: null, solids: 0.5 },
      { kind: 'sand', family: null, solids: 0.5 },
    ].flatMap((m) => {
      const counted = inBase(m as Parameters<typeof inBase>[0], base);
      expect([0, 0.5]).toContain(counted);
      return counted > 0 ? [m.family ?? m.kind] : [];
    });

  it('is all that the word holds and nothing else, by its solids', () => {
    const limes = ['lime', 'natural-hydraulic-lime'];
    const cements = ['portland', 'csa', 'aluminate'];
    expect(within('cement')).toEqual(cements);
    expect(within('lime')).toEqual(limes);
    expect(within('gypsum')).toEqual(['gypsum']);
    expect(within('csa')).toEqual(['csa']);
    expect(within('binder')).toEqual([...cements, 'gypsum', ...limes, 'pozzolan']);
    expect(within('dry-blend')).toEqual([...cements, 'gypsum', ...limes, 'pozzolan', 'sand']);
  });
});
