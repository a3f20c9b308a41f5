import type { World } from '../blend/world.js';
import { blendProgram, columnsOf } from './blend-program.js';
import { type Flagged, flagsUp, mostOfEach, withFlags } from './flags.js';
import { isDry, leastDose, NO_LIMITS } from './least-dose.js';
import { solveMilp } from './lp/milp.js';
import type { LinearProgram } from './lp/types.js';
import { nearestProgram } from './nearest.js';
import { falls, merit, type Sought, soughtProgram } from './objective.js';
import { portions } from './portions.js';
import type { Question } from './question.js';
import { type Bound, better, type Settled, settle } from './settle.js';
import type { BinderSystem } from './systems.js';
import { neighbourhood } from './tangent.js';
import { weighable } from './weighable.js';

/** A blend kept to its limits. */
export interface Supported {
  readonly answer: Settled;
  /** The blend without them, where they changed it: what they cost. */
  readonly free: Settled | null;
  /** Sets of ingredients that were settled. */
  readonly tried: number;
}

const ROUNDS = 8;
/** Rounds while the rows say that no blend keeps everything: the nearest is looked for, not proven. */
const NEAREST_ROUNDS = 2;
const NODES = 400;
const NEAREST_NODES = 60;
/** Rows are straight, blends are not: sets that the rows call this much worse are not worth settling. */
const WORTH = 0.02;
/** A set that loses no more than this against the blend without limits (a share, or tolerances) ends the search. */
const CONTENT = 1e-3;
/** Rounds in a row that bring nothing better, after which the search ends. */
const IDLE_ROUNDS = 3;
/** Below this share of the mass an ingredient is dust of arithmetic. */
const DUST = 1e-9;

/**
 * Keeps a settled blend to the most ingredients and the least dose. Where it breaks them, branch and bound over its
 * linearised rows chooses the ingredients, the blend is settled anew with these, and so on from the best blend found
 * with the sets already tried cut off; the forward model judges each. Null where no set keeps the limits; with
 * `nearest` the set that misses least is looked for first.
 */
export function supported(
  question: Question,
  world: World,
  system: BinderSystem,
  free: Settled,
  aim: Sought,
  nearest = true,
): Supported | null {
  const choice = choiceOf(question, world, system, aim);
  if (choice.keeps(free.grams)) return { answer: free, free: null, tried: 0 };
  // Where nothing fits, the nearest set is not worth a search of many seconds.
  const quick = free.feasible ? null : weighable(question, world, system, free, aim);
  if (quick !== null) return { answer: quick, free, tried: 1 };
  const tried: (readonly number[])[] = [];
  let best: Settled | null = null;
  let at = free.grams;
  let astray = 0;
  let idle = 0;
  while (tried.length < ROUNDS && astray < NEAREST_ROUNDS && idle < IDLE_ROUNDS) {
    const found = choice.best(at, tried, nearest);
    if (found === null) break;
    if (!found.keeps) astray++;
    if (best?.feasible === true && falls(aim, found, best) > WORTH) break;
    tried.push(found.set);
    const answer = choice.settled(found);
    idle++;
    if (answer === null || (best !== null && !better(answer, best, aim))) continue;
    best = answer;
    at = answer.grams;
    idle = 0;
    if (best.feasible && merit(aim, best.value) - merit(aim, free.value) < CONTENT) break;
  }
  return best === null ? null : { answer: best, free, tried: tried.length };
}

/**
 * Fewest dry ingredients by the rows at a blend that keeps everything, if a blend of so many really does; else null:
 * not known.
 */
export const fewestIngredients = (
  question: Question,
  world: World,
  system: BinderSystem,
  free: Settled,
  aim: Sought,
): number | null => choiceOf(question, world, system, aim).fewest(free.grams);

/** A set of ingredients that branch and bound chose. */
interface Found {
  /** Materials used, water apart. */
  readonly set: readonly number[];
  readonly grams: readonly number[];
  /** The program it is the optimum of, without its flags. */
  readonly program: LinearProgram;
  readonly objective: number;
  /** False for the nearest point, where none keeps the rows or none was found. */
  readonly keeps: boolean;
}

