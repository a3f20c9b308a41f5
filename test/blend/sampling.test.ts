import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import {
  figureAt,
  latinHypercube,
  likelyRange,
  normalQuantile,
  quantile,
  uniform,
} from '../../src/core/blend/sampling.js';
import type { Figure } from '../../src/core/materials/figure.js';
import { between, property } from '../science/counting.js';
import { randomBlend } from '../support/random-blend.js';
import { material, model } from '../support/shipped-table.js';

const figure = (low: number, value: number, high: number, unit: Figure['unit'] = 'g/cm3'): Figure => ({
  value,
  low,
  high,
  unit,
  source: 'none',
  status: 'ours',
});

describe('the normal quantile', () => {
  // Printed values of the standard normal table (percentage points), any statistics text.
  it.each([
    [0.5, 0],
    [0.8413447, 1],
    [0.95, 1.644854],
    [0.975, 1.959964],
    [0.99, 2.326348],
    [0.999, 3.090232],
  ])('at %f is %f', (p, z) => {
    expect(Math.abs(normalQuantile(p) - z)).toBeLessThan(4.5e-4);
    expect(Math.abs(normalQuantile(1 - p) + z)).toBeLessThan(4.5e-4);
  });
});

describe('a figure drawn from its range', () => {
  it('has its value in the middle and its low and high at the 5th and 95th percentile', () => {
    const f = figure(2, 2.5, 4);
    expect(figureAt(f, 0)).toBe(2.5);
    expect(figureAt(f, -1.6448536)).toBeCloseTo(2, 9);
    expect(figureAt(f, 1.6448536)).toBeCloseTo(4, 9);
  });

  it('never turns its sign, and shares stop at one', () => {
    property(
      fc.tuple(between(0, 5), between(0, 5), between(0, 20), between(-9, 9)),
      ([low, up, further, z]) => {
        const x = figureAt(figure(low, low + up, low + up + further), z);
        expect(x).toBeGreaterThanOrEqual(low > 0 ? low / 2 : 0);
        // Nor does what only takes away: a loss is never drawn as a gain.
        expect(figureAt(figure(-low - up - further, -low - up, -low), z)).toBeLessThanOrEqual(low > 0 ? -low / 2 : 0);
        const share = figure(low / 5, Math.min(1, low / 5 + up / 10), 1, 'fraction');
        if (share.low <= share.value) expect(figureAt(share, z)).toBeLessThanOrEqual(1);
        return true;
      },
      300,
    );
  });
});

describe('the Latin hypercube', () => {
  const COUNT = 200;

  it('draws each figure once in the middle of each of its equal slices', () => {
    for (const key of ['model.air-poured', 'silica-sand-fine.density', 'x']) {
      const f = figure(1, 2, 4);
      const draws = latinHypercube(COUNT, 3);
      for (let j = 0; j < COUNT; j++) draws.reading(j)(key, f);
      const shares = [...draws.column(key)!].map((z) => COUNT * normalShare(z)).sort((a, b) => a - b);
      shares.forEach((share, j) => {
        expect(Math.abs(share - (j + 0.5))).toBeLessThan(0.1);
      });
    }
  });

  it('depends on the seed and the figure’s name alone', () => {
    const column = (seed: number, keys: readonly string[], key: string): number[] => {
      const draws = latinHypercube(50, seed);
      const figures = new Map(keys.map((k) => [k, figure(1, 2, 3)]));
      for (let j = 0; j < 50; j++) for (const k of keys) draws.reading(j)(k, figures.get(k)!);
      return [...draws.column(key)!];
    };
    expect(column(1, ['a', 'b'], 'b')).toEqual(column(1, ['b'], 'b'));
    expect(column(1, ['a', 'b'], 'b')).not.toEqual(column(2, ['a', 'b'], 'b'));
    expect(column(1, ['a', 'b'], 'b')).not.toEqual(column(1, ['a', 'b'], 'a'));
  });

  it('draws figures that hang together as they hang together, and others apart', () => {
    const draws = latinHypercube(4000, 5, { keys: ['a', 'b'], factor: [[1], [-0.8, 0.6]] });
    const c = figure(1, 2, 3);
    for (let j = 0; j < 4000; j++) draws.reading(j)('c', c);
    expect(correlation(draws.column('a')!, draws.column('b')!)).toBeCloseTo(-0.8, 1);
    expect(Math.abs(correlation(draws.column('a')!, draws.column('c')!))).toBeLessThan(0.05);
  });

  it('leaves a figure without a range alone', () => {
    const draws = latinHypercube(10, 1);
    expect(draws.reading(3)('k', figure(2, 2, 2))).toBe(2);
    expect(draws.keys()).toEqual([]);
  });
});

