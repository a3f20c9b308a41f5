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

/** Virtual packing density were class i (coarse first) the one that rules. */
function ruledBy(sorted: readonly PackingClass[], i: number): number {
  const me = sorted[i]!;
  let open = 1;
  for (let j = 0; j < sorted.length; j++) {
    const other = sorted[j]!;
    if (j < i) {
      const b = wallEffect(me.size / other.size);
      open -= (1 - me.beta + b * me.beta * (1 - 1 / other.beta)) * other.share;
    } else if (j > i) {
      const a = looseningEffect(other.size / me.size);
      open -= (1 - (a * me.beta) / other.beta) * other.share;
    }
  }
  return open <= 0 ? Number.POSITIVE_INFINITY : me.beta / open;
}

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
  const sorted = checked(classes);
  return Math.min(...sorted.map((_c, i) => ruledBy(sorted, i)));
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
  for (const t of terms) x = Math.max(x, (t.weight / compaction - t.offset) / t.slope);
  for (let step = 0; step < MOST_STEPS; step++) {
    let index = 0;
    let fall = 0;
    for (const t of terms) {
      const part = t.weight / (t.slope * x + t.offset);
      index += part;
      fall += (part * part * t.slope) / t.weight;
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
export function packingDensity(classes: readonly PackingClass[], compaction: number): number {
  const sorted = checked(classes);
  const terms = sorted.map((c, i) => ({ weight: c.share / c.beta, slope: 1, offset: -1 / ruledBy(sorted, i) }));
  return 1 / whereIndexIs(positive(compaction, 'compaction'), terms);
}

/** Virtual density [0..1] of one single class from its measured one: beta = phi (1 + 1/K). Source: the model with n = 1. */
export const betaOfSingleClass = (measured: number, compaction: number): number => measured * (1 + 1 / compaction);
