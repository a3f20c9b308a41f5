import type { World } from '../blend/world.js';
import { better } from './miss.js';
import type { Aim, Sought } from './objective.js';
import type { Question } from './question.js';
import { settle } from './settle.js';
import type { Settled } from './settled.js';
import { supported } from './support.js';
import { type BinderSystem, openSystems } from './systems.js';
import { weighable } from './weighable.js';

/** A blend of some system that keeps every limit, those of the scale and of the number of ingredients too. */
export interface Fit {
  readonly system: BinderSystem;
  readonly answer: Settled;
}

/**
 * Some blend that keeps every limit of the question, of whichever open system gives one first; `first` is a guess of
 * which. Null where none was found: systems are searched, not proven empty.
 */
export function anyFit(question: Question, world: World, aim: Sought, first?: string): Fit | null {
  const systems = openSystems(question, world);
  const order = [...systems].sort((a, b) => Number(b.id === first) - Number(a.id === first));
  for (const system of order) {
    const answer = kept(question, world, system, aim, true);
    if (answer !== null) return { system, answer };
  }
  return null;
}

/** The best blend that keeps every limit, over all open systems; null where none was found. */
export function bestFit(question: Question, world: World, aim: Aim): Fit | null {
  let best: Fit | null = null;
  for (const system of openSystems(question, world)) {
    const answer = kept(question, world, system, aim, false);
    if (answer === null) continue;
    if (best === null || better(answer, best.answer, aim)) best = { system, answer };
  }
  return best;
}

/**
 * A blend that can be weighed out of so many ingredients as may be, as a proposal would be; with `any` the first one found
 * and else the best. Null where none was found.
 */
function kept(question: Question, world: World, system: BinderSystem, aim: Sought, any: boolean): Settled | null {
  const free = settle(question, world, system, { aim });
  if (free?.feasible !== true) return null;
  const quick = any ? weighable(question, world, system, free, aim) : null;
  if (quick?.feasible === true) return quick;
  const searched = supported(question, world, system, free, aim, false)?.answer;
  return searched?.feasible === true ? searched : null;
}
