import { describe, expect, it } from 'vitest';
import { assess } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { contributorsIn } from '../../src/core/blend/contributors.js';
import { latinHypercube } from '../../src/core/blend/sampling.js';
import type { WorldInput } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import { handFigure as figure } from '../support/hand-figure.js';
import { normalBelow } from '../support/normal.js';
import { material, model } from '../support/shipped-table.js';

/** z of the 95th percentile and its tail, and the density at 2.8: the standard normal table of any statistics text. */
const Z95 = 1.644854;
const MOST = 2.8;
const DENSITY_AT_MOST = 0.0079155;
const TAIL_AT_MOST = 0.0025551;
/** Variance of a standard normal that stops at 2.8 either way, which is how figures are drawn. */
const STOPPED = 1 - 2 * TAIL_AT_MOST - 2 * MOST * DENSITY_AT_MOST + 2 * MOST ** 2 * TAIL_AT_MOST;

/** Two cements and water; the sulfate of the binder is a weighted sum of two figures, hence linear in them. */
function twoCements(halves: readonly [number, number]): WorldInput {
  const cement = (id: string, so3: number, half: number): Material => ({ ...material(id), so3: figure(so3, half) });
  return {
    materials: [
      material('water'),
      cement('portland-cement-grey', 3, halves[0]),
      cement('portland-cement-white', 2.4, halves[1]),
    ],
    figures: model,
    conditions: { ...DEFAULT_CONDITIONS, volume: null },
  };
}
const GRAMS = [200, 300, 100];
const SHARES = [0.75, 0.25] as const;
const HALVES = [0.5, 0.9] as const;
const deviations = SHARES.map((share, i) => (share * HALVES[i]!) / Z95);
const variance = STOPPED * deviations.reduce((s, d) => s + d * d, 0);
const mean = SHARES[0] * 3 + SHARES[1] * 2.4;
const DRAWS = 2000;

describe('a property that is linear in two independent figures', () => {
  const limit = mean + 0.8 * Math.sqrt(variance);
  const { properties, verdicts, jointChance } = assess(
    twoCements(HALVES),
    GRAMS,
    [
      { property: 'sulfate', max: limit },
      { property: 'sulfate', min: mean },
    ],
    { draws: DRAWS },
  );
  const sulfate = properties.find((p) => p.property === 'sulfate')!;

  it('has the analytic mean and percentiles', () => {
    const d = Math.sqrt(variance);
    expect(sulfate.value).toBeCloseTo(mean, 9);
    expect(Math.abs(sulfate.low! - (mean - Z95 * d))).toBeLessThan(0.03 * d);
    expect(Math.abs(sulfate.high! - (mean + Z95 * d))).toBeLessThan(0.03 * d);
  });

  it('has the analytic chances, singly and jointly', () => {
    expect(Math.abs(verdicts[0]!.chance! - normalBelow(0.8))).toBeLessThan(0.012);
    expect(Math.abs(verdicts[1]!.chance! - 0.5)).toBeLessThan(0.012);
    expect(Math.abs(jointChance! - (normalBelow(0.8) - 0.5))).toBeLessThan(0.015);
  });

  it('names both figures with their shares of the variance', () => {
    const total = deviations.reduce((s, d) => s + d * d, 0);
    const expected = deviations.map((d) => (d * d) / total);
    expect(sulfate.contributors.map((c) => c.figure)).toEqual([
      'portland-cement-grey.so3',
      'portland-cement-white.so3',
    ]);
    sulfate.contributors.forEach((c, i) => {
      expect(Math.abs(c.share - expected[i]!)).toBeLessThan(0.02);
      expect(c.direction).toBe('rises');
    });
  });
});

describe('the variance of a Latin hypercube', () => {
  it('is the analytic one, and its mean is far surer than that of plain draws (McKay, Beckman and Conover 1979)', () => {
    const key = (i: number) => `a.${i}`;
    const figures = [figure(10, 1), figure(5, 3), figure(2, 0.5)];
    const weights = [2, 1, 3];
    const exact = STOPPED * figures.reduce((s, f, i) => s + (weights[i]! * ((f.high - f.value) / Z95)) ** 2, 0);
    // So many that four standard deviations of a sample's variance (1.5 %) stay within 6 %.
    const count = 5000;
    let worst = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const draws = latinHypercube(count, seed);
      const sums = Array.from({ length: count }, (_v, j) =>
        figures.reduce((s, f, i) => s + weights[i]! * draws.reading(j)(key(i), f), 0),
      );
      const average = sums.reduce((s, v) => s + v, 0) / count;
      worst = Math.max(worst, Math.abs(average - (20 + 5 + 6)));
      const spread = sums.reduce((s, v) => s + (v - average) ** 2, 0) / count;
      expect(Math.abs(spread / exact - 1)).toBeLessThan(0.06);
    }
    // Plain draws would miss the mean by about sqrt(exact / 5000), a standard deviation.
    expect(worst).toBeLessThan(0.25 * Math.sqrt(exact / count));
  });
});

