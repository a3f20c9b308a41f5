import { atLeast, clamp } from './guard.js';

/** One sieve: opening [mm] and share of the sand that passes it [percent]. */
export interface SievePoint {
  readonly sieve: number;
  readonly passing: number;
}

/** A grading: sieve points, coarse to fine or the other way round. */
export type Grading = readonly SievePoint[];

/** The doubling series of fineness modulus [mm]: 150 um, 300 um, ... 150 mm. Source: crd-c104, c136. */
export const MODULUS_SIEVES = [150, 75, 37.5, 19, 9.5, 4.75, 2.36, 1.18, 0.6, 0.3, 0.15] as const;

const coarseFirst = (grading: Grading): SievePoint[] => [...grading].sort((a, b) => b.sieve - a.sieve);

/**
 * Percent passing at any opening [percent], straight in the logarithm of the size between sieves.
 *
 * grading [at least one point]; size [mm, > 0]. Above the coarsest sieve it rises to 100 before the next of
 * the doubling series; below the finest it falls to 0 at a quarter
 * of that sieve (the pan is finer than any sieve). Source: usual plotting practice.
 */
export function passingAt(grading: Grading, size: number): number {
  const points = coarseFirst(grading);
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) throw new RangeError('a grading needs at least one sieve');
  if (size > first.sieve) {
    const top = first.sieve * 1.9;
    return first.passing >= 100 || size >= top ? 100 : between(size, top, 100, first.sieve, first.passing);
  }
  for (let i = 1; i < points.length; i++) {
    const upper = points[i - 1]!;
    const lower = points[i]!;
    if (size >= lower.sieve) return between(size, upper.sieve, upper.passing, lower.sieve, lower.passing);
  }
  const pan = last.sieve / 4;
  return size <= pan ? 0 : between(size, last.sieve, last.passing, pan, 0);
}

function between(size: number, upper: number, passUpper: number, lower: number, passLower: number): number {
  return passLower + ((passUpper - passLower) * Math.log(size / lower)) / Math.log(upper / lower);
}

/**
 * Fineness modulus from cumulative percent retained on the doubling series [-]. FM = sum / 100.
 *
 * retained [percent, each sieve of 150 um doubled upwards; sieves off the series (0.425 mm) must not be in it, the
 * pan never]. Sand 2.3-3.1. Source: crd-c104 (3.29 and 7.44 printed), c136.
 */
export const finenessModulus = (retained: readonly number[]): number =>
  retained.reduce((sum, r) => sum + atLeast(0, r, 'retained'), 0) / 100;

/**
 * Fineness modulus of a grading [-]: only sieves of the doubling series are counted; missing ones are read off the curve.
 */
export const finenessModulusOf = (grading: Grading): number =>
  finenessModulus(MODULUS_SIEVES.map((sieve) => 100 - clamp(passingAt(grading, sieve), 0, 100)));

/** One sieve with the grams that stayed on it; sieve 0 is the pan. */
export interface SieveWeight {
  readonly sieve: number;
  readonly grams: number;
}

export interface SieveTest {
  readonly grading: Grading;
  /** Cumulative percent retained, coarse to fine, pan left out. */
  readonly retained: readonly { readonly sieve: number; readonly percent: number }[];
  readonly total: number;
  /** Share of the sample lost or gained in the sieving; null when the sample's weight was not given. */
  readonly loss: number | null;
}

/**
 * A grading from sieve weights [percent passing]. Percent are of the summed weights, as C136 has it.
 *
 * weights [g, >= 0; pan as sieve 0]; sample [g before sieving]. Loss over 0.3 % (C136, from memory) means sieve again.
 * @throws RangeError when nothing was weighed.
 */
export function gradingFromWeights(weights: readonly SieveWeight[], sample?: number): SieveTest {
  const sorted = [...weights].sort((a, b) => b.sieve - a.sieve);
  const total = sorted.reduce((sum, w) => sum + atLeast(0, w.grams, 'grams'), 0);
  if (total === 0) throw new RangeError('no weight on any sieve');
  let cumulative = 0;
  const retained: { sieve: number; percent: number }[] = [];
  for (const { sieve, grams } of sorted) {
    cumulative += grams;
    if (sieve > 0) retained.push({ sieve, percent: (100 * cumulative) / total });
  }
  return {
    grading: retained.map((r) => ({ sieve: r.sieve, passing: 100 - r.percent })),
    retained,
    total,
    loss: sample === undefined ? null : (sample - total) / sample,
  };
}

/** Percent passing that C33 allows fine aggregate: [sieve mm, low, high]. Source: c33 table 1 at c33-article. */
export const C33_ENVELOPE: readonly (readonly [number, number, number])[] = [
  [9.5, 100, 100],
  [4.75, 95, 100],
  [2.36, 80, 100],
  [1.18, 50, 85],
  [0.6, 25, 60],
  [0.3, 5, 30],
  [0.15, 0, 10],
  [0.075, 0, 3],
];

export interface EnvelopeVerdict {
  readonly inside: boolean;
  readonly sieves: readonly {
    readonly sieve: number;
    readonly passing: number;
    readonly low: number;
    readonly high: number;
    /** False where the test had no sieve so fine: what would pass is a guess and is not judged. */
    readonly judged: boolean;
    readonly ok: boolean;
  }[];
  readonly finenessModulus: number;
  readonly modulusOk: boolean;
  /** Most that lies between two consecutive sieves [percent]; C33 allows 45. */
  readonly largestStep: number;
  readonly stepOk: boolean;
}

/**
 * Whether a sand lies in C33's envelope for fine aggregate: every sieve, fineness modulus 2.3-3.1, and no more than 45 %
 * between consecutive sieves (4.75 to 0.15 mm). Sieves finer than the test's finest are not judged. Casting sands are often finer on purpose: a miss is not a fault.
 * Source: c33 table 1, c33-article, stadsklassen-c33 (looked up).
 */
export function c33Verdict(grading: Grading): EnvelopeVerdict {
  const finest = Math.min(...grading.map((p) => p.sieve));
  const sieves = C33_ENVELOPE.map(([sieve, low, high]) => {
    const passing = passingAt(grading, sieve);
    const judged = sieve >= 0.99 * finest;
    return { sieve, passing, low, high, judged, ok: !judged || (passing >= low - 1e-9 && passing <= high + 1e-9) };
  });
  let largestStep = 0;
  for (let i = 1; i < sieves.length - 1; i++) {
    largestStep = Math.max(largestStep, sieves[i - 1]!.passing - sieves[i]!.passing);
  }
  const modulus = finenessModulusOf(grading);
  const modulusOk = modulus >= 2.3 && modulus <= 3.1;
  const stepOk = largestStep <= 45;
  return {
    inside: sieves.every((s) => s.ok) && modulusOk && stepOk,
    sieves,
    finenessModulus: modulus,
    modulusOk,
    largestStep,
    stepOk,
  };
}

/** Grading of a mixture of sands [percent passing at the sieves]: mass-weighted. shares [>= 0, scaled to 1]. */
export function mixGradings(sands: readonly { grading: Grading; share: number }[], sieves: readonly number[]): Grading {
  const total = sands.reduce((sum, s) => sum + atLeast(0, s.share, 'share'), 0);
  return sieves.map((sieve) => ({
    sieve,
    passing: sands.reduce((sum, s) => sum + (s.share / total) * passingAt(s.grading, sieve), 0),
  }));
}
