import type { Flagged } from './flags.js';
import { solveLp } from './lp/solve.js';
import type { LinearProgram } from './lp/types.js';

/** Ingredients that are chosen among at most: those the blend has, and those that come nearest to being worth it. */
const POOL = 22;

/**
 * Of many ingredients those a blend has, those that stay whatever else does, and of the others those whose full share
 * costs least by the reduced costs of the rows' optimum.
 */
export function likeliest(
  flagged: readonly Flagged[],
  sought: LinearProgram,
  at: readonly number[],
): readonly Flagged[] {
  if (flagged.length <= POOL) return flagged;
  const answer = solveLp(sought);
  if (answer.status !== 'optimal') return flagged;
  const sign = sought.sense === 'min' ? 1 : -1;
  const toll = (f: Flagged): number => {
    if (f.kept || at[f.material]! > 0 || answer.x[f.material]! > 0) return Number.NEGATIVE_INFINITY;
    return sign * answer.reducedCosts[f.material]! * f.most;
  };
  const tolls = new Map(flagged.map((f) => [f, toll(f)]));
  const chosen = new Set([...flagged].sort((a, b) => tolls.get(a)! - tolls.get(b)!).slice(0, POOL));
  return flagged.filter((f) => chosen.has(f));
}
