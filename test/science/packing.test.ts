import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Grading } from '../../src/core/science/grading.js';
import {
  betaOfSingleClass,
  COMPACTION,
  idealBinary,
  idealBinaryPeak,
  idealMultimodal,
  looseningEffect,
  packingDensity,
  virtualPacking,
  wallEffect,
  whereIndexIs,
} from '../../src/core/science/packing.js';
import { puntkePacking, relativeFlowArea, spreadLine } from '../../src/core/science/paste-flow.js';
import { pigmentVerdict, WHITE_BINDER_ADVICE } from '../../src/core/science/pigment.js';
import {
  crackReasons,
  restrainedShrinkage,
  SETTING_EXPANSION,
  settingGrowth,
  shrinkageClass,
} from '../../src/core/science/shrinkage.js';
import {
  calibratedBeta,
  excessPaste,
  grainSurface,
  pasteFilm,
  sizeClasses,
  skeletonVoids,
  voidRatio,
} from '../../src/core/science/skeleton.js';
import { waterDensity } from '../../src/core/science/water-density.js';
import { between, property } from './counting.js';
import { COARSE, FINE, grading } from './gradings.js';

describe('packing', () => {
  it('keeps proportioning.md 22 and 31: the ideal pair and the compressible model', () => {
    expect(idealBinaryPeak(0.6, 0.6).density).toBeCloseTo(0.84, 4);
    expect(1 - idealBinaryPeak(0.6, 0.6).fineShare).toBeCloseTo(0.7143, 4);
    expect(idealBinary(0.58, 0.6, 0.2)).toBeCloseTo(0.725, 4);
    expect(idealBinary(0.58, 0.6, 0.3)).toBeCloseTo(0.8286, 4);
    expect(idealBinary(0.58, 0.6, 0.4)).toBeCloseTo(0.7895, 4);
    expect(idealBinaryPeak(0.58, 0.6)).toMatchObject({
      density: expect.closeTo(0.832, 4),
      fineShare: expect.closeTo(0.3029, 4),
    });
    expect(looseningEffect(0.25)).toBeCloseTo(0.50428, 5);
    expect(wallEffect(0.25)).toBeCloseTo(0.35048, 5);
    const pair = (fine: number) => [
      { size: 4, beta: 0.58, share: 1 - fine },
      { size: 1, beta: 0.6, share: fine },
    ];
    for (const [fine, g] of [
      [0.2, 0.6462],
      [0.3, 0.6854],
      [0.35, 0.7068],
      [0.4, 0.7047],
      [0.5, 0.6848],
    ] as const) {
      expect(virtualPacking(pair(fine))).toBeCloseTo(g, 4);
    }
    for (const [k, phi] of [
      [4.1, 0.548],
      [4.5, 0.5593],
      [9, 0.6255],
    ] as const) {
      expect(packingDensity(pair(0.35), k)).toBeCloseTo(phi, 4);
    }
  });

  const sizes = fc.array(fc.record({ size: between(0.05, 8), beta: between(0.4, 0.8), part: between(0.02, 1) }), {
    minLength: 1,
    maxLength: 5,
  });
  const classesOf = (raw: readonly { size: number; beta: number; part: number }[]) => {
    const total = raw.reduce((sum, c) => sum + c.part, 0);
    return raw.map(({ size, beta, part }) => ({ size, beta, share: part / total }));
  };

  it('packs below the virtual density, denser when pressed, never worse than its loosest class alone', () => {
    property(fc.tuple(sizes, between(2, 12)), ([raw, k]) => {
      const classes = classesOf(raw);
      const virtual = virtualPacking(classes);
      const phi = packingDensity(classes, k);
      expect(phi).toBeLessThan(virtual);
      expect(packingDensity(classes, k + 1)).toBeGreaterThan(phi);
      const loosest = Math.min(...classes.map((c) => c.beta));
      expect(virtual).toBeGreaterThanOrEqual(loosest - 1e-9);
      expect(packingDensity([...classes].reverse(), k)).toBeCloseTo(phi, 9);
      return true;
    });
  });

  it('is the class itself when there is one, and the ideal pair when sizes are very unlike', () => {
    property(fc.tuple(between(0.4, 0.8), between(2, 12), between(0.05, 0.95)), ([beta, k, fine]) => {
      const phi = packingDensity([{ size: 1, beta, share: 1 }], k);
      expect(betaOfSingleClass(phi, k)).toBeCloseTo(beta, 6);
      const far = virtualPacking([
        { size: 1e6, beta, share: 1 - fine },
        { size: 1e-3, beta: 0.6, share: fine },
      ]);
      expect(far).toBeCloseTo(idealBinary(beta, 0.6, fine), 3);
      return true;
    });
    expect(idealMultimodal(0.6, 1)).toBeCloseTo(0.6, 12);
  });

  it('gives back the measured voids of one sand, and fills them with a finer one', () => {
    property(fc.tuple(grading, between(0.3, 0.5)), ([g, voids]) => {
      const alone = skeletonVoids([{ volume: 100, grading: g, voids }])!;
      expect(alone).toBeCloseTo(voids, 4);
      return true;
    });
    const mixed = skeletonVoids([
      { volume: 65, grading: COARSE, voids: 0.42 },
      { volume: 35, grading: FINE, voids: 0.41 },
    ])!;
    expect(mixed).toBeLessThan(0.38);
    expect(mixed).toBeGreaterThan(0.25);
    expect(skeletonVoids([])).toBeNull();
    expect(calibratedBeta(FINE, 0.41, COMPACTION.pressed)).toBeLessThan(calibratedBeta(FINE, 0.41, COMPACTION.poured));
  });

  it('does not open up when a sand is split in two heaps of itself', () => {
    property(fc.tuple(grading, between(0.3, 0.5), between(1, 99)), ([g, voids, part]) => {
      const split = skeletonVoids([
        { volume: part, grading: g, voids },
        { volume: 100 - part, grading: g, voids },
      ])!;
      expect(split).toBeCloseTo(voids, 4);
      return true;
    });
  });

  it('cuts gradings into classes that hold all grains', () => {
    property(grading, (g) => {
      expect(sizeClasses(g).reduce((sum, c) => sum + c.share, 0)).toBeCloseTo(1, 9);
      return true;
    });
  });

  it('keeps the excess paste of the C109 mortar (proportioning.md 4)', () => {
    const sand = 1375 / 2.65;
    const paste = 500 / 3.15 + 242 / waterDensity(20);
    expect(voidRatio(0.412)).toBeCloseTo(0.7007, 4);
    expect(excessPaste(paste, sand, 0.412)).toBeCloseTo(37.6, 1);
    expect(excessPaste(10, sand, 0.412)).toBeLessThan(0);
    expect(pasteFilm(37.6, 10)).toBeCloseTo(3.76, 9);
    // A litre of 1 mm spheres has 6 m2; the class from 0.5 to 1 mm counts as 0.707 mm.
    expect(
      grainSurface(1000, [
        { sieve: 1, passing: 100 },
        { sieve: 0.5, passing: 0 },
      ]),
    ).toBeCloseTo(6 * Math.SQRT2, 6);
    const halves: Grading = [
      { sieve: 2, passing: 100 },
      { sieve: 1, passing: 50 },
      { sieve: 0.5, passing: 0 },
    ];
    expect(grainSurface(1000, halves)).toBeCloseTo(6 * (0.5 / Math.SQRT2 + 0.5 * Math.SQRT2), 6);
    expect(grainSurface(100, FINE)).toBeGreaterThan(grainSurface(100, COARSE));
  });
});

