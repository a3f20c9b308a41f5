import type { BlendState } from '../blend/state/state.js';
import type { RowOrigin } from './blend-program.js';
import type { Row } from './lp/types.js';
import { merit, type Sought } from './objective.js';

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
  /**
   * Optimum of the rows at a blend, within a share of its mass; null when none could be certified. `fences` are limits as
   * they looked from other blends, kept besides; so are `faces`, the objective as it looked from there.
   */
  step(
    at: readonly number[],
    reach: number,
    only: Only,
    fences: readonly Fence[],
    faces: readonly Face[],
  ): readonly number[] | null;
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

/** The objective's ratio as it looked from one blend: ratio + slope . grams, and the slope adds up to 0 at that blend. */
export interface Face {
  readonly ratio: number;
  readonly slope: readonly number[];
}

export interface Descent {
  readonly best: Candidate;
  /** Whether steps had stopped helping. */
  readonly still: boolean;
  readonly solves: number;
}

const MOST_ROUNDS = 20;
const LEAST_REACH = 1e-4;
const SHRINK = 0.35;
const GROW = 1.5;
const MENDING_ROUNDS = 3;
/** Misses beyond this are no curvature: nothing fits. */
const WORTH_MENDING = 0.05;
/** Misses of a step beyond this are not worth bringing back. */
const WORTH_CORRECTING = 1;
/** A step that alone would change the objective by less than this share is none; one that makes it worse ran too far. */
const CONTENT = 1e-5;
const STILL = 1e-7;
/** Of all limits of some four blends. */
const MOST_FENCES = 30;
/** As many slopes meet at a corner of a blend of so many ingredients. */
const MOST_FACES = 8;
/** Misses weigh this much against the objective's share of itself. */
const MISS_PRICE = 20;
/** How often, and how far, a descent that has come to rest looks about for materials it did not move. */
const MOST_LOOKS = 2;
const LOOK_REACH = 0.05;

/**
 * Descends on objective and misses together by linear steps within a reach that shrinks whenever a step does not help,
 * so that a path along a curved limit is not refused for a hair. Only materials in `seen` are moved; at rest it looks
 * about once more among all. Bringing steps back onto curved limits is Fletcher's second-order correction (1982), the
 * fences are Kelley's cutting planes (1960), kept only while they do not shut out the walker (both from memory).
 */
export function descend(
  ground: Ground,
  from: Candidate,
  seen: readonly boolean[],
  reach: number,
  aim: Sought,
): Descent {
  let walk = strides(ground, from, seen, reach, aim);
  let { solves } = walk;
  let moving = seen;
  for (let look = 0; look < MOST_LOOKS; look++) {
    const found = stride(ground, walk.walker, LOOK_REACH, null, aim, [], []);
    solves += found.solves;
    const { candidate } = found;
    if (candidate === null || burden(walk.walker, aim) - burden(candidate, aim) < CONTENT) break;
    moving = candidate.grams.map((g, i) => moving[i]! || g > 0);
    walk = strides(
      ground,
      candidate,
      moving,
      LOOK_REACH,
      aim,
      ground.better(candidate, walk.best) ? candidate : walk.best,
    );
    solves += walk.solves;
  }
  let { best, walker } = walk;
  // What is left of the misses is curvature; the nearest point of the rows at the walker removes it.
  for (let round = 0; round < MENDING_ROUNDS && walker.miss > 0 && walker.miss < WORTH_MENDING; round++) {
    const next = ground.mend(walker.grams, moving, []);
    solves++;
    if (next.grams === null) break;
    walker = ground.judge(next.grams);
    if (ground.better(walker, best)) best = walker;
  }
  return { best, still: walk.still, solves };
}

/** What a walker carries: the objective in shares of itself, and every miss. */
const burden = (candidate: Candidate, aim: Sought): number => merit(aim, candidate.value) + MISS_PRICE * candidate.miss;

