import type { World } from '../blend/world.js';
import { type Candidate, type Descent, descend, descending, toTheEnd } from './descent.js';
import { better } from './miss.js';
import { merit, type Sought } from './objective.js';
import type { Question } from './question.js';
import { distance, filling, searchOf } from './search-ground.js';
import type { Settled, SettleOptions } from './settled.js';
import { startingBlend } from './starting-blend.js';
import type { BinderSystem } from './systems.js';

/** Rounds in which the blend may jump anywhere. */
const FREE_ROUNDS = 5;
/** Share of its mass that a blend may move at first when it is refined. */
const FIRST_REACH = 0.2;
/** A move below this share of the mass is no move. */
const STILL = 1e-7;

/** Misses of a jump beyond this do not come from its size alone. */
const MENDABLE = 1;

/** Jumps that settle come closer and closer: each moves less than this share of the one before. */
const CLOSER = 0.5;
/** Steps of the walk that follows, before systems are compared. */
const FIRST_STRIDES = 3;

/** Where the free jumps of a system have led. */
export interface Trail {
  readonly best: Candidate;
  /** The best value of all jumps that missed no more than might be mended; that of the best where none did. */
  readonly hope: number | null;
  /** True when the free jumps already stood still at the best: nothing is left to refine. */
  readonly still: boolean;
  readonly refine: () => Settled;
}

/**
 * Successive linear programming: linearise every row at the blend, solve, and do so again at the answer until it stands
 * still; first with free jumps, then (`refine`), where they flip between corners, within a shrinking reach. Every
 * candidate is judged by the forward model and the best one is kept, so that a search that never settles still returns
 * an honest blend. Source: Griffith and Stewart 1961, method of approximation programming (from memory).
 *
 * `leader` is the best that the free jumps of other systems came to: one that it has outrun jumps no further. Returns
 * null when no blend keeps even the fixed rows, or when a program could not be certified.
 */
export function explore(
  question: Question,
  world: World,
  system: BinderSystem,
  options: SettleOptions,
  leader: Candidate | null = null,
): Trail | null {
  const search = searchOf(question, world, system, options);
  let at = [...(options.start ?? startingBlend(world, search.columns, question.conditions.volume))];
  let best: Candidate | null = null;
  let still = false;
  let solves = 0;
  let hope: number | null = null;
  const seen = world.materials.map((m) => m.kind === 'water');

  let moved = Number.POSITIVE_INFINITY;
  let outrun = false;
  for (let round = 0; round < FREE_ROUNDS; round++) {
    const next = search.step(at, null, null, undefined, round === 0 && options.start === undefined);
    solves++;
    if (next === null) break;
    next.forEach((g, i) => {
      if (g > 0) seen[i] = true;
    });
    const far = distance(next, at);
    const candidate = search.judge(next);
    if (best === null || better(candidate, best, options.aim)) best = candidate;
    if (candidate.miss < MENDABLE && (hope === null || merit(options.aim, candidate.value) < merit(options.aim, hope)))
      hope = candidate.value;
    still = far < STILL && distance(next, best.grams) < STILL;
    outrun =
      round > 0 && leader !== null && isOutrun({ miss: best.miss, value: hope ?? best.value }, leader, options.aim);
    if (far < STILL || far > CLOSER * moved || outrun) break;
    moved = far;
    at = next;
  }
  if (best === null) return null;
  if (still) {
    const settled = search.finish(best, true, solves);
    return { best, hope: hope ?? best.value, still, refine: () => settled };
  }
  const walk = descending(search, best, seen, FIRST_REACH, options.aim);
  let ended: Descent | null = null;
  for (let stride = 0; stride < FIRST_STRIDES && ended === null && !outrun; stride++) {
    const step = walk.next();
    if (step.done) ended = step.value;
    else best = step.value;
  }
  return {
    best: ended?.best ?? best,
    hope: hope ?? best.value,
    still: false,
    refine: () => {
      const settled = ended ?? toTheEnd(walk);
      return search.finish(settled.best, settled.still, solves + settled.solves);
    },
  };
}

/** A system that has missed, or gained, so much less than another after two jumps does not catch up. */
const OUTRUN = { miss: 2, misses: 10, gain: Math.log(2) } as const;

function isOutrun(best: Pick<Candidate, 'miss' | 'value'>, leader: Candidate, aim: Sought): boolean {
  if (best.miss > OUTRUN.miss && best.miss > OUTRUN.misses * leader.miss) return true;
  return leader.miss === 0 && !('wanted' in aim) && merit(aim, best.value) - merit(aim, leader.value) > OUTRUN.gain;
}

/** Explores and refines one system. */
export const settle = (
  question: Question,
  world: World,
  system: BinderSystem,
  options: SettleOptions,
): Settled | null => explore(question, world, system, options)?.refine() ?? null;

/** Share of its mass that a blend may move at first when it is settled from one close by. */
const NEAR_REACH = 0.08;

/**
 * Settles from a blend close to the answer, without free jumps: for questions that differ a little, asked in a row.
 * Materials that the blend lacks enter where a look about finds them worth it.
 */
export function settleNear(
  question: Question,
  world: World,
  system: BinderSystem,
  options: SettleOptions & { readonly start: readonly number[] },
): Settled {
  const search = searchOf(question, world, system, options);
  const within = options.start.map((g, i) => {
    const { lower = 0, upper = Number.POSITIVE_INFINITY } = search.columns[i]!;
    return Math.min(upper, Math.max(lower, g));
  });
  const from = search.judge(filling(world, within, question.conditions.volume));
  const seen = world.materials.map((m, i) => m.kind === 'water' || from.grams[i]! > 0);
  const { best, still, solves } = descend(search, from, seen, NEAR_REACH, options.aim);
  return search.finish(best, still, solves);
}