function choiceOf(question: Question, world: World, system: BinderSystem, aim: Sought) {
  const { ingredients } = question.limits ?? NO_LIMITS;
  const least = leastDose(question) / portions(question.batch, question.conditions.waste);
  const asked = new Set(question.doses.map((d) => d.material));
  const choosable = world.materials.flatMap((m, i) => (m.kind === 'water' ? [] : [i]));
  const leastOf = (i: number): number => (asked.has(world.materials[i]!.id) ? 0 : least);
  const columns = columnsOf(question, world, system);
  const open = columns.map((c) => (c.upper ?? Number.POSITIVE_INFINITY) > 0);

  const rowsAt = (at: readonly number[]) => {
    const hood = neighbourhood(world, at, open);
    const whole = blendProgram(question, world, hood, system, columns);
    const most = mostOfEach(whole, world);
    const flagged = choosable.map(
      (i): Flagged => ({
        material: i,
        least: leastOf(i),
        most: most[i]!,
        counted: isDry(question, i),
        kept: asked.has(world.materials[i]!.id),
      }),
    );
    // What cannot be used at all needs no flag.
    const usable = flagged.filter((f) => f.kept || (f.most > 0 && f.most >= f.least));
    const barred = new Set(choosable.filter((i) => !usable.some((f) => f.material === i)));
    const program = { ...whole, columns: columns.map((c, i) => (barred.has(i) ? { ...c, upper: 0 } : c)) };
    return { hood, program, flagged: usable };
  };
  const solved = (
    linear: LinearProgram,
    whole: LinearProgram,
    flagged: readonly Flagged[],
    keeps: boolean,
  ): Found | null => {
    const answer = solveMilp(whole, { nodeLimit: keeps ? NODES : NEAREST_NODES, gap: keeps ? 1e-5 : 1e-2 });
    const best = answer.status === 'optimal' ? answer : answer.status === 'stopped' ? answer.best : undefined;
    if (best === undefined) return null;
    const set = flagsUp(best.x, linear.columns.length, flagged);
    return { set, grams: best.x.slice(0, columns.length), program: linear, objective: best.objective, keeps };
  };

  return {
    /** Whether a blend keeps the limits. */
    keeps(grams: readonly number[]): boolean {
      const total = grams.reduce((s, g) => s + g, 0);
      const used = choosable.filter((i) => grams[i]! > DUST * total);
      if (ingredients !== null && used.filter((i) => isDry(question, i)).length > ingredients) return false;
      return used.every((i) => grams[i]! >= leastOf(i) * (1 - 1e-6));
    },
    /** The best set by the rows at a blend, or, if asked for, the set that comes nearest; null when there is neither. */
    best(at: readonly number[], tried: readonly (readonly number[])[], nearest: boolean): Found | null {
      const { hood, program, flagged } = rowsAt(at);
      const first = (linear: LinearProgram, keeps: boolean) =>
        solved(linear, withFlags(linear, flagged, ingredients, tried), flagged, keeps);
      const found = first(soughtProgram(aim, program, world, hood), true);
      return found ?? (nearest ? first(nearestProgram(program), false) : null);
    },
    /** The blend of a set by the forward model, settled with each of its ingredients at its least or more. */
    settled: ({ set, grams }: Found): Settled | null =>
      settle(question, world, system, {
        aim,
        start: grams,
        bounds: world.materials.map((m, i): Bound => {
          if (m.kind === 'water') return { lower: 0, upper: Number.POSITIVE_INFINITY };
          return set.includes(i) ? { lower: leastOf(i), upper: Number.POSITIVE_INFINITY } : { lower: 0, upper: 0 };
        }),
      }),
    /** How many dry ingredients keep everything at the least, if a blend of so many really does; else null. */
    fewest(at: readonly number[]): number | null {
      const { program, flagged } = rowsAt(at);
      const linear: LinearProgram = { ...program, sense: 'min', objective: program.columns.map(() => 0) };
      const whole = withFlags(linear, flagged, null, []);
      const objective = whole.columns.map((_c, j) => Number(flagged[j - linear.columns.length]?.counted ?? false));
      const found = solved(linear, { ...whole, objective }, flagged, true);
      if (found === null || this.settled(found)?.feasible !== true) return null;
      return found.set.filter((i) => isDry(question, i)).length;
    },
  };
}
