import { atLeast, positive } from './guard.js';

/** One size class of grains. */
export interface PackingClass {
  /** mm. */
  readonly size: number;
  /** Packing density of this class alone in the reference (virtual) state, 0..<1. */
  readonly beta: number;
  /** Share of the solid volume, 0..1; all classes sum to 1. */
  readonly share: number;
}

/**
 * Packing density of two classes so unlike in size that they do not disturb each other (Furnas) [0..1].
 *
 *   coarse rules: b1/(1 - y2);   fine rules: 1/(y1 + y2/b2);   the smaller holds
 *
 * coarse b1, fine b2 [packing density alone, 0..<1]; fineShare y2 [0..1 of the solids]. Upper bound for real mixtures.
 * Source: furnas-1931 (form from memory; cases described at cfms-2013, looked up).
 */
export function idealBinary(coarse: number, fine: number, fineShare: number): number {
  const y2 = Math.min(1, atLeast(0, fineShare, 'fineShare'));
  const fineRules = 1 / (1 - y2 + y2 / positive(fine, 'fine'));
  return y2 === 1 ? fineRules : Math.min(positive(coarse, 'coarse') / (1 - y2), fineRules);
}

/** Densest ideal mixture of two classes [0..1]: b1 + (1 - b1) b2, and the share of fine that gives it. Source: idealBinary. */
export function idealBinaryPeak(
  coarse: number,
  fine: number,
): { readonly density: number; readonly fineShare: number } {
  const density = coarse + (1 - coarse) * fine;
  return { density, fineShare: ((1 - coarse) * fine) / density };
}

/**
 * Densest packing of n well separated sizes, each filling the voids of the last [0..1]. 1 - (1 - beta)^n.
 * Upper bound. Source: furnas-1931; elliott-2002 works with it (looked up).
 */
export const idealMultimodal = (beta: number, sizes: number): number => 1 - (1 - beta) ** sizes;

/** Loosening effect of fines in a coarse skeleton [0..1]. a = sqrt(1 - (1 - x)^1.02), x = fine/coarse size. */
export const looseningEffect = (ratio: number): number => Math.sqrt(1 - (1 - Math.min(1, ratio)) ** 1.02);

/** Wall effect of coarse grains in fines [0..1]. b = 1 - (1 - x)^1.5, x = fine/coarse size. */
export const wallEffect = (ratio: number): number => 1 - (1 - Math.min(1, ratio)) ** 1.5;

const inOrder = (classes: readonly PackingClass[]): readonly PackingClass[] =>
  [...classes].filter((c) => atLeast(0, c.share, 'share') > 0).sort((a, b) => b.size - a.size);

/**
 * How classes of these sizes, coarse first, disturb each other [0..1 at i * n + j]: what class i suffers from coarser j by
 * the wall effect, from finer j by the loosening effect. Worked out once for sizes that are packed many times.
 */
export function disturbances(sizes: readonly number[]): Float64Array {
  const n = sizes.length;
  return Float64Array.from({ length: n * n }, (_v, at) => {
    const i = Math.floor(at / n);
    const j = at % n;
    if (i === j) return 1;
    return j < i ? wallEffect(sizes[i]! / sizes[j]!) : looseningEffect(sizes[j]! / sizes[i]!);
  });
}

/** Classes by their place among sizes, coarse first. */
interface Packed {
  /** Of the solid volume, 0..1; 0 where a class is absent, and its beta then is no matter. */
  readonly share: ArrayLike<number>;
  readonly beta: ArrayLike<number>;
  readonly disturbed: Float64Array;
}

/** Virtual packing density were class i the one that rules. */
function ruledBy({ share, beta, disturbed }: Packed, i: number): number {
  const n = share.length;
  const own = beta[i]!;
  let open = 1;
  for (let j = 0; j < n; j++) {
    const part = share[j]!;
    if (part === 0 || j === i) continue;
    const effect = disturbed[i * n + j]!;
    open -= j < i ? (1 - own + effect * own * (1 - 1 / beta[j]!)) * part : (1 - (effect * own) / beta[j]!) * part;
  }
  return open <= 0 ? Number.POSITIVE_INFINITY : own / open;
}

