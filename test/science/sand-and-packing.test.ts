import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blendSands } from '../../src/core/science/blend-sands.js';
import {
  C33_ENVELOPE,
  c33Verdict,
  finenessModulusOf,
  type Grading,
  gradingFromWeights,
  mixGradings,
  passingAt,
} from '../../src/core/science/grading.js';
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
import { andreasen, fuller, funkDinger } from '../../src/core/science/target-curves.js';
import { waterDensity } from '../../src/core/science/water-density.js';
import { between, property } from './counting.js';

const SIEVES = [4.75, 2.36, 1.18, 0.6, 0.3, 0.15, 0.075];

/** Gradings that fall from 100 to 0 over the sieves. */
const grading: fc.Arbitrary<Grading> = fc
  .array(between(0.001, 1), { minLength: SIEVES.length, maxLength: SIEVES.length })
  .map((steps) => {
    const total = steps.reduce((a, b) => a + b, 0);
    let left = 100;
    return SIEVES.map((sieve, i) => {
      left -= i === 0 ? 0 : (100 * steps[i]!) / total;
      return { sieve, passing: i === 0 ? 100 : Math.max(0, left) };
    });
  });

const COARSE: Grading = [
  { sieve: 4.75, passing: 100 },
  { sieve: 2.36, passing: 60 },
  { sieve: 1.18, passing: 10 },
  { sieve: 0.6, passing: 0 },
];
const FINE: Grading = [
  { sieve: 1.18, passing: 100 },
  { sieve: 0.6, passing: 95 },
  { sieve: 0.3, passing: 40 },
  { sieve: 0.15, passing: 5 },
  { sieve: 0.075, passing: 0 },
];

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
});
