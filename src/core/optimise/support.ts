import type { World } from '../blend/world.js';
import { ingredientChoice } from './ingredient-choice.js';
import { heldIn } from './least-dose.js';
import { better } from './miss.js';
import { atItsLimit, falls, type Sought } from './objective.js';
import type { Question } from './question.js';
import type { Settled } from './settled.js';
import { spared, tracesIn } from './spared.js';
import type { BinderSystem } from './systems.js';
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
/** How many times as long a set may be looked for where none is known yet. */
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
  const choice = ingredientChoice(question, world, system, aim);
  const without = (blend: Settled, among?: readonly number[]): Settled =>
    spared(question, world, system, aim, blend, choice.boundsOf, among);
  const tidy = (blend: Settled): Settled => without(blend, tracesIn(question, world, blend.grams));
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
): number | null => ingredientChoice(question, world, system, aim).fewest(free.grams);
