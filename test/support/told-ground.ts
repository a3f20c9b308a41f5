import type { BlendState } from '../../src/core/blend/state/state.js';
import { descend, descending } from '../../src/core/optimise/descent.js';
import type { Candidate, Face, Fence, Ground, Only } from '../../src/core/optimise/ground.js';
import { better } from '../../src/core/optimise/miss.js';
import { AIMS, type Sought } from '../../src/core/optimise/objective.js';

/**
 * Made-up ground for a descent: spots with a number (the grams of the first of two materials), each with a miss and a
 * height (the logarithm of what it costs; a miss of 0.05 weighs as much as a height of 1), and steps that lead where
 * they are told to.
 */
const AIM = AIMS.cheapest;
export type Spot = readonly [height: number, miss?: number];
type Way = number | null;

interface Told {
  /** Where each step leads, one after another; then none moves. */
  readonly steps?: readonly Way[] | ((n: number) => Way);
  /** Where each step is brought back to; then nowhere. */
  readonly mends?: readonly Way[];
  /** Fences that each step runs into when it is brought back. */
  readonly into?: readonly (readonly Fence[])[];
  readonly allows?: (fence: Fence, at: number) => boolean;
  /** Whether the objective curves at a spot, so that there is a face; a face is told by the spot it was seen from. */
  readonly curves?: (at: number) => boolean;
  readonly reaches?: (face: number, at: number) => boolean;
  /** Spots that hold the second material too. */
  readonly both?: readonly number[];
}

export const fence = (name: string): Fence => ({ row: { name, coefficients: [1, 0] }, origin: { kind: 'fixed' } });

const seenFrom = (face: Face): number => face.ratio;

export function groundOf(spots: Readonly<Record<number, Spot>> | ((n: number) => Spot), told: Told) {
  const steps: { at: number; reach: number; only: Only; fences: string[]; faces: number[] }[] = [];
  const mends: { at: number; only: Only; fences: string[] }[] = [];
  const looked: { at: number; only: Only }[] = [];
  const gramsOf = (n: number) => [n, told.both?.includes(n) ? 1 : 0];
  const judge = (grams: readonly number[]): Candidate => {
    const [height, miss = 0] = typeof spots === 'function' ? spots(grams[0]!) : spots[grams[0]!]!;
    return { grams, state: {} as BlendState, miss, value: Math.exp(height) };
  };
  const names = (fences: readonly Fence[]) => fences.map((f) => f.row.name);
  const ground: Ground = {
    step(at, reach, only, { fences, faces }) {
      const n = steps.push({ at: at[0]!, reach, only, fences: names(fences), faces: faces.map(seenFrom) }) - 1;
      const way = typeof told.steps === 'function' ? told.steps(n) : told.steps?.[n];
      return way === undefined ? at : way === null ? null : gramsOf(way);
    },
    mend(at, only, fences) {
      const n = mends.push({ at: at[0]!, only, fences: names(fences) }) - 1;
      const way = told.mends?.[n] ?? null;
      return { grams: way === null ? null : gramsOf(way), fences: told.into?.[n] ?? [] };
    },
    judge,
    face(at, only) {
      looked.push({ at: at[0]!, only });
      return told.curves?.(at[0]!) ? { ratio: at[0]!, slope: [] } : null;
    },
    reaches: (f, at) => told.reaches?.(seenFrom(f), at.grams[0]!) ?? true,
    allows: (f, at) => told.allows?.(f, at.grams[0]!) ?? true,
    better: (a, b) => better(a, b, AIM),
  };
  const walk = (reach = 0.2, from = 0, seen: readonly boolean[] = [true, false], rough = false, aim: Sought = AIM) => {
    const { best, still, solves } = descend(ground, judge(gramsOf(from)), seen, reach, aim, rough);
    return { best: best.grams[0], still, solves, steps, mends, looked };
  };
  /** The same walk, left after every step. */
  const walking = (reach = 0.2) => descending(ground, judge(gramsOf(0)), [true, false], reach, AIM);
  return { walk, walking, steps };
}
