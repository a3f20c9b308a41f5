import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/core/blend/assess.js';
import { PROPERTIES, propertyById } from '../../src/core/blend/properties/index.js';
import { type WorldInput, worldOf } from '../../src/core/blend/world.js';
import { isGap } from '../../src/core/materials/gap.js';
import type { Material } from '../../src/core/materials/schema.js';
import { between, property } from '../science/counting.js';
import { randomBlend } from '../support/random-blend.js';
import { material, numberOf } from '../support/shipped-table.js';

const RUNS = 200;
const seeds = fc.integer({ min: 1, max: 1_000_000_000 });

const valuesOf = (input: WorldInput, grams: readonly number[]): Map<string, number | null> => {
  const { value } = evaluate(worldOf(input), grams);
  return new Map(PROPERTIES.map((p) => [p.id, value(p)]));
};

const sum = (terms: readonly number[]): number => terms.reduce((a, b) => a + b, 0);
const isWeight = (id: string): boolean => propertyById(id)!.quantity === 'mass';
const EXTENSIVE = (id: string): boolean => isWeight(id) || id === 'fresh-volume' || id === 'cost';

/** Equal but for the dust of summing in another order. */
function expectSame(a: number | null | undefined, b: number | null | undefined, what: string, factor = 1): void {
  if (a === null || b === null || a === undefined || b === undefined) expect(b ?? null, what).toBe(a ?? null);
  else
    expect(Math.abs(b - factor * a), `${what}: ${a} and ${b}`).toBeLessThanOrEqual(1e-7 * Math.abs(factor * a) + 1e-9);
}

/** The test's own reading of the table: g of water that comes with a gram, beyond what its grains drink. */
function waterAndVolume(m: Material): { readonly free: number; readonly all: number; readonly volume: number } {
  const density = numberOf(m.density);
  if (m.kind === 'water') return { free: 1, all: 1, volume: 1 / density };
  if (m.solids !== undefined && !isGap(m.solids)) {
    const water = 1 - m.solids.value;
    return { free: water, all: water, volume: 1 / density };
  }
  const percent = (f: typeof m.moisture): number => (f === undefined || isGap(f) ? 0 : f.value / 100);
  const all = percent(m.moisture) / (1 + percent(m.moisture));
  const free = all - percent(m.absorption) * (1 - all);
  return { free, all, volume: (1 - all) / density + free / 0.9982 };
}

describe('mass', () => {
  it('as poured is what went in', () => {
    property(
      seeds,
      (seed) => {
        const { input, grams } = randomBlend(seed);
        expectSame(sum(grams), valuesOf(input, grams).get('fresh-weight'), 'fresh weight');
        return true;
      },
      RUNS,
    );
  });

  it('only leaves: what dries is never more than the water, never less than none', () => {
    property(
      seeds,
      (seed) => {
        const { input, grams } = randomBlend(seed);
        const of = valuesOf(input, grams);
        const poured = of.get('fresh-weight')!;
        const water = sum(input.materials.map((m, i) => waterAndVolume(m).all * grams[i]!));
        const least = poured - water;
        for (const id of [...of.keys()].filter((id) => isWeight(id) && id !== 'carbonated-weight')) {
          expect(of.get(id)!, id).toBeLessThanOrEqual(poured * (1 + 1e-9));
          expect(of.get(id)!, id).toBeGreaterThanOrEqual(least * (1 - 1e-9));
        }
        return true;
      },
      RUNS,
    );
  });

  it('falls from day to day until it is dry', () => {
    property(
      seeds,
      (seed) => {
        const { input, grams } = randomBlend(seed);
        const { value } = evaluate(worldOf(input), grams);
        const days = [1, 2, 3, 5, 7, 28, 90].map((d) => value(propertyById(`weight-day-${d}`)!)!);
        expect(days.every(Number.isFinite)).toBe(true);
        days.reduce(
          (before, now) => {
            expect(now).toBeLessThanOrEqual(before * (1 + 1e-9));
            return now;
          },
          value(propertyById('fresh-weight')!)!,
        );
        return true;
      },
      RUNS,
    );
  });
});