function strides(
  ground: Ground,
  from: Candidate,
  only: readonly boolean[],
  firstReach: number,
  aim: Sought,
  soFar = from,
): Descent & { readonly walker: Candidate } {
  let best = soFar;
  let walker = from;
  let reach = firstReach;
  let fences: readonly Fence[] = [];
  let faces: readonly Face[] = [];
  let refused = false;
  let still = false;
  let solves = 0;
  for (let round = 0; round < MOST_ROUNDS && !still; round++) {
    const sound = walker.miss === 0;
    const from = walker;
    const made = stride(ground, walker, reach, only, aim, fences, faces);
    solves += made.solves;
    const { candidate } = made;
    const gain = candidate === null ? Number.NEGATIVE_INFINITY : burden(walker, aim) - burden(candidate, aim);
    if (candidate !== null && ground.better(candidate, best)) best = candidate;
    if (candidate !== null && gain > 0) {
      walker = candidate;
      reach = Math.min(firstReach, GROW * reach);
      refused = false;
    } else {
      // A step that lost by itself ran over a ridge: the objective as it looks from there shows the other side.
      const over = candidate !== null && made.promise < 0 ? ground.face(made.plain!, only) : null;
      if (over !== null) faces = [...faces, over];
      if (refused || (made.fences.length === 0 && over === null)) reach *= SHRINK;
      refused = true;
    }
    const own = ground.face(from.grams, only);
    if (own !== null && walker !== from) faces = [...faces, own];
    faces = faces.filter((f) => ground.reaches(f, walker)).slice(-MOST_FACES);
    // What the step ran into cannot be seen from where the walker stands: a corner, where the slope jumps. So the limits
    // as they look from there are kept besides, and only when that does not help the reach shrinks.
    fences = [...fences, ...made.fences].filter((f) => ground.allows(f, walker)).slice(-MOST_FENCES);
    still = reach < LEAST_REACH || Math.abs(gain) < STILL || (sound && Math.abs(made.promise) < CONTENT);
    // A fence seen from far off may hold the walker where the limit itself would not: on without them, nearer.
    if (still && fences.length + faces.length > 0 && reach >= LEAST_REACH) {
      still = false;
      fences = [];
      faces = [];
      reach *= SHRINK;
    }
  }
  return { best, walker, still, solves };
}

interface Stride {
  readonly candidate: Candidate | null;
  /** The step's own end, before it was brought back. */
  readonly plain: readonly number[] | null;
  /** What the step would gain if misses did not count. */
  readonly promise: number;
  /** Limits as they look from where the step came out, if it left them. */
  readonly fences: readonly Fence[];
  readonly solves: number;
}

/** One step; where a limit curves, a step along its slope leaves it by a little, and is brought back. */
function stride(
  ground: Ground,
  at: Candidate,
  reach: number,
  only: Only,
  aim: Sought,
  fences: readonly Fence[],
  faces: readonly Face[],
): Stride {
  const next = ground.step(at.grams, reach, only, fences, faces);
  if (next === null) return { candidate: null, plain: null, promise: Number.POSITIVE_INFINITY, fences: [], solves: 1 };
  const plain = ground.judge(next);
  const promise = merit(aim, at.value) - merit(aim, plain.value);
  if (plain.miss === 0 || plain.miss > WORTH_CORRECTING)
    return { candidate: plain, plain: next, promise, fences: [], solves: 1 };
  // What brought the step about is enough to bring it back: a long shelf need not be looked through again.
  const back = ground.mend(next, only ?? next.map((g, i) => g > 0 || at.grams[i]! > 0), fences);
  if (back.grams === null) return { candidate: plain, plain: next, promise, fences: back.fences, solves: 2 };
  const corrected = ground.judge(back.grams);
  const candidate = burden(corrected, aim) < burden(plain, aim) ? corrected : plain;
  return { candidate, plain: next, promise, fences: back.fences, solves: 2 };
}
