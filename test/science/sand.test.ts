import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blendSands } from '../../src/core/science/blend-sands.js';
import {
  C33_ENVELOPE,
  c33Verdict,
  finenessModulusOf,
  gradingFromWeights,
  mixGradings,
  passingAt,
} from '../../src/core/science/grading.js';
import { andreasen, fuller, funkDinger } from '../../src/core/science/target-curves.js';
import { between, property } from './counting.js';
import { FINE, grading, SIEVES } from './gradings.js';

describe('grading', () => {
  it('passes through its own points and never falls as the opening grows', () => {
    property(fc.tuple(grading, between(0.02, 10)), ([g, size]) => {
      for (const point of g) expect(passingAt(g, point.sieve)).toBeCloseTo(point.passing, 9);
      expect(passingAt(g, size * 1.2)).toBeGreaterThanOrEqual(passingAt(g, size) - 1e-9);
      expect(passingAt([...g].reverse(), size)).toBeCloseTo(passingAt(g, size), 9);
      return true;
    });
    expect(() => passingAt([], 1)).toThrow(RangeError);
  });

  it('keeps the grams it was given, and tells the loss', () => {
    const weight = fc.record({ sieve: fc.constantFrom(4.75, 2.36, 1.18, 0.6, 0.3, 0.15, 0), grams: between(0, 200) });
    property(fc.uniqueArray(weight, { selector: (w) => w.sieve, minLength: 2, maxLength: 7 }), (weights) => {
      const sum = weights.reduce((total, w) => total + w.grams, 0);
      if (sum === 0) return false;
      const test = gradingFromWeights(weights, sum + 1);
      expect(test.total).toBeCloseTo(sum, 9);
      expect(test.loss).toBeCloseTo(1 / (sum + 1), 9);
      for (const r of test.retained) expect(r.percent).toBeLessThanOrEqual(100 + 1e-9);
      return true;
    });
    expect(() => gradingFromWeights([{ sieve: 1, grams: 0 }])).toThrow(RangeError);
  });

  it('judges the middle of C33 inside and each edge overstepped outside', () => {
    const middle = C33_ENVELOPE.map(([sieve, low, high]) => ({ sieve, passing: (low + high) / 2 }));
    expect(c33Verdict(middle)).toMatchObject({ inside: true, modulusOk: true, stepOk: true });
    for (let i = 1; i < middle.length; i++) {
      const over = middle.map((p, j) => (j === i ? { ...p, passing: C33_ENVELOPE[i]![2] + 1 } : p));
      expect(c33Verdict(over).sieves[i]!.ok).toBe(false);
    }
    const gap = middle.map((p) =>
      p.sieve === 0.6 ? { ...p, passing: 27 } : p.sieve === 1.18 ? { ...p, passing: 80 } : p,
    );
    expect(c33Verdict(gap)).toMatchObject({ inside: false, stepOk: false });
    expect(c33Verdict(FINE).inside).toBe(false);
  });

  it('mixes gradings between their parts', () => {
    property(fc.tuple(grading, grading, between(0.001, 0.999)), ([a, b, share]) => {
      const mixed = mixGradings(
        [
          { grading: a, share },
          { grading: b, share: 1 - share },
        ],
        SIEVES,
      );
      mixed.forEach((p, i) => {
        expect(p.passing).toBeCloseTo(share * a[i]!.passing + (1 - share) * b[i]!.passing, 6);
      });
      const between_ = [finenessModulusOf(a), finenessModulusOf(b)].sort((x, y) => x - y);
      expect(finenessModulusOf(mixed)).toBeGreaterThanOrEqual(between_[0]! - 1e-6);
      expect(finenessModulusOf(mixed)).toBeLessThanOrEqual(between_[1]! + 1e-6);
      return true;
    });
  });
});

describe('target curves', () => {
  it('keeps proportioning.md 4', () => {
    for (const [d, p] of [
      [2.36, 70.49],
      [1.18, 49.84],
      [0.6, 35.54],
      [0.3, 25.13],
      [0.15, 17.77],
    ] as const) {
      expect(fuller(d, 4.75)).toBeCloseTo(p, 2);
    }
    const table = {
      0.23: [14.72, 33.58, 39.71, 53.97, 66.94, 82.16],
      0.25: [13.68, 31.95, 38.02, 52.33, 65.56, 81.29],
      0.37: [8.59, 23.21, 28.73, 42.9, 57.31, 75.93],
    };
    for (const [q, values] of Object.entries(table)) {
      [0.01, 0.063, 0.1, 0.25, 0.5, 1].forEach((d, i) => {
        expect(funkDinger(d, 0.001, 2, Number(q))).toBeCloseTo(values[i]!, 2);
      });
    }
    expect(andreasen(1, 4)).toBeCloseTo(100 * 0.25 ** 0.37, 9);
  });

  it('runs from nothing to all, and nears Andreasen as the smallest grain vanishes', () => {
    property(fc.tuple(between(0.001, 1), between(0.2, 0.5)), ([d, q]) => {
      expect(funkDinger(0.0005, 0.0005, 1, q)).toBe(0);
      expect(funkDinger(1, 0.0005, 1, q)).toBeCloseTo(100, 9);
      expect(funkDinger(d, 1e-30, 1, q)).toBeCloseTo(andreasen(d, 1, q), 3);
      expect(funkDinger(d, 0.0005, 1, q)).toBeLessThanOrEqual(andreasen(d, 1, q) + 1e-9);
      return true;
    });
    expect(() => funkDinger(1, 2, 1, 0.3)).toThrow(RangeError);
  });
});

describe('blending sands', () => {
  it('finds a mixture that was hidden in the target', () => {
    property(fc.tuple(grading, grading, grading, between(0.05, 0.45), between(0.05, 0.45)), ([a, b, c, x, y]) => {
      const hidden = [x, y, 1 - x - y];
      const target = (size: number) => [a, b, c].reduce((sum, g, i) => sum + hidden[i]! * passingAt(g, size), 0);
      const found = blendSands([a, b, c], target, SIEVES);
      expect(found.miss).toBeLessThan(1e-4);
      expect(found.shares.reduce((s, v) => s + v, 0)).toBeCloseTo(1, 9);
      return true;
    });
  });

  it('is never beaten by a fine grid of other mixtures', () => {
    property(
      fc.tuple(grading, grading, grading, between(0.25, 0.6)),
      ([a, b, c, exponent]) => {
        const sands = [a, b, c];
        const target = (size: number) => fuller(size, 4.75, exponent);
        const best = blendSands(sands, target, SIEVES);
        for (const share of best.shares) expect(share).toBeGreaterThanOrEqual(0);
        for (let i = 0; i <= 20; i++) {
          for (let j = 0; j <= 20 - i; j++) {
            const shares = [i / 20, j / 20, (20 - i - j) / 20];
            const misses = SIEVES.map(
              (s) => sands.reduce((sum, g, k) => sum + shares[k]! * passingAt(g, s), 0) - target(s),
            );
            const miss = Math.sqrt(misses.reduce((sum, m) => sum + m * m, 0) / SIEVES.length);
            expect(miss).toBeGreaterThanOrEqual(best.miss - 1e-7);
          }
        }
        return true;
      },
      60,
    );
  });

  it('takes one sand, copes with twins, and refuses none', () => {
    expect(blendSands([FINE], (d) => fuller(d, 1.18), SIEVES).shares).toEqual([1]);
    const twins = blendSands([FINE, FINE], (d) => fuller(d, 1.18), SIEVES);
    expect(twins.shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    expect(() => blendSands([], () => 0, SIEVES)).toThrow(RangeError);
  });
});