describe('a blend too dry to set through', () => {
  it('still never gets heavier than it was a moment ago', () => {
    property(
      fc.tuple(between(0.01, 0.2), fc.constantFrom('casting-plaster', 'alpha-gypsum-cement'), between(0.3, 0.9)),
      ([ratio, plaster, humidity]) => {
        const { input } = randomBlend(1);
        const conditions = { ...input.conditions, humidity, wall: 1, temperature: 20, coverDays: 0 };
        const of = valuesOf({ ...input, conditions, materials: [plaster, 'water'].map(material) }, [100, 100 * ratio]);
        const weights = ['demould-weight', 'weight-day-1', 'weight-day-3', 'weight-day-28', 'dry-weight'].map(
          (id) => of.get(id)!,
        );
        weights.reduce(
          (before, now) => {
            expect(now).toBeLessThanOrEqual(before * (1 + 1e-12));
            return now;
          },
          100 * (1 + ratio),
        );
        return true;
      },
      RUNS,
    );
  });
});

describe('volume', () => {
  it('is the sum of grains, water and air', () => {
    property(
      seeds,
      (seed) => {
        const { input, grams, world } = randomBlend(seed);
        const { state, value } = evaluate(world, grams);
        const own = sum(input.materials.map((m, i) => waterAndVolume(m).volume * grams[i]!));
        expectSame(own, value(propertyById('fresh-volume')!)! * (1 - state.air), 'volume');
        expectSame(sum(grams) / (own / (1 - state.air)), value(propertyById('fresh-density')!), 'density');
        return true;
      },
      RUNS,
    );
  });
});

describe('a blend', () => {
  it('scaled up weighs, fills and costs so much more, and is otherwise the same', () => {
    property(
      fc.tuple(seeds, between(0.05, 40)),
      ([seed, factor]) => {
        const { input, grams } = randomBlend(seed);
        const before = valuesOf(input, grams);
        const after = valuesOf(
          input,
          grams.map((g) => g * factor),
        );
        for (const [id, value] of before) expectSame(value, after.get(id), id, EXTENSIVE(id) ? factor : 1);
        return true;
      },
      RUNS,
    );
  });

  it('is the same in whatever order it is written', () => {
    property(
      fc.tuple(seeds, fc.infiniteStream(fc.nat(1000))),
      ([seed, keys]) => {
        const { input, grams } = randomBlend(seed);
        const order = grams.map((_g, i) => ({ i, key: keys.next().value as number })).sort((a, b) => a.key - b.key);
        const before = valuesOf(input, grams);
        const after = valuesOf(
          { ...input, materials: order.map(({ i }) => input.materials[i]!) },
          order.map(({ i }) => grams[i]!),
        );
        for (const [id, value] of before) expectSame(value, after.get(id), id);
        return order.some(({ i }, place) => i !== place);
      },
      RUNS,
    );
  });

  it('is not changed by a material that is not used', () => {
    property(
      fc.tuple(seeds, seeds),
      ([seed, other]) => {
        const { input, grams } = randomBlend(seed);
        const unused = randomBlend(other).input.materials.filter((m) => !input.materials.some((o) => o.id === m.id));
        const before = valuesOf(input, grams);
        const after = valuesOf({ ...input, materials: [...input.materials, ...unused] }, [
          ...grams,
          ...unused.map(() => 0),
        ]);
        for (const [id, value] of before) expectSame(value, after.get(id), id);
        return unused.length > 0;
      },
      RUNS,
    );
  });

  it('has numbers for all it has, and says why for the rest', () => {
    let absent = 0;
    property(
      seeds,
      (seed) => {
        const { world, grams } = randomBlend(seed);
        const { value } = evaluate(world, grams);
        for (const p of PROPERTIES) {
          const at = value(p);
          if (at === null) absent++;
          else expect(Number.isFinite(at), p.id).toBe(true);
        }
        return true;
      },
      RUNS,
    );
    expect(absent).toBeGreaterThan(0);
  });
});

describe('more water', () => {
  it('thins, weakens and lightens a plaster slurry', () => {
    property(
      fc.tuple(between(0.25, 0.9), between(1.01, 1.5)),
      ([ratio, more]) => {
        const input = { ...randomBlend(1).input, materials: [material('casting-plaster'), material('water')] };
        const before = valuesOf(input, [1000, 1000 * ratio]);
        const after = valuesOf(input, [1000, 1000 * ratio * more]);
        expect(after.get('flow')!).toBeGreaterThan(before.get('flow')!);
        expect(after.get('strength')!).toBeLessThan(before.get('strength')!);
        expect(after.get('fresh-density')!).toBeLessThan(before.get('fresh-density')!);
        expect(after.get('peak-temperature')!).toBeLessThan(before.get('peak-temperature')!);
        return true;
      },
      RUNS,
    );
  });
});
