import type { World } from '../blend/world.js';
import { CALM_FINE, type Descent, descend, descending } from './descent.js';
import type { Candidate } from './ground.js';
import { better } from './miss.js';
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
/** Jumps that settle come closer and closer: each moves less than this share of the one before. */
const CLOSER = 0.5;

/** A system that misses so much after a jump is hardly ever one to propose from. */
export const HOPELESS = 5;

/** The search for the best blend of one system, which can be left and taken up again. */
export interface Trail {
  /** The best so far. */
  readonly best: Candidate;
  /** True when it has come to rest. */
  readonly still: boolean;
  /** One step more; nothing where it is at rest. */
  readonly stride: () => void;
  /** The best so far, as the answer. */
  readonly settled: () => Settled;
}

/**
 * Successive linear programming: linearise every row at the blend, solve, and do so again at the answer until it stands
 * still; first with free jumps, then, where they come no closer, in strides within a shrinking reach. Every
 * candidate is judged by the forward model and the best one is kept, so that a search that never settles still returns
 * an honest blend. Source: Griffith and Stewart 1961, method of approximation programming (from memory).
 *
 * Jumps at once, and leaves the strides to whoever compares trails. Returns null when no blend keeps even the fixed
 * rows, or when a program could not be certified.
 */
export function explore(question: Question, world: World, system: BinderSystem, options: SettleOptions): Trail | null {
  const search = searchOf(question, world, system, options);
  let at = [...(options.start ?? startingBlend(world, search.columns, question.conditions.volume))];
  let best: Candidate | null = null;
  let still = false;
  let solves = 0;
  const seen = world.materials.map((m) => m.kind === 'water');
  let moved = Number.POSITIVE_INFINITY;
  for (let round = 0; round < FREE_ROUNDS; round++) {
    const next = search.step(at, null, null);
    solves++;
    if (next === null) break;
    next.forEach((g, i) => {
      if (g > 0) seen[i] = true;
    });
    const far = distance(next, at);
    const candidate = search.judge(next);
    if (best === null || better(candidate, best, options.aim)) best = candidate;
    still = far < STILL && distance(next, best.grams) < STILL;
    if (far < STILL || far > CLOSER * moved || candidate.miss > HOPELESS) break;
    moved = far;
    at = next;
  }
  if (best === null) return null;
  return still ? rested(best, search.finish(best, true, solves)) : walked(search, best, seen, solves, options);
}

/** The search that is over: nothing is left to walk. */
export const rested = (best: Candidate, answer: Settled): Trail => ({
  best,
  still: true,
  stride: () => undefined,
  settled: () => answer,
});

function walked(
  search: ReturnType<typeof searchOf>,
  from: Candidate,
  seen: readonly boolean[],
  jumps: number,
  { aim, fine }: SettleOptions,
): Trail {
  const walk = descending(search, from, seen, FIRST_REACH, aim, false, fine ? CALM_FINE : undefined);
  let best = from;
  let strides = 0;
  let ended: Descent | null = null;
  return {
    get best() {
      return best;
    },
    get still() {
      return ended !== null;
    },
    stride: () => {
      if (ended !== null) return;
      strides++;
      const step = walk.next();
      if (step.done) ended = step.value;
      best = step.done ? step.value.best : step.value;
    },
    settled: () => search.finish(best, ended?.still ?? false, jumps + (ended?.solves ?? strides)),
  };
}

/** Explores one system to the end. */
export function settle(question: Question, world: World, system: BinderSystem, options: SettleOptions): Settled | null {
  const trail = explore(question, world, system, options);
  while (trail !== null && !trail.still) trail.stride();
  return trail?.settled() ?? null;
}

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
  const { aim, rough, fine } = options;
  const { best, still, solves } = descend(search, from, seen, NEAR_REACH, aim, rough, fine ? CALM_FINE : undefined);
  return search.finish(best, still, solves);
}
