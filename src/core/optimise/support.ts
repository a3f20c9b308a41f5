import type { World } from '../blend/world.js';
import { blendProgram, columnsOf } from './blend-program.js';
import { type Flagged, flagsUp, mostOfEach, withFlags } from './flags.js';
import { solveMilp } from './lp/milp.js';
import type { LinearProgram } from './lp/types.js';
import { nearestProgram } from './nearest.js';
import { falls, merit, type Sought, soughtProgram } from './objective.js';
import { portions } from './portions.js';
import type { Limits, Question } from './question.js';
import { type Bound, better, type Settled, settle } from './settle.js';
import type { BinderSystem } from './systems.js';
import { neighbourhood } from './tangent.js';

/** Fewer steps of the scale than this weigh nothing out with sense: half a step is then over a tenth. Ours. */
export const LEAST_STEPS = 5;

const NO_LIMITS: Limits = { ingredients: null, leastDose: null };

/** g in the batch that an ingredient is used at, if at all. */
export const leastDose = ({ batch, limits = NO_LIMITS }: Question): number =>
  limits.leastDose ?? LEAST_STEPS * (batch.fine?.step ?? batch.step);

/** Whether a material counts as a dry ingredient: all but water and what is poured. */
export const isDry = (question: Question, material: number): boolean => {
  const { kind, solids } = question.materials[material]!;
  return kind !== 'water' && solids === undefined;
};

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
const NEAREST_NODES = 100;
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
 * with the sets already tried cut off; the forward model judges each. Null where no set keeps even the fixed rows.
 */
export function supported(
  question: Question,
  world: World,
  system: BinderSystem,
  free: Settled,
  aim: Sought,
): Supported | null {
  const limits = question.limits ?? NO_LIMITS;
  const least = leastDose(question) / portions(question.batch, question.conditions.waste);
  const asked = new Set(question.doses.map((d) => d.material));
  const flaggable = world.materials.flatMap((m, i) => (m.kind === 'water' ? [] : [i]));
  const exempt = (i: number) => asked.has(world.materials[i]!.id);
  const keeps = (grams: readonly number[]): boolean => {
    const total = grams.reduce((s, g) => s + g, 0);
    const used = flaggable.filter((i) => grams[i]! > DUST * total);
    const few = limits.ingredients === null || used.filter((i) => isDry(question, i)).length <= limits.ingredients;
    return few && used.every((i) => exempt(i) || grams[i]! >= least * (1 - 1e-6));
  };
  if (keeps(free.grams)) return { answer: free, free: null, tried: 0 };

  const columns = columnsOf(question, world, system);
  const open = columns.map((c) => (c.upper ?? Number.POSITIVE_INFINITY) > 0);
  const tried: (readonly number[])[] = [];
  let best: Settled | null = null;
  let at = free.grams;
  let nearest = 0;
  let idle = 0;
  for (let round = 0; round < ROUNDS && nearest < NEAREST_ROUNDS && idle < IDLE_ROUNDS; round++) {
    const hood = neighbourhood(world, at, open);
    const program = blendProgram(question, world, hood, system, columns);
    const most = mostOfEach(program, world);
    const flagged = flaggable.map(
      (i): Flagged => ({
        material: i,
        least: exempt(i) ? 0 : least,
        most: most[i]!,
        counted: isDry(question, i),
        kept: exempt(i),
      }),
    );
    const found = chosen(soughtProgram(aim, program, world, hood), nearestProgram(program), (linear) =>
      withFlags(linear, flagged, limits.ingredients, tried),
    );
    if (found === null) break;
    if (!found.keeps) nearest++;
    if (best?.feasible === true && falls(aim, found, best) > WORTH) break;
    const set = flagsUp(found.x, found.first, flagged);
    tried.push(set);
    const answer = settle(question, world, system, {
      aim,
      start: found.x.slice(0, columns.length),
      bounds: boundsOf(world, set, (i) => (exempt(i) ? 0 : least)),
    });
    idle++;
    if (answer === null || (best !== null && !better(answer, best, aim))) continue;
    best = answer;
    at = answer.grams;
    idle = 0;
    if (best.feasible && merit(aim, best.value) - merit(aim, free.value) < CONTENT) break;
  }
  return best === null ? null : { answer: best, free, tried: tried.length };
}

interface Found {
  readonly x: readonly number[];
  /** Column of the first flag. */
  readonly first: number;
  readonly program: LinearProgram;
  readonly objective: number;
  /** False for the nearest point, where none keeps the rows or none was found. */
  readonly keeps: boolean;
}

/** The best point of the rows, or the nearest where nothing keeps them all; null when the search found neither. */
function chosen(
  sought: LinearProgram,
  nearest: LinearProgram,
  flags: (linear: LinearProgram) => LinearProgram,
): Found | null {
  for (const linear of [sought, nearest]) {
    const keeps = linear === sought;
    const answer = solveMilp(flags(linear), { nodeLimit: keeps ? NODES : NEAREST_NODES, gap: keeps ? 1e-5 : 1e-2 });
    const best = answer.status === 'optimal' ? answer : answer.status === 'stopped' ? answer.best : undefined;
    if (best !== undefined) {
      return { x: best.x, first: linear.columns.length, program: linear, objective: best.objective, keeps };
    }
  }
  return null;
}

/** Only these ingredients, each at its least or more, and water. */
const boundsOf = (world: World, set: readonly number[], least: (material: number) => number): Bound[] =>
  world.materials.map((m, i) => {
    if (m.kind === 'water') return { lower: 0, upper: Number.POSITIVE_INFINITY };
    return set.includes(i) ? { lower: least(i), upper: Number.POSITIVE_INFINITY } : { lower: 0, upper: 0 };
  });
