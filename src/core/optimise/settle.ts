import { propertyById } from '../blend/properties/index.js';
import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { propertyValue } from '../blend/property.js';
import type { BlendState } from '../blend/state/state.js';
import { stateOf } from '../blend/state/state.js';
import { holdsWithout, marginOf, type Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import { type BlendProgram, blendProgram, columnsOf } from './blend-program.js';
import { solveFractional } from './lp/fractional.js';
import { solveLp } from './lp/solve.js';
import type { Column } from './lp/types.js';
import { mendingProgram } from './mend.js';
import { nearestProgram } from './nearest.js';
import { merit, type Sought, soughtProgram, soughtRatio, soughtValue } from './objective.js';
import type { Question } from './question.js';
import { standingTargets } from './standing-limits.js';
import { startingBlend } from './starting-blend.js';
import type { BinderSystem } from './systems.js';
import { type Neighbourhood, neighbourhood } from './tangent.js';

/** A blend that stands still: solving again at it gives the same blend. */
export interface Settled {
  readonly grams: readonly number[];
  readonly state: BlendState;
  /** The rows at the blend itself. */
  readonly program: BlendProgram;
  /** True when every limit holds in the forward model; false for the nearest blend. */
  readonly feasible: boolean;
  /** Sum of misses in shares of each limit, 0 when feasible. */
  readonly miss: number;
  /** The objective's property, by the forward model; null where the blend has none. */
  readonly value: number | null;
  /** Whether re-solving had stopped moving the blend. */
  readonly still: boolean;
  readonly solves: number;
}

/** What one material is held to, in g for one piece. */
export interface Bound {
  readonly lower: number;
  readonly upper: number;
}

export interface SettleOptions {
  readonly aim: Sought;
  /** One a material; only narrows what is open anyway. */
  readonly bounds?: readonly Bound[];
  /** How much to stay inside a limit's side, by `property side`, in the property's unit. */
  readonly tighten?: ReadonlyMap<string, number>;
  readonly start?: readonly number[];
}

/** Rounds in which the blend may jump anywhere. */
const FREE_ROUNDS = 5;
/** Rounds in which it may only move a share of its mass, halved whenever a move does not help. */
const HELD_ROUNDS = 20;
const FIRST_REACH = 0.2;
const LEAST_REACH = 1e-4;
const SHRINK = 0.35;
const MENDING_ROUNDS = 3;
/** Misses beyond this are no curvature: nothing fits. */
const WORTH_MENDING = 0.05;
/** Misses of a held step beyond this are not worth bringing back. */
const WORTH_CORRECTING = 0.3;
/** A move below this share of the mass is no move. */
const STILL = 1e-7;

/** Where the free jumps of a system have led. */
export interface Trail {
  readonly best: Candidate;
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
 * Returns null when no blend keeps even the fixed rows, or when a program could not be certified.
 */
export function explore(question: Question, world: World, system: BinderSystem, options: SettleOptions): Trail | null {
  const search = searchOf(question, world, system, options);
  let at = [...(options.start ?? startingBlend(world, search.columns, question.conditions.volume))];
  let best: Candidate | null = null;
  let still = false;
  let solves = 0;
  const seen = world.materials.map((m, i) => m.kind === 'water' || (search.columns[i]!.lower ?? 0) > 0);

  for (let round = 0; round < FREE_ROUNDS && !still; round++) {
    const next = search.step(at, null, null);
    solves++;
    if (next === null) break;
    next.forEach((g, i) => {
      if (g > 0) seen[i] = true;
    });
    const moved = distance(next, at);
    const candidate = search.judge(next);
    if (best === null || better(candidate, best, options.aim)) best = candidate;
    at = next;
    still = moved < STILL && best === candidate;
  }
  if (best === null) return null;
  const found = best;
  return {
    best: found,
    still,
    refine: () => (still ? search.finish(found, true, solves) : refined(search, found, seen, solves, options.aim)),
  };
}

/** Explores and refines one system. */
export const settle = (
  question: Question,
  world: World,
  system: BinderSystem,
  options: SettleOptions,
): Settled | null => explore(question, world, system, options)?.refine() ?? null;

/**
 * Held: descend on objective and misses together, so that a path along a curved limit is not refused for a hair. Only
 * materials that some free jump used are moved.
 */
function refined(search: Search, found: Candidate, seen: readonly boolean[], before: number, aim: Sought): Settled {
  let best = found;
  let reach = FIRST_REACH;
  let walker = found;
  let still = false;
  let solves = before;
  for (let round = 0; round < HELD_ROUNDS && !still; round++) {
    const next = search.step(walker.grams, reach, seen);
    solves++;
    if (next === null) {
      reach *= SHRINK;
      still = reach < LEAST_REACH;
      continue;
    }
    let candidate = search.judge(next);
    // Where a limit curves, a step along its slope leaves it by a little and would be refused for that: bring it back.
    if (candidate.miss > 0 && candidate.miss < WORTH_CORRECTING) {
      const back = search.mend(next, seen);
      solves++;
      const corrected = back === null ? candidate : search.judge(back);
      if (burden(corrected, aim) < burden(candidate, aim)) candidate = corrected;
    }
    const gain = burden(walker, aim) - burden(candidate, aim);
    if (better(candidate, best, aim)) best = candidate;
    if (gain > 0) {
      walker = candidate;
      reach = Math.min(FIRST_REACH, 1.5 * reach);
    } else reach *= SHRINK;
    still = reach < LEAST_REACH || Math.abs(gain) < STILL;
  }
  // Mending: what is left of the misses is curvature; the nearest point of the rows at the walker removes it.
  for (let round = 0; round < MENDING_ROUNDS && walker.miss > 0 && walker.miss < WORTH_MENDING; round++) {
    const next = search.mend(walker.grams, seen);
    solves++;
    if (next === null) break;
    walker = search.judge(next);
    if (better(walker, best, aim)) best = walker;
  }
  return search.finish(best, still, solves);
}

/** Misses weigh this much against the objective's share of itself. */
const MISS_PRICE = 20;

/** What the held phase lowers: the objective in shares of itself, and every miss. */
const burden = (candidate: Candidate, aim: Sought): number => merit(aim, candidate.value) + MISS_PRICE * candidate.miss;

export interface Candidate {
  readonly grams: readonly number[];
  readonly state: BlendState;
  readonly miss: number;
  readonly value: number | null;
}

type Search = ReturnType<typeof searchOf>;

function searchOf(question: Question, world: World, system: BinderSystem, options: SettleOptions) {
  const { aim } = options;
  const tighten = options.tighten ?? new Map<string, number>();
  const columns = narrowed(columnsOf(question, world, system), options.bounds);
  const open = columns.map((c) => (c.upper ?? Number.POSITIVE_INFINITY) > 0);
  const limits = [...question.targets, ...standingTargets(question.targets)].map((t) => tightened(t, tighten));
  const programAt = (hood: Neighbourhood, held: readonly Column[]): BlendProgram =>
    blendProgram(question, world, hood, system, held, tighten);

  return {
    columns,
    /** Grams of the optimum of the rows at a blend, or of its nearest blend; null when neither could be certified. */
    step(at: readonly number[], reach: number | null, only: readonly boolean[] | null): number[] | null {
      const hood = neighbourhood(world, at, both(open, only));
      const some = only === null ? columns : barring(columns, only);
      const held = reach === null ? some : columnsWithin(some, at, reach, hood.base.amounts.binder, question);
      const grams = solveOnce(programAt(hood, held), aim, world, hood, reach !== null);
      return grams === null ? null : filling(world, grams, question.conditions.volume);
    },
    mend(at: readonly number[], only: readonly boolean[]): number[] | null {
      const program = programAt(neighbourhood(world, at, both(open, only)), barring(columns, only));
      const answer = solveLp(mendingProgram(program, at));
      if (answer.status !== 'optimal') return null;
      const grams = answer.x.slice(0, at.length).map((g) => Math.max(0, g));
      return filling(world, grams, question.conditions.volume);
    },
    judge(grams: readonly number[]): Candidate {
      const state = stateOf(world, grams);
      return { grams, state, miss: missOf(limits, world, state), value: soughtValue(aim, world, state) };
    },
    finish(best: Candidate, still: boolean, solves: number): Settled {
      const program = programAt(neighbourhood(world, best.grams, open), columns);
      return { ...best, program, feasible: best.miss === 0, still, solves };
    },
  };
}

const both = (a: readonly boolean[], b: readonly boolean[] | null): readonly boolean[] =>
  b === null ? a : a.map((x, i) => x && b[i]!);

const barring = (columns: readonly Column[], only: readonly boolean[]): Column[] =>
  columns.map((c, i) => (only[i]! ? c : { ...c, upper: 0 }));

const narrowed = (columns: readonly Column[], bounds: readonly Bound[] | undefined): readonly Column[] =>
  bounds === undefined
    ? columns
    : columns.map((column, i) => {
        const upper = Math.min(column.upper ?? Number.POSITIVE_INFINITY, bounds[i]!.upper);
        return { ...column, lower: Math.min(upper, bounds[i]!.lower), upper };
      });

/** Scales a blend to fill the mould just so: ratios stay, and the next step starts from where its volume row holds. */
function filling(world: World, grams: readonly number[], volume: number): number[] {
  const { value } = propertyValue(freshVolume, world, stateOf(world, grams));
  const factor = value === null || value <= 0 ? 1 : volume / value;
  return grams.map((g) => g * factor);
}

const tightened = (target: Target, tighten: ReadonlyMap<string, number>): Target => ({
  ...target,
  ...(target.max === undefined ? {} : { max: target.max - (tighten.get(`${target.property} max`) ?? 0) }),
  ...(target.min === undefined ? {} : { min: target.min + (tighten.get(`${target.property} min`) ?? 0) }),
});

/** Columns held near the blend: within a share of its mass, and for what is dosed within that share of its usual dose. */
function columnsWithin(
  columns: readonly Column[],
  at: readonly number[],
  reach: number,
  binder: number,
  question: Question,
): Column[] {
  const total = at.reduce((s, g) => s + g, 0);
  return columns.map((column, i) => {
    const usual = question.materials[i]!.dose?.usual.value;
    const far = reach * (usual === undefined ? total : Math.max(at[i]!, (usual / 100) * binder));
    const upper = Math.min(column.upper ?? Number.POSITIVE_INFINITY, at[i]! + far);
    const lower = Math.max(column.lower ?? 0, at[i]! - far);
    // A blend scaled to its mould may lie a hair outside its own bounds.
    return { ...column, lower: Math.min(lower, column.upper ?? lower), upper: Math.max(upper, column.lower ?? upper) };
  });
}

const distance = (a: readonly number[], b: readonly number[]): number => {
  let worst = 0;
  let total = 0;
  for (let i = 0; i < a.length; i++) {
    worst = Math.max(worst, Math.abs(a[i]! - b[i]!));
    total += a[i]!;
  }
  return worst / Math.max(1e-9, total);
};

function solveOnce(
  program: BlendProgram,
  aim: Sought,
  world: World,
  hood: Neighbourhood,
  held: boolean,
): number[] | null {
  const { columns, rows } = program;
  // Within reach a ratio's own slope is enough; over free jumps the ratio itself is optimised.
  const ratio = held ? null : soughtRatio(aim, world, hood);
  const answer =
    ratio === null ? solveLp(soughtProgram(aim, program, world, hood)) : solveFractional({ columns, rows, ...ratio });
  const blendOf = (x: readonly number[]) => x.slice(0, columns.length).map((g) => Math.max(0, g));
  if (answer.status === 'optimal') return blendOf(answer.x);
  if (answer.status !== 'infeasible') return null;
  const nearest = solveLp(nearestProgram(program));
  return nearest.status === 'optimal' ? blendOf(nearest.x) : null;
}

/** Relative slack of a limit before rounding: far finer than any scale weighs. What is weighed out gets none. */
const AGREE = 1e-5;

/** How far the forward model misses each limit, in shares of it. */
export function missOf(targets: readonly Target[], world: World, state: BlendState, slack = AGREE): number {
  let total = 0;
  for (const target of targets) {
    const property = propertyById(target.property)!;
    const { value } = propertyValue(property, world, state);
    if (value === null) {
      total += holdsWithout(property, target, world, state) ? 0 : 1;
      continue;
    }
    const size = Math.max(Math.abs(target.max ?? 0), Math.abs(target.min ?? 0), 1e-6);
    total += Math.max(0, -marginOf(target, value) / size - slack);
  }
  return total;
}

/** Whether a is the better answer: less missed first, then the objective. */
export function better(
  a: { readonly miss: number; readonly value: number | null },
  b: { readonly miss: number; readonly value: number | null },
  aim: Sought,
): boolean {
  if ((a.miss === 0) !== (b.miss === 0)) return a.miss === 0;
  if (Math.abs(a.miss - b.miss) > AGREE) return a.miss < b.miss;
  if (a.value === null || b.value === null) return b.value === null && a.value !== null;
  return aim.sense === 'min' ? a.value < b.value : a.value > b.value;
}