describe('what a spread comes from', () => {
  const draws = latinHypercube(DRAWS, 7);
  const keys = ['m.a', 'm.b', 'm.c', 'm.d', 'm.idle'];
  const figures = keys.map(() => figure(10, 1.5));
  const values = (of: (x: readonly number[]) => number): number[] =>
    Array.from({ length: DRAWS }, (_v, j) => of(figures.map((f, i) => draws.reading(j)(keys[i]!, f))));
  const linear = values(([a, b, c, d]) => 3 * a! - 2 * b! + c! + 0.3 * d!);
  const find = contributorsIn(draws);

  it('is told by the squared weights of a sum, the largest three of them', () => {
    const found = find(linear);
    const total = 9 + 4 + 1 + 0.09;
    expect(found.map((c) => c.figure)).toEqual(['m.a', 'm.b', 'm.c']);
    expect(found.map((c) => c.direction)).toEqual(['rises', 'falls', 'rises']);
    found.forEach((c, i) => {
      expect(Math.abs(c.share - [9, 4, 1][i]! / total)).toBeLessThan(0.025);
    });
  });

  it('does not hang on the scale: a monotone function of it has the same', () => {
    const bent = find(linear.map((v) => Math.exp(v / 3)));
    const straight = find(linear);
    expect(bent.map((c) => c.figure)).toEqual(straight.map((c) => c.figure));
    bent.forEach((c, i) => {
      expect(c.share).toBeCloseTo(straight[i]!.share, 12);
    });
  });

  it('never names a figure that plays no part, nor anything where nothing varies', () => {
    let asked = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const few = latinHypercube(256, seed);
      const sample = Array.from({ length: 256 }, (_v, j) => {
        const x = figures.map((f, i) => few.reading(j)(keys[i]!, f));
        return x[0]! + x[1]!;
      });
      const named = contributorsIn(few)(sample).map((c) => c.figure);
      expect(named.slice(0, 2).sort()).toEqual(['m.a', 'm.b']);
      asked += named.filter((n) => n === 'm.idle').length;
    }
    expect(asked).toBe(0);
    expect(find(values(() => 4))).toEqual([]);
  });

  it('takes for one what differs by arithmetic alone, as the same sums do on another machine', () => {
    // All but the draws where the first figure is high are alike, but for the last digits.
    const blurred = (by: number) => values(([a]) => Math.max(a!, 10)).map((v, j) => v * (1 + by * ((j * 7919) % 13)));
    const exact = find(blurred(0));
    expect(exact[0]!.figure).toBe('m.a');
    expect(find(blurred(1e-14))).toEqual(exact);
    expect(find(blurred(1e-6))).not.toEqual(exact);
    expect(find(values(() => 4).map((v, j) => v * (1 + 1e-14 * (j % 5))))).toEqual([]);
  });

  it('is told of the draws that have the property at all', () => {
    const holed = linear.map((v, j) => (j % 3 === 0 ? null : v));
    const found = find(holed);
    expect(found.map((c) => c.figure)).toEqual(['m.a', 'm.b', 'm.c']);
    expect(Math.abs(found[0]!.share - 9 / 14.09)).toBeLessThan(0.05);
  });
});

describe('known sensitivities of a blend', () => {
  it('the water of a damp sandy mortar hangs on the sand: its moisture and what it drinks', () => {
    const input: WorldInput = {
      materials: [material('water'), material('portland-cement-grey'), material('masonry-sand')],
      figures: model,
      conditions: { ...DEFAULT_CONDITIONS, volume: null },
    };
    const { properties } = assess(input, [220, 400, 1200], [], { draws: DRAWS });
    const contributors = (id: string) => properties.find((p) => p.property === id)!.contributors;
    const water = contributors('water-to-binder');
    expect(
      water
        .map((c) => c.figure)
        .slice(0, 2)
        .sort(),
    ).toEqual(['masonry-sand.absorption', 'masonry-sand.moisture']);
    expect(water.find((c) => c.figure === 'masonry-sand.moisture')!.direction).toBe('rises');
    expect(water.find((c) => c.figure === 'masonry-sand.absorption')!.direction).toBe('falls');
    expect(contributors('demould-weight')[0]!.figure).toBe('model.lost-in-mould');
    expect(contributors('fresh-weight')).toEqual([]);
  });
});
