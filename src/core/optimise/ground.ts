import type { BlendState } from '../blend/state/state.js';
import type { RowOrigin } from './blend-program.js';
import type { Row } from './lp/types.js';

/** A blend as the forward model judges it. */
export interface Candidate {
  readonly grams: readonly number[];
  readonly state: BlendState;
  /** Sum of misses in shares of each limit, 0 when all hold. */
  readonly miss: number;
  readonly value: number | null;
}

/** What a descent asks of the program it walks in; `only` says which materials may move, null: all that are open. */
export interface Ground {
  /** Optimum of the rows at a blend and of what was learnt elsewhere, within a share of its mass; null when none could be certified. */
  step(at: readonly number[], reach: number, only: Only, learnt: Learnt): readonly number[] | null;
  /** The limits as they look from a blend, and the nearest blend that keeps them and the fences; null where there is none. */
  mend(
    at: readonly number[],
    only: Only,
    fences: readonly Fence[],
  ): { readonly grams: readonly number[] | null; readonly fences: readonly Fence[] };
  judge(grams: readonly number[]): Candidate;
  /** The objective as it looks from a blend; null where it is straight by itself. */
  face(at: readonly number[], only: Only): Face | null;
  /** Whether a face promises a blend no less than it has. */
  reaches(face: Face, at: Candidate): boolean;
  /** Whether a blend is no further on the wrong side of a fence than it is of the limit itself. */
  allows(fence: Fence, at: Candidate): boolean;
  better(a: Candidate, b: Candidate): boolean;
}

export type Only = readonly boolean[] | null;

/** A limit as it looked from one blend. */
export interface Fence {
  readonly row: Row;
  readonly origin: RowOrigin;
}

/** The objective's ratio as it looked from one blend: ratio + slope . grams; the slope of N/D adds up to 0 at that blend. */
export interface Face {
  readonly ratio: number;
  readonly slope: readonly number[];
}

/** What was seen from other blends and is kept besides: limits, and the objective, as they looked from there. */
export interface Learnt {
  readonly fences: readonly Fence[];
  readonly faces: readonly Face[];
}
