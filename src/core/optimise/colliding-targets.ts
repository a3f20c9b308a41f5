import type { World } from '../blend/world.js';
import { type Side, sidesOf, withSides } from './back-off.js';
import { anyFit, bestFit, type Fit } from './fitting.js';
import { givenUp } from './given-up.js';
import { AIMS, type Aim, soughtValue } from './objective.js';
import type { Question } from './question.js';
import { weighedBlend } from './weighed.js';

/** A side of the brief's targets that cannot hold together with others. */
export interface CollidingTarget {
  readonly property: string;
  readonly side: 'min' | 'max';
  readonly limit: number;
  /** As far as this limit can hold with all the others as they are; null: giving it up alone does not free the brief. */
  readonly reachable: number | null;
  /** Binder system of the blend that reaches it. */
  readonly system: string | null;
}

/**
 * An irreducible set of the brief's targets that no blend of any open system keeps: without any one of them the others
 * of the set can be kept (deletion filter, Chinneck and Dravnieks 1991, from memory, over settled blends). Standing
 * limits on other properties, doses and binder rules always hold. With each, how far it would have to give way for the whole brief to fit.
 *
 * Null where a blend fits after all. An empty list: nothing fits even without targets.
 */
export function collidingTargets(question: Question, world: World, nearest?: string): CollidingTarget[] | null {
  const aim = AIMS[question.objective];
  let likely = nearest;
  const fits = (sides: readonly Side[]): boolean => {
    const fit = anyFit({ ...question, targets: withSides(question.targets, sides) }, world, aim, likely);
    if (fit !== null) likely = fit.system.id;
    return fit !== null;
  };
  const all = sidesOf(question.targets);
  if (fits(all)) return null;
  let left = all;
  for (const side of all) {
    const rest = left.filter((s) => s !== side);
    if (!fits(rest)) left = rest;
  }
  return left.map((one): CollidingTarget => {
    const { target, side, limit } = one;
    const { others, reach } = givenUp(question, one);
    const fit = bestFit(others, world, reach);
    const reachable = fit === null ? null : weighedValue(others, world, fit, reach);
    return { property: target.property, side, limit, reachable, system: fit?.system.id ?? null };
  });
}

/** What both the blend reaches and what can be weighed of it: a limit put there is kept. The blend's own where no rounding holds. */
function weighedValue(question: Question, world: World, { system, answer }: Fit, reach: Aim): number | null {
  const { miss, state } = weighedBlend(question, world, system, answer, reach);
  const weighed = miss === 0 ? soughtValue(reach, world, state) : null;
  if (weighed === null || answer.value === null) return answer.value;
  return reach.sense === 'min' ? Math.max(weighed, answer.value) : Math.min(weighed, answer.value);
}
