import type { World } from '../blend/world.js';
import { blendProgram, columnsOf } from './blend-program.js';
import { isDosed } from './bulk.js';
import { type Flagged, flagsUp, mostOfEach, withFlags } from './flags.js';
import { heldIn, isDry, leastDose, NO_LIMITS } from './least-dose.js';
import { likeliest } from './likeliest.js';
import { solveMilp } from './lp/milp.js';
import { openColumns } from './lp/open-columns.js';
import type { LinearProgram } from './lp/types.js';
import { AGREE, better } from './miss.js';
import { nearestProgram } from './nearest.js';
import { atItsLimit, falls, type Sought, soughtProgram } from './objective.js';
import { portions } from './portions.js';
import type { Question } from './question.js';
import { settle, settleNear } from './settle.js';
import type { Bound, Settled } from './settled.js';
import { spared, tracesIn } from './spared.js';
import type { BinderSystem } from './systems.js';
import { neighbourhood } from './tangent.js';
import { content, weighable } from './weighable.js';

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
/** A blend that misses so many times as much as the one without limits is looked for once more. */
const FARTHER = 1.5;
/** Other ingredients that are tried in place of one that is too little to weigh. */
const MOST_SWAPS = 20;
/** Pivots of one search, some tenths of a second; and how many times as long it may take where no set is known yet. */
const PIVOTS = 8000;
const INSISTING = 4;
/** Rows are straight, blends are not: sets that the rows call this much worse are not worth settling. */
const WORTH = 0.02;
/** Rounds in a row that bring nothing better, after which the search ends. */
const IDLE_ROUNDS = 3;

/**
 * Keeps a settled blend to the most ingredients and the least dose. Where it breaks them, branch and bound over its
 * linearised rows chooses the ingredients, the blend is settled anew with these, and so on from the best blend found
 * with the sets already tried cut off; the forward model judges each. Null where no set keeps the limits; with
 * `nearest` the set that misses least is looked for first. `beaten`: the blend without limits is no better than another
 * system's with them, so the first set that will do is enough.
 */
