import type { Grading } from '../science/grading.js';
import { fuller, funkDinger } from '../science/target-curves.js';
import type { Sand } from './sand.js';

export const CURVES = ['andreasen', 'fuller'] as const;

export interface TargetCurve {
  readonly curve: (typeof CURVES)[number];
  /** Exponent. */
  readonly q: number;
  /** mm. */
  readonly smallest: number;
  readonly largest: number;
}

/** Border between sand and powder [mm]; the paste's powders are not in the curve of the sand. */
const POWDER = 0.063;

/** Exponents: modified Andreasen 0.37 for grains without powders, Fuller 0.5. Source: target-curves of science. */
const USUAL_Q = { andreasen: 0.37, fuller: 0.5 } as const;

/** Share that may stay on the sieve of the largest size, percent: the usual meaning of a nominal size. Common practice. */
const OVERSIZE = 5;

/** Finest sieve that all but 5 % passes, over the sands. */
function largestOf(gradings: readonly Grading[]): number {
  const sizes = gradings.map((grading) => {
    const passed = grading.filter((p) => p.passing >= 100 - OVERSIZE).map((p) => p.sieve);
    return passed.length > 0 ? Math.min(...passed) : 2 * Math.max(...grading.map((p) => p.sieve));
  });
  return Math.max(...sizes);
}

export interface TargetAsked {
  readonly curve?: TargetCurve['curve'];
  readonly q?: number;
  readonly smallest?: number;
  readonly largest?: number;
}

/** The curve to blend towards; what was not asked for is taken from the sands. */
export function targetCurve(sands: readonly Sand[], asked: TargetAsked): TargetCurve {
  const curve = asked.curve ?? 'andreasen';
  return {
    curve,
    q: asked.q ?? USUAL_Q[curve],
    smallest: asked.smallest ?? POWDER,
    largest: asked.largest ?? largestOf(sands.map((s) => s.grading)),
  };
}

/** Percent passing of the curve at a size in mm. */
export const passingOfCurve = ({ curve, q, smallest, largest }: TargetCurve, size: number): number =>
  curve === 'fuller' ? fuller(size, largest, q) : funkDinger(size, smallest, largest, q);