describe('powders, shrinkage, colour', () => {
  it('keeps Puntke and the spread areas of proportioning.md 4', () => {
    expect(puntkePacking(50, 3.15, 12, waterDensity(20))).toBeCloseTo(0.569, 4);
    expect([200, 250, 300].map((d) => relativeFlowArea(d))).toEqual([3, 5.25, 8]);
  });

  it('draws the line through exact spread tests', () => {
    property(fc.tuple(between(0.02, 0.2), between(0.6, 1.2)), ([deformation, retained]) => {
      const tests = [150, 220, 300].map((spread) => ({
        spread,
        waterPowder: retained + deformation * relativeFlowArea(spread),
      }));
      const line = spreadLine(tests);
      expect(line.deformation).toBeCloseTo(deformation, 9);
      expect(line.retained).toBeCloseTo(retained, 9);
      return true;
    });
    expect(() => spreadLine([{ waterPowder: 1, spread: 200 }])).toThrow(RangeError);
  });

  it('grows plaster by its percent and shrinks mortar less with more sand', () => {
    expect(settingGrowth(200, SETTING_EXPANSION.beta.value)).toBeCloseTo(0.4, 12);
    property(fc.tuple(between(500, 4000), between(0, 0.95)), ([paste, grains]) => {
      expect(restrainedShrinkage(paste, grains + 0.05)).toBeLessThan(restrainedShrinkage(paste, grains));
      return true;
    });
    expect(restrainedShrinkage(3000, 0)).toBe(3000);
    expect([500, 900, 1500].map(shrinkageClass)).toEqual(['low', 'medium', 'high']);
  });

  it('names why a piece may crack', () => {
    const mix = { aggregate: 0.2, waterToBinder: 0.6, wallRatio: 4, coverDays: 0, shrinkingShare: 1 };
    expect(crackReasons(mix)).toEqual(['rich', 'wet', 'uneven-walls', 'dried-early']);
    expect(crackReasons({ ...mix, shrinkingShare: 0.1 })).toEqual([]);
    expect(
      crackReasons({ aggregate: 0.5, waterToBinder: 0.45, wallRatio: 1, coverDays: 3, shrinkingShare: 1 }),
    ).toEqual([]);
  });

  it('keeps all pigments within the smallest of their limits (proportioning.md 25)', () => {
    expect(pigmentVerdict(1000, [{ grams: 60, limit: 10 }])).toMatchObject({ ok: true, most: 100 });
    expect(pigmentVerdict(1000, [{ grams: 40 }, { grams: 21, limit: 6 }])).toMatchObject({ ok: false, most: 60 });
    expect(pigmentVerdict(0, [{ grams: 1 }]).ok).toBe(false);
    expect(pigmentVerdict(0, []).ok).toBe(true);
    property(
      fc.tuple(
        between(1, 1000),
        fc.array(fc.record({ grams: between(0, 50), limit: between(1, 20) }), { maxLength: 4 }),
      ),
      ([cement, pigments]) => {
        expect(pigmentVerdict(cement, pigments).limit).toBeLessThanOrEqual(10);
        return true;
      },
    );
    expect(new Set(WHITE_BINDER_ADVICE.map((a) => a.colour)).size).toBe(WHITE_BINDER_ADVICE.length);
  });

  it('finds where a compaction index comes to K: right of every pole, and there it is K', () => {
    const term = fc.record({ weight: between(1e-6, 2), slope: between(0.1, 5), offset: between(-3, 3) });
    const terms = fc.array(term, { minLength: 1, maxLength: 12 });
    property(fc.tuple(terms, between(0.5, 20)), ([all, compaction]) => {
      const x = whereIndexIs(compaction, all);
      for (const t of all) expect(t.slope * x + t.offset).toBeGreaterThan(0);
      const index = all.reduce((sum, t) => sum + t.weight / (t.slope * x + t.offset), 0);
      expect(Math.abs(index / compaction - 1)).toBeLessThan(1e-7);
      return true;
    });
    // 1/x + 1/(x - 1) = 1.5 at x = 2.
    const pair = [0, -1].map((offset) => ({ weight: 1, slope: 1, offset }));
    expect(whereIndexIs(1.5, pair)).toBeCloseTo(2, 14);
  });
});
