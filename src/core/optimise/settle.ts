import { propertyById } from '../blend/properties/index.js';
import { valueOf } from '../blend/property.js';
import { type BlendState, stateOf } from '../blend/state/state.js';
import { marginOf, type Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import { type BlendProgram, blendProgram } from './blend-program.js';
import { solveFractional } from './lp/fractional.js';
import { solveLp } from './lp/solve.js';
import { nearestProgram } from './nearest.js';
import { type Aim, objectiveForm } from './objective.js';
import type { Question } from './question.js';
import { standingTargets } from './standing-limits.js';
import { startingBlend } from './starting-blend.js';
import type { BinderSystem } from './systems.js';

/** A blend that stands still: solving again with its own state gives the same blend. */
export interface Settled {
  readonly grams: readonly number[];
  readonly state: BlendState;
  readonly program: BlendProgram;
  /** True when every row holds in the forward model; false for the nearest blend. */
  readonly feasible: boolean;
  /** Sum of misses in shares of each target, 0 when feasible. */
  readonly miss: number;
  /** The objective's property, by the forward model; null where the blend has none. */
  readonly value: number | null;
  /** Whether re-solving had stopped moving the blend. */
  readonly still: boolean;
  readonly solves: number;
}

export interface SettleOptions {
  readonly aim: Aim;
  /** How much to stay inside a target side, by `property side`, in the property's unit. */
  readonly tighten?: ReadonlyMap<string, number>;
  readonly start?: readonly number[];
}

const MOST_ROUNDS = 40;
/** From this round on the state is taken from the mean of old and new, which damps flips between two corners. */
const DAMP_FROM = 6;
const STILL = 1e-6;

/**
 * Solve, re-evaluate, re-solve until the blend stands still (successive linear programming; the state-dependent
 * coefficients are held in each round). Every candidate is judged by the forward model, and the best one seen is kept,
 * so that a search that never settles still returns an honest blend.
 *
 * Returns null when no blend keeps even the fixed rows, or a program could not be certified.
 */
export function settle(question: Question, world: World, system: BinderSystem, options: SettleOptions): Settled | null {
  const tighten = options.tighten ?? new Map<string, number>();
  const volume = question.conditions.volume;
  let program = blendProgram(question, world, stateOf(world, world.materials.map(() => 1)), system, tighten);
  let at = [...(options.start ?? startingBlend(world, program.columns, volume))];
  let best: Settled | null = null;
  let previous: number[] | null = null;
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    program = blendProgram(question, world, stateOf(world, at), system, tighten);
    const grams = solveOnce(program, options.aim, world, at);
    if (grams === null) return best;
    const moved: number = previous === null ? 1 : distance(grams, previous);
    const candidate = judge(question, world, program, grams, options.aim, moved < STILL, round, tighten);
    if (best === null || better(candidate, best, options.aim)) best = candidate;
    if (moved < STILL) return { ...best, still: true, solves: round };
    previous = grams;
    at = round < DAMP_FROM ? grams : grams.map((g, i) => 0.5 * (g + at[i]!));
  }
  return best;
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

/** Grams of the program's optimum, or of its nearest blend where none is feasible. */
function solveOnce(program: BlendProgram, aim: Aim, world: World, at: readonly number[]): number[] | null {
  const { form, sense } = objectiveForm(aim, world, stateOf(world, at));
  const { columns, rows } = program;
  const answer =
    form.denominator === null
      ? solveLp({ columns, rows, sense, objective: [...form.numerator] })
      : solveFractional({ columns, rows, sense, numerator: form.numerator, denominator: form.denominator });
  if (answer.status === 'optimal') return [...answer.x];
  if (answer.status !== 'infeasible') return null;
  const nearest = solveLp(nearestProgram(program));
  return nearest.status === 'optimal' ? nearest.x.slice(0, columns.length) : null;
}

/** Relative slack within which the forward model agrees with the rows of a blend that stands still. */
const AGREE = 1e-6;

/** How far the forward model misses each limit, in shares of it. */
export function missOf(targets: readonly Target[], world: World, state: BlendState): number {
  let total = 0;
  for (const target of targets) {
    const { value } = valueOf(propertyById(target.property)!, world, state);
    if (value === null) {
      total += absentMiss(target, world, state);
      continue;
    }
    const size = Math.max(Math.abs(target.max ?? 0), Math.abs(target.min ?? 0), 1e-6);
    total += Math.max(0, -marginOf(target, value) / size - AGREE);
  }
  return total;
}

/** A property the blend does not have stands where its ratio would run to: see target.ts. */
function absentMiss(target: Target, world: World, state: BlendState): number {
  const form = propertyById(target.property)!.form(world, state);
  const numerator = form.numerator.reduce((s, n, i) => s + n * state.grams[i]!, form.constant ?? 0);
  return numerator > 0 && target.max !== undefined ? 1 : 0;
}

function judge(
  question: Question,
  world: World,
  program: BlendProgram,
  grams: readonly number[],
  aim: Aim,
  still: boolean,
  solves: number,
  tighten: ReadonlyMap<string, number>,
): Settled {
  const state = stateOf(world, grams);
  const held = question.targets.map((t): Target => ({
    ...t,
    ...(t.max === undefined ? {} : { max: t.max - (tighten.get(`${t.property} max`) ?? 0) }),
    ...(t.min === undefined ? {} : { min: t.min + (tighten.get(`${t.property} min`) ?? 0) }),
  }));
  const miss = missOf([...held, ...standingTargets(question.targets)], world, state);
  const { value } = valueOf(aim.property, world, state);
  return { grams, state, program, feasible: miss === 0, miss, value, still, solves };
}

/** Whether a is the better answer: less missed first, then the objective. */
export function better(a: Settled, b: Settled, aim: Aim): boolean {
  if (Math.abs(a.miss - b.miss) > AGREE) return a.miss < b.miss;
  if (a.value === null || b.value === null) return b.value === null && a.value !== null;
  return aim.sense === 'min' ? a.value < b.value : a.value > b.value;
}
