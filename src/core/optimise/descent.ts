import { closeBy } from './close-by.js';
import type { Candidate, Face, Fence, Ground, Learnt, Only } from './ground.js';
import { merit, type Sought } from './objective.js';

const NOTHING: Learnt = { fences: [], faces: [] };

/** A walk that can be left and taken up again: tells the best so far after every step. */
export type Walking<T> = Generator<Candidate, T, void>;

export interface Descent {
  readonly best: Candidate;
  /** Whether steps had stopped helping. */
  readonly still: boolean;
  readonly solves: number;
}

/** A round that gains more than RICH counts for half of one. */
const MOST_ROUNDS = 20;
const RICH = 2e-3;
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
/**
 * So many rounds in a row that each promise and gain less than this are the end: no scale tells what is still to come.
 * Those that gain less than CONTENT count twice, save on a ridge, where a walk may stand and go on.
 */
const CALM = 2e-4;
/** The same for blends that are compared with others close by, as along a frontier. */
export const CALM_FINE = 2e-5;
const CALM_ROUNDS = 3;
/** A rough walk ends at one round that gains less than this. */
const ROUGHLY = 0.01;
/** So many refused steps in a row from a blend that misses much will not lead out of it. */
const REFUSALS = 4;
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
export function* descending(
  ground: Ground,
  from: Candidate,
  seen: readonly boolean[],
  reach: number,
  aim: Sought,
  rough = false,
  calm = CALM,
): Walking<Descent> {
  let walk = yield* strides(ground, from, seen, reach, aim, rough, calm);
  let { solves } = walk;
  let moving = seen;
  for (let look = 0; look < (rough ? 0 : MOST_LOOKS); look++) {
    const found = stride(ground, walk.walker, LOOK_REACH, null, aim, NOTHING);
    solves += found.solves;
    const { candidate } = found;
    if (candidate === null || burden(walk.walker, aim) - burden(candidate, aim) < CONTENT) break;
    moving = candidate.grams.map((g, i) => moving[i]! || g > 0);
    walk = yield* strides(
      ground,
      candidate,
      moving,
      LOOK_REACH,
      aim,
      rough,
      calm,
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

/** Descends to the end. */
export const descend = (...walk: Parameters<typeof descending>): Descent => toTheEnd(descending(...walk));

export function toTheEnd<T>(walking: Walking<T>): T {
  for (;;) {
    const step = walking.next();
    if (step.done) return step.value;
  }
}

/** What a walker carries: the objective in shares of itself, and every miss. */
export const burden = (candidate: Candidate, aim: Sought): number =>
  merit(aim, candidate.value) + MISS_PRICE * candidate.miss;

function* strides(
  ground: Ground,
  from: Candidate,
  only: readonly boolean[],
  firstReach: number,
  aim: Sought,
  rough: boolean,
  calmBelow: number,
  soFar = from,
): Walking<Descent & { readonly walker: Candidate }> {
  let best = soFar;
  let walker = from;
  let reach = firstReach;
  let learnt = NOTHING;
  let bare = false;
  let refused = 0;
  const spent = 'wanted' in aim || aim.ridged !== true ? 2 : 1;
  let calm = 0;
  let still = false;
  let solves = 0;
  for (let left = MOST_ROUNDS; left > 0 && !still; ) {
    const at = walker;
    const sound = at.miss === 0;
    const made = stride(ground, at, reach, only, aim, learnt);
    solves += made.solves;
    const { candidate, promise } = made;
    const gain = candidate === null ? Number.NEGATIVE_INFINITY : burden(at, aim) - burden(candidate, aim);
    left -= gain > RICH ? 0.5 : 1;
    if (candidate !== null && ground.better(candidate, best)) best = candidate;
    const moved = candidate !== null && gain > 0;
    // The objective as it looks from the blend that is left, or from where a step lost by itself: across a ridge.
    const seenFrom = moved ? at.grams : promise < -CONTENT ? made.plain : null;
    const face = seenFrom === null ? null : ground.face(seenFrom, only);
    if (moved) {
      walker = candidate;
      reach = Math.min(firstReach, GROW * reach);
      refused = 0;
    } else {
      refused += 1;
      if (refused > 1 || (made.fences.length === 0 && face === null)) reach *= SHRINK;
    }
    // What the step ran into cannot be seen from where the walker stands: a corner, where the slope jumps. So limits and
    // objective as they look from there are kept besides, and only when that does not help the reach shrinks.
    learnt = {
      fences: [...learnt.fences.filter((f) => !made.fences.some((n) => near(f, n))), ...made.fences]
        .filter((f) => ground.allows(f, walker))
        .slice(-MOST_FENCES),
      faces: (face === null ? learnt.faces : [...learnt.faces.filter((f) => !same(f, face)), face])
        .filter((f) => ground.reaches(f, walker))
        .slice(-MOST_FACES),
    };
    calm =
      sound && gain < calmBelow && Math.abs(promise) < calmBelow ? calm + (Math.abs(gain) < CONTENT ? spent : 1) : 0;
    if (gain > calmBelow) bare = false;
    still =
      reach < LEAST_REACH ||
      Math.abs(gain) < STILL ||
      (sound && Math.abs(promise) < CONTENT) ||
      calm >= CALM_ROUNDS ||
      (rough && best.miss === 0 && gain < ROUGHLY) ||
      (refused >= REFUSALS && walker.miss > WORTH_MENDING);
    // What was seen from far off may hold the walker where the limit itself would not: on once without it, nearer.
    if (still && !bare && !rough && learnt.fences.length + learnt.faces.length > 0 && reach >= LEAST_REACH) {
      still = false;
      bare = true;
      learnt = NOTHING;
      reach *= SHRINK;
      calm = CALM_ROUNDS - 1;
    }
    yield best;
  }
  return { best, walker, still, solves };
}

/** Steps that are refused towards the same blend see the same from there. */
const same = (a: Face, b: Face): boolean => a.ratio === b.ratio && a.slope.every((c, i) => c === b.slope[i]);

/** A limit that looks like this from nearer by takes the place of one from farther off. */
const NEAR = 1e-4;
const near = (a: Fence, b: Fence): boolean =>
  a.row.name === b.row.name &&
  a.row.low === b.row.low &&
  a.row.high === b.row.high &&
  closeBy(a.row.coefficients, b.row.coefficients, NEAR);

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
function stride(ground: Ground, at: Candidate, reach: number, only: Only, aim: Sought, learnt: Learnt): Stride {
  const next = ground.step(at.grams, reach, only, learnt);
  if (next === null) return { candidate: null, plain: null, promise: Number.POSITIVE_INFINITY, fences: [], solves: 1 };
  const plain = ground.judge(next);
  const promise = merit(aim, at.value) - merit(aim, plain.value);
  if (plain.miss === 0 || plain.miss > WORTH_CORRECTING)
    return { candidate: plain, plain: next, promise, fences: [], solves: 1 };
  // What brought the step about is enough to bring it back: a long shelf need not be looked through again.
  const back = ground.mend(next, only ?? next.map((g, i) => g > 0 || at.grams[i]! > 0), learnt.fences);
  if (back.grams === null) return { candidate: plain, plain: next, promise, fences: back.fences, solves: 2 };
  const corrected = ground.judge(back.grams);
  const candidate = burden(corrected, aim) < burden(plain, aim) ? corrected : plain;
  return { candidate, plain: next, promise, fences: back.fences, solves: 2 };
}