/** Share of a normal below z, by numeric integration (trapezium, 1e-3 steps): apart from the code under test. */
function normalShare(z: number): number {
  let area = 0.5;
  const step = 1e-3;
  const density = (x: number): number => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  for (let x = 0; x < Math.abs(z); x += step) {
    const width = Math.min(step, Math.abs(z) - x);
    area += (Math.sign(z) * width * (density(x) + density(x + width))) / 2;
  }
  return area;
}

function correlation(a: Float64Array, b: Float64Array): number {
  const mean = (x: Float64Array): number => x.reduce((s, v) => s + v, 0) / x.length;
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  a.forEach((x, i) => {
    ab += (x - ma) * (b[i]! - mb);
    aa += (x - ma) ** 2;
    bb += (b[i]! - mb) ** 2;
  });
  return ab / Math.sqrt(aa * bb);
}

describe('quantiles of a sample', () => {
  it('lie between its members', () => {
    expect(quantile([1, 2, 3, 4], 0)).toBe(1);
    expect(quantile([1, 2, 3, 4], 1)).toBe(4);
    expect(quantile([1, 2, 3, 4], 0.5)).toBe(2.5);
    expect(quantile([1, 2, 3, 4], 0.25)).toBe(1.5);
    expect(quantile([], 0.5)).toBeNaN();
  });

  it('give a likely range, which leaves a normal’s own percentiles where they are', () => {
    const normal = Array.from({ length: 4000 }, (_v, j) => normalQuantile((j + 0.5) / 4000));
    // 5th and 95th percentile of a normal: -+1.64485 (NIST/SEMATECH handbook 1.3.6.7.1, from memory).
    expect(likelyRange(normal).low).toBeCloseTo(-1.64485, 2);
    expect(likelyRange(normal).high).toBeCloseTo(1.64485, 2);
    expect(likelyRange([7])).toEqual({ low: 7, high: 7 });
    expect(likelyRange([]).low).toBeNaN();
    // A thousand even steps: a share of them is that many steps up, less half a one.
    const even = Array.from({ length: 1000 }, (_v, i) => 999 - i);
    expect(likelyRange(even).low).toBeCloseTo((1000 * (0.0204 + 0.0325 + 0.05 + 0.0742 + 0.1066)) / 5 - 0.5, 9);
    expect(likelyRange(even).low + likelyRange(even).high).toBeCloseTo(999, 9);
  });

  it('move less from sample to sample as a likely range than as bare percentiles', () => {
    const ends: [number, number][] = [];
    for (let seed = 1; seed <= 400; seed++) {
      const next = uniform(seed);
      const sample = Array.from({ length: 96 }, () => normalQuantile(Math.max(1e-9, next())));
      ends.push([
        likelyRange(sample).high,
        quantile(
          [...sample].sort((a, b) => a - b),
          0.95,
        ),
      ]);
    }
    const spread = (k: 0 | 1): number => {
      const mean = ends.reduce((sum, e) => sum + e[k], 0) / ends.length;
      return Math.sqrt(ends.reduce((sum, e) => sum + (e[k] - mean) ** 2, 0) / ends.length);
    };
    expect(spread(0)).toBeLessThan(0.95 * spread(1));
  });
});

describe('the seeded generator', () => {
  it('gives even numbers in [0, 1), the same for the same seed', () => {
    const [a, b] = [uniform(9), uniform(9)];
    const counts = new Array<number>(10).fill(0);
    for (let k = 0; k < 20_000; k++) {
      const x = a();
      expect(x).toBe(b());
      counts[Math.floor(10 * x)]!++;
    }
    for (const n of counts) expect(Math.abs(n - 2000)).toBeLessThan(200);
  });
});

describe('likely ranges', () => {
  it('hold the value in nearly all blends, and are the same each time', () => {
    let inside = 0;
    let all = 0;
    for (let seed = 1; seed <= 10; seed++) {
      const { input, grams } = randomBlend(seed);
      const first = assess(input, grams, [], { draws: 80 });
      if (seed <= 2) expect(assess(input, grams, [], { draws: 80 })).toEqual(first);
      for (const { value, low, high } of first.properties) {
        if (value === null || low === null || high === null) continue;
        expect(low).toBeLessThanOrEqual(high);
        all++;
        if (value >= low - 1e-9 * Math.abs(value) && value <= high + 1e-9 * Math.abs(value)) inside++;
      }
    }
    expect(all).toBeGreaterThan(150);
    expect(inside / all).toBeGreaterThan(0.97);
  });

  it('are wide for set times and narrow for weights', () => {
    const input = {
      materials: ['casting-plaster', 'water'].map(material),
      figures: model,
      conditions: DEFAULT_CONDITIONS,
    };
    const { properties } = assess(input, [1000, 700]);
    const spread = (id: string): number => {
      const { value, low, high } = properties.find((p) => p.property === id)!;
      return (high! - low!) / value!;
    };
    expect(spread('fresh-weight')).toBe(0);
    expect(spread('dry-weight')).toBeLessThan(0.03);
    expect(spread('initial-set')).toBeGreaterThan(0.5);
  });
});
