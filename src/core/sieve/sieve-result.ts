import { blendSands } from '../science/blend-sands.js';
import { c33Verdict, mixGradings } from '../science/grading.js';
import { skeletonVoids } from '../science/skeleton.js';
import type { Sand } from './sand.js';
import type { SandMix, SandResult, SieveResult } from './sieve-schema.js';
import { passingOfCurve, type TargetAsked, targetCurve } from './target.js';
import { packingNote } from './words.js';

const resultOf = (sand: Sand): SandResult => {
  const envelope = c33Verdict(sand.grading);
  return { ...sand, finenessModulus: envelope.finenessModulus, envelope };
};

/** Sieves of all sands together with those of C33, coarse first [mm]. */
function sievesOf(sands: readonly Sand[]): number[] {
  const all = new Set([
    9.5,
    4.75,
    2.36,
    1.18,
    0.6,
    0.3,
    0.15,
    0.075,
    ...sands.flatMap((s) => s.grading.map((p) => p.sieve)),
  ]);
  return [...all].sort((a, b) => b - a);
}

function mixOf(sands: readonly Sand[], asked: TargetAsked): SandMix {
  const target = targetCurve(sands, asked);
  const sieves = sievesOf(sands);
  const wanted = (size: number): number => passingOfCurve(target, size);
  // Above the largest size every curve is at 100: those sieves would only dilute the miss.
  const counted = sieves.filter((s) => s <= target.largest);
  const { shares, miss } = blendSands(
    sands.map((s) => s.grading),
    wanted,
    counted,
  );
  const mass = shares.map((share, i) => share * sands[i]!.density);
  const total = mass.reduce((a, b) => a + b, 0);
  const grading = mixGradings(
    sands.map((s, i) => ({ grading: s.grading, share: shares[i]! })),
    sieves,
  );
  const envelope = c33Verdict(grading);
  const parts = sands.map((s, i) => ({ volume: shares[i]!, grading: s.grading, voids: s.voids }));
  const voids = skeletonVoids(parts)!;
  const leastAlone = Math.min(...sands.filter((_s, i) => shares[i]! > 0).map((s) => s.voids));
  return {
    target,
    targetGrading: sieves.map((sieve) => ({ sieve, passing: wanted(sieve) })),
    byMass: mass.map((m) => m / total),
    byVolume: shares,
    miss,
    grading,
    finenessModulus: envelope.finenessModulus,
    envelope,
    voids,
    leastAlone,
    note: packingNote(voids, leastAlone),
  };
}

/**
 * Gradings, fineness moduli and verdicts of one or more sands; of two or more also the mix nearest a target curve.
 * Throws RangeError without sands or with more than six.
 */
export function sieveResult(sands: readonly Sand[], asked: TargetAsked, invented: boolean): SieveResult {
  return {
    format: 'pourwright.sieve/1',
    invented,
    sands: sands.map(resultOf),
    mix: sands.length < 2 ? null : mixOf(sands, asked),
  };
}
