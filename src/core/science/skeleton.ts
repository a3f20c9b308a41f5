import { type Grading, passingAt } from './grading.js';
import { atLeast, clamp, positive } from './guard.js';
import { COMPACTION, disturbances, packedDensity, whereIndexIs } from './packing.js';

/** Grains of one material in the skeleton. */
export interface Aggregate {
  /** cm3 of grains (closed pores included). */
  readonly volume: number;
  /** Percent passing by sieve [mm]. */
  readonly grading: Grading;
  /** Voids of the material alone, 0..1, as measured (C29 or bulk against particle density). */
  readonly voids: number;
}

/** Class borders [mm]: a doubling series wide enough for powders to small gravel. */
const BORDERS = [16, 8, 4, 2, 1, 0.5, 0.25, 0.125, 0.063, 0.0315] as const;

/** Upper and lower border of every class [mm], the finest down to half of the last border. */
const CLASSES = [...BORDERS, BORDERS[BORDERS.length - 1]! / 2].map((lower, k) => ({
  upper: k === 0 ? 2 * BORDERS[0] : BORDERS[k - 1]!,
  lower,
}));
/** The size of a class is the geometric mean of its borders (de Larrard's choice). */
const SIZES = CLASSES.map(({ upper, lower }) => Math.sqrt(upper * lower));
const DISTURBANCES = disturbances(SIZES);

/** Shares of the classes in a grading, coarse first [0..1]. */
function sharesOf(grading: Grading): Float64Array {
  let above = 100;
  return Float64Array.from(CLASSES, ({ lower }, k) => {
    const passing = k === CLASSES.length - 1 ? 0 : passingAt(grading, lower);
    const share = (above - passing) / 100;
    above = passing;
    return share > 1e-9 ? share : 0;
  });
}

/** A grading cut into size classes [mm, share 0..1]. */
export const sizeClasses = (grading: Grading): { readonly size: number; readonly share: number }[] =>
  Array.from(sharesOf(grading), (share, k) => ({ size: SIZES[k]!, share })).filter((c) => c.share > 0);

/**
 * Virtual packing density of a material's grains [0..1], the same for all its sizes, from its measured voids.
 *
 * The one beta with which the compressible model gives back the measured packing phi at the compaction K of the test:
 *
 *   sum over classes of y_i / (beta/phi - 1 + (1 - beta) W_i + L_i) = K
 *   W_i = sum_{j coarser} (1 - b_ij) y_j,  L_i = sum_{j finer} (1 - a_ij) y_j
 *
 * Loose scooped K 4.1, rodded 4.5. Clamped to 0.05-0.98. Source: de-larrard-1999 (from memory), solved for equal betas.
 */
export function calibratedBeta(grading: Grading, voids: number, compaction: number = COMPACTION.poured): number {
  const phi = clamp(1 - voids, 0.02, 0.95);
  const terms = sizesIn(grading).crowded.map(({ share, wall, loose }) => ({
    weight: share,
    slope: 1 / phi - wall,
    offset: wall + loose - 1,
  }));
  return clamp(whereIndexIs(compaction, terms), 0.05, 0.98);
}

/** A class of a grading, and how much its other sizes are in the way of it. */
interface Crowded {
  readonly share: number;
  readonly wall: number;
  readonly loose: number;
}

interface Sizes {
  readonly shares: Float64Array;
  readonly crowded: readonly Crowded[];
}

/** By grading: a draw moves a sand's voids, never its sizes. */
const sizesOf = new WeakMap<Grading, Sizes>();

function sizesIn(grading: Grading): Sizes {
  const known = sizesOf.get(grading);
  if (known !== undefined) return known;
  const shares = sharesOf(grading);
  const crowded = Array.from(shares, (share, i): Crowded => {
    let wall = 0;
    let loose = 0;
    shares.forEach((other, j) => {
      const apart = (1 - DISTURBANCES[i * shares.length + j]!) * other;
      if (j < i) wall += apart;
      if (j > i) loose += apart;
    });
    return { share, wall, loose };
  }).filter((c) => c.share > 0);
  const made = { shares, crowded };
  sizesOf.set(grading, made);
  return made;
}