export function supported(
  question: Question,
  world: World,
  system: BinderSystem,
  free: Settled,
  aim: Sought,
  nearest = true,
  beaten = false,
): Supported | null {
  const choice = choiceOf(question, world, system, aim);
  const without = (blend: Settled): Settled => spared(question, world, system, aim, blend, choice.boundsOf);
  const tidy = (blend: Settled): Settled =>
    spared(question, world, system, aim, blend, choice.boundsOf, tracesIn(question, world, blend.grams));
  const tied = !free.feasible || ('property' in aim && (aim.flat === true || atItsLimit(aim, question.targets, free)));
  if (choice.keeps(free.grams))
    return { answer: tied ? without(free) : beaten ? free : tidy(free), free: null, tried: 0 };
  const near = weighable(question, world, system, free, aim, beaten);
  if (near !== null && (beaten || content(aim, near, free)))
    return { answer: beaten ? near : tied ? without(near) : tidy(near), free, tried: 1 };
  const quick = [near, choice.swapped(free)].reduce((a, b) =>
    a === null || (b !== null && better(b, a, aim)) ? b : a,
  );
  // Where nothing fits, the nearest set is not worth a search of many seconds.
  if (quick !== null && (!free.feasible || (beaten && quick.feasible) || content(aim, quick, free)))
    return { answer: without(quick), free, tried: 1 };
  const tried: (readonly number[])[] = quick === null ? [] : [heldIn(world, quick.grams)];
  let best: Settled | null = quick;
  // A quick blend that misses a limit may be a poor place to look from: a mould of water, say.
  let at = quick?.feasible === true ? quick.grams : free.grams;
  let astray = 0;
  let idle = 0;
  while (tried.length < ROUNDS && astray < NEAREST_ROUNDS && idle < IDLE_ROUNDS) {
    const found = choice.best(at, tried, nearest, best === null ? INSISTING : 1);
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
    if (content(aim, best, free)) break;
  }
  return best === null ? null : { answer: without(best), free, tried: tried.length };
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
  const enough = (i: number): boolean => (columns[i]!.upper ?? Number.POSITIVE_INFINITY) >= leastOf(i);

  /** Only these ingredients, each at its least or more, and water. */
  const boundsOf = (set: readonly number[]): Bound[] =>
    world.materials.map((m, i): Bound => {
      if (m.kind === 'water') return { lower: 0, upper: Number.POSITIVE_INFINITY };
      return set.includes(i) ? { lower: leastOf(i), upper: Number.POSITIVE_INFINITY } : { lower: 0, upper: 0 };
    });

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
    // What cannot be used at all needs no flag, and of a long shelf only the likeliest get one.
    const usable = likeliest(
      flagged.filter((f) => f.kept || (f.most > 0 && f.most >= f.least)),
      soughtProgram(aim, whole, world, hood),
      at,
    );
    const barred = new Set(choosable.filter((i) => !usable.some((f) => f.material === i)));
    const program = { ...whole, columns: columns.map((c, i) => (barred.has(i) ? { ...c, upper: 0 } : c)) };
    return { hood, program, flagged: usable };
  };
  const solved = (
    linear: LinearProgram,
    whole: LinearProgram,
    flagged: readonly Flagged[],
    keeps: boolean,
    times = 1,
  ): Found | null => {
    const { program, widen } = openColumns(whole);
    const answer = solveMilp(program, {
      nodeLimit: (keeps ? NODES : NEAREST_NODES) * times,
      pivotLimit: PIVOTS * times,
      gap: keeps ? 1e-5 : 1e-2,
    });
    const best = answer.status === 'optimal' ? answer : answer.status === 'stopped' ? answer.best : undefined;
    if (best === undefined) return null;
    const x = widen(best.x);
    const set = flagsUp(x, linear.columns.length, flagged);
    return { set, grams: x.slice(0, columns.length), program: linear, objective: best.objective, keeps };
  };

  return {
    boundsOf,
    /**
     * The best blend of what a blend has enough of, by itself or with one more ingredient of a kind it has too little of;
     * null: none, or more than the limits allow. So a strong retarder gives way to a weaker one that can be weighed, and
     * a blend that fillers thin takes more binder where its least of an accelerator would be too much.
     */
    swapped({ grams, miss }: Settled): Settled | null {
      const used = heldIn(world, grams);
      const set = used.filter((i) => grams[i]! >= leastOf(i));
      const kinds = new Set(used.filter((i) => !set.includes(i)).map((i) => world.materials[i]!.kind));
      // Of what it has, but too little, only a dose: that much of anything else would be another blend.
      const another = (i: number): boolean => !used.includes(i) || isDosed(question.materials[i]!);
      const others = choosable.filter(
        (i) => open[i]! && enough(i) && !set.includes(i) && another(i) && kinds.has(world.materials[i]!.kind),
      );
      let best: Settled | null = null;
      let bounds: Bound[] = [];
      for (const more of [[], ...others.slice(0, MOST_SWAPS).map((i) => [i])]) {
        const one = set.concat(more);
        if (ingredients !== null && one.filter((i) => isDry(question, i)).length > ingredients) continue;
        const within = boundsOf(one);
        // The least of such a dose may be far from the blend.
        const answer = more.some((i) => used.includes(i))
          ? settle(question, world, system, { aim, bounds: within })
          : settleNear(question, world, system, { aim, start: grams, bounds: within });
        if (answer === null || !this.keeps(answer.grams)) continue;
        if (best !== null && !better(answer, best, aim)) continue;
        best = answer;
        bounds = within;
      }
      // What is left of a pair that worked against each other may have done all it can, and shows no way back.
      if (best === null || best.miss <= FARTHER * miss) return best;
      const afresh = settle(question, world, system, { aim, bounds });
      return afresh !== null && better(afresh, best, aim) ? afresh : best;
    },
    /** Whether a blend keeps the limits. */
    keeps(grams: readonly number[]): boolean {
      const used = heldIn(world, grams);
      if (ingredients !== null && used.filter((i) => isDry(question, i)).length > ingredients) return false;
      return used.every((i) => grams[i]! >= leastOf(i) * (1 - AGREE));
    },
    /**
     * The best set by the rows at a blend, or, if asked for, the set that comes nearest; null when there is neither.
     * `times`: how many times as long it may be looked for.
     */
    best(at: readonly number[], tried: readonly (readonly number[])[], nearest: boolean, times: number): Found | null {
      const { hood, program, flagged } = rowsAt(at);
      const first = (linear: LinearProgram, keeps: boolean) =>
        solved(linear, withFlags(linear, flagged, ingredients, tried), flagged, keeps, times);
      const found = first(soughtProgram(aim, program, world, hood), true);
      return found ?? (nearest ? first(nearestProgram(program), false) : null);
    },
    /** The blend of a set by the forward model, settled with each of its ingredients at its least or more. */
    settled: ({ set, grams }: Pick<Found, 'set' | 'grams'>): Settled | null =>
      settle(question, world, system, {
        aim,
        start: grams,
        bounds: boundsOf(set),
      }) ?? settle(question, world, system, { aim, bounds: boundsOf(set) }),
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