const packed = (sorted: readonly PackingClass[]): Packed => ({
  share: sorted.map((c) => c.share),
  beta: sorted.map((c) => c.beta),
  disturbed: disturbances(sorted.map((c) => c.size)),
});

/**
 * Virtual packing density of a mixture: the linear packing model [0..1]. The smallest of
 *
 *   g_i = b_i / (1 - sum_{j coarser} (1 - b_i + b_ij b_i (1 - 1/b_j)) y_j - sum_{j finer} (1 - a_ij b_i/b_j) y_j)
 *
 * classes in any order; shares must sum to 1 (to 1e-6). Validity: dry grains over about 0.1 mm; stated error of the
 * compressible form 0.8 % on rounded, 1.8 % on crushed grains. Source: de-larrard-1999 (equations from memory; effects
 * and errors looked up at a translation site).
 */
export function virtualPacking(classes: readonly PackingClass[]): number {
  const sorted = packed(checked(classes));
  return Math.min(...Array.from(sorted.share, (_share, i) => ruledBy(sorted, i)));
}

function checked(classes: readonly PackingClass[]): readonly PackingClass[] {
  const sorted = inOrder(classes);
  const total = sorted.reduce((sum, c) => sum + c.share, 0);
  if (Math.abs(total - 1) > 1e-6) throw new RangeError(`shares sum to ${total}, expected 1`);
  for (const c of sorted) if (!(c.beta > 0 && c.beta < 1)) throw new RangeError(`beta is ${c.beta}, expected 0..1`);
  return sorted;
}

/** Compaction index by the way a material is put in place. Source: de-larrard-1999 (from memory). */
export const COMPACTION = { poured: 4.1, rodded: 4.5, vibrated: 4.75, pressed: 9 } as const;

/** One class in the compaction index: weight / (slope x + offset), all as the index's unknown x has them. */
export interface IndexTerm {
  readonly weight: number;
  readonly slope: number;
  readonly offset: number;
}

const ROOT_AGREES = 1e-14;
const MOST_STEPS = 60;

/**
 * The x at which a compaction index, K = sum of weight_i / (slope_i x + offset_i), comes to K [x right of every pole].
 *
 * weights and slopes > 0. 1/index is a harmonic mean, so it rises and is concave: Newton's steps on it, begun where the
 * tightest class alone would fill the index, climb to the root and never pass it; some five of them.
 */
export function whereIndexIs(compaction: number, terms: readonly IndexTerm[]): number {
  let x = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < terms.length; i++) {
    const { weight, slope, offset } = terms[i]!;
    const alone = (weight / compaction - offset) / slope;
    if (alone > x) x = alone;
  }
  for (let step = 0; step < MOST_STEPS; step++) {
    let index = 0;
    let fall = 0;
    for (let i = 0; i < terms.length; i++) {
      const { weight, slope, offset } = terms[i]!;
      const apart = slope * x + offset;
      const part = weight / apart;
      index += part;
      fall += (part * slope) / apart;
    }
    const move = (index * (index / compaction - 1)) / fall;
    if (!(move > ROOT_AGREES * Math.abs(x))) break;
    x += move;
  }
  return x;
}

/**
 * Packing density really reached: the compressible packing model [0..1]. Solves for phi
 *
 *   K = sum over classes of (y_i/b_i) / (1/phi - 1/g_i)
 *
 * classes as virtualPacking; compaction K [COMPACTION]. phi lies below the virtual density and nears it as K grows.
 * Validity and source as virtualPacking.
 */
export const packingDensity = (classes: readonly PackingClass[], compaction: number): number =>
  packedDensity(packed(checked(classes)), compaction);

/** As `packingDensity` [0..1], of classes by their place among sizes whose disturbances are known. */
export function packedDensity(classes: Packed, compaction: number): number {
  const terms: IndexTerm[] = [];
  for (let i = 0; i < classes.share.length; i++) {
    const share = classes.share[i]!;
    if (share > 0) terms.push({ weight: share / classes.beta[i]!, slope: 1, offset: -1 / ruledBy(classes, i) });
  }
  return 1 / whereIndexIs(positive(compaction, 'compaction'), terms);
}

/** Virtual density [0..1] of one single class from its measured one: beta = phi (1 + 1/K). Source: the model with n = 1. */
export const betaOfSingleClass = (measured: number, compaction: number): number => measured * (1 + 1 / compaction);