/** What the packing of a material's grains rests on, whatever they are mixed with. */
export interface Grains {
  /** By class, coarse first [0..1]. */
  readonly shares: Float64Array;
  readonly beta: number;
}

/**
 * Grains with their beta calibrated once, for whoever packs them many times: shares of the size classes and beta [0..1].
 * Arguments as `calibratedBeta`.
 */
export const grainsOf = (grading: Grading, voids: number, tested: number = COMPACTION.poured): Grains => ({
  shares: sizesIn(grading).shares,
  beta: calibratedBeta(grading, voids, tested),
});

/**
 * Voids of a mixture of aggregates [fraction of the bulk volume]: each material's beta from its own voids, all its sizes
 * put together in the compressible packing model. Light aggregate is taken by volume like any other.
 *
 * aggregates [volumes >= 0]; compaction of the cast [COMPACTION]; tested: that of the void tests. Null without grains.
 * Never above the mean voids by more than rounding for equal compaction: mixing sizes only helps.
 * Source: de-larrard-1999 (see packing.ts).
 */
export function skeletonVoids(
  aggregates: readonly Aggregate[],
  compaction: number = COMPACTION.poured,
  tested: number = COMPACTION.poured,
): number | null {
  const mixed = aggregates.map(({ volume, grading, voids }) => ({ volume, grains: grainsOf(grading, voids, tested) }));
  return mixedVoids(mixed, compaction);
}

/** Voids of grains mixed by volume [cm3]; as `skeletonVoids`. */
export function mixedVoids(
  parts: readonly { readonly volume: number; readonly grains: Grains }[],
  compaction: number = COMPACTION.poured,
): number | null {
  const present = parts.filter((a) => atLeast(0, a.volume, 'volume') > 0);
  const total = present.reduce((sum, a) => sum + a.volume, 0);
  if (total === 0) return null;
  const share = new Float64Array(SIZES.length);
  const inverse = new Float64Array(SIZES.length);
  for (const { volume, grains } of present) {
    const { shares, beta } = grains;
    for (let k = 0; k < shares.length; k++) {
      const part = (shares[k]! * volume) / total;
      share[k]! += part;
      inverse[k]! += part / beta;
    }
  }
  // Grains of one size from several materials pack with the harmonic mean of their betas: volumes add.
  const beta = share.map((part, k) => part / inverse[k]!);
  return 1 - packedDensity({ share, beta, disturbed: DISTURBANCES }, compaction);
}

/** Voids per volume of grains [cm3/cm3]: e/(1 - e). voids e [fraction of the bulk volume, 0..<1]. */
export const voidRatio = (voids: number): number => voids / positive(1 - voids, '1 - voids');

/**
 * Paste beyond what the voids of the skeleton need [cm3]. V_paste - V_grains e/(1 - e).
 *
 * paste [cm3 of water, air-free powders and liquids]; grains [cm3]; voids [fraction of the bulk volume of the grains].
 * Negative: the paste does not fill the voids; the piece will be honeycombed. A c109 batch (500 g cement, 1,375 g sand
 * with 41.2 % voids, 242 g water) has 38 cm3 to spare. Source: kennedy-1940 as in wong-kwan-2007
 * (concept looked up, form from memory).
 */
export const excessPaste = (paste: number, grains: number, voids: number): number =>
  atLeast(0, paste, 'paste') - atLeast(0, grains, 'grains') * voidRatio(voids);

/**
 * Thickness of the paste film on the grains [um], excess spread over their surface.
 *
 * excess [cm3]; surface [m2 of the grains]. Source: kennedy-1940; 1 cm3 over 1 m2 is 1 um.
 */
export const pasteFilm = (excess: number, surface: number): number => excess / positive(surface, 'surface');

/** Surface of the grains [m2], as spheres of the class sizes: 6 V/d. Real grains have more: x 1.2-1.5 (from memory). */
export const grainSurface = (volume: number, grading: Grading): number =>
  sizeClasses(grading).reduce((sum, s) => sum + (6 * volume * s.share) / s.size / 1000, 0);
