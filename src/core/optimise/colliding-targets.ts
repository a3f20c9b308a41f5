import { propertyValue } from '../blend/property.js';
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
  /** Of which set it is, from 0: nothing in one set holds together, and each set has to give way somewhere. */
  readonly set: number;
  /**
   * As far as this limit can hold with all the others as they are, those of other sets given up; null where there is no
   * such number: giving it up alone frees nothing, or only for what has none of the property.
   */
  readonly reachable: number | null;
  /** Why what could be had if it were given up has none of the property; null where it has, or nothing can be had. */
  readonly without: string | null;
  /** Binder system of the blend that reaches it, or could be had. */
  readonly system: string | null;
}

/**
 * Irreducible sets of the brief's targets that no blend of any open system keeps: without any one of them the others
 * of the set can be kept (deletion filter, Chinneck and Dravnieks 1991, from memory, over settled blends). What is left
 * without a set is looked through for another. Standing limits on other properties, doses and binder rules always hold.
 * With each side, how far it would have to give way for the whole brief to fit.
 *
 * Null where a blend fits after all. An empty list: nothing fits even without targets.
 */
export function collidingTargets(question: Question, world: World, nearest?: string): CollidingTarget[] | null {
  const aim = AIMS[question.objective];
  let likely = nearest;
  const keeping = (sides: readonly Side[]): Question => ({
    ...question,
    targets: withSides(question.targets, sides),
  });
  const fits = (sides: readonly Side[]): boolean => {
    const fit = anyFit(keeping(sides), world, aim, likely);
    if (fit !== null) likely = fit.system.id;
    return fit !== null;
  };
  const irreducible = (sides: readonly Side[]): readonly Side[] => {
    let left = sides;
    for (const side of sides) {
      const rest = left.filter((s) => s !== side);
      if (!fits(rest)) left = rest;
    }
    return left;
  };
  const sets: (readonly Side[])[] = [];
  const all = sidesOf(question.targets);
  for (let rest = all; !fits(rest); ) {
    const set = irreducible(rest);
    if (set.length === 0) return [];
    sets.push(set);
    rest = rest.filter((side) => !set.includes(side));
  }
  if (sets.length === 0) return null;
  return sets.flatMap((own, set) =>
    own.map((one): CollidingTarget => {
      const { target, side, limit } = one;
      const freed = sets.flatMap((other) => (other === own ? [] : other));
      const kept = keeping(all.filter((s) => !freed.includes(s)));
      const { others, reach } = givenUp(kept, {
        ...one,
        target: kept.targets.find((t) => t.property === target.property)!,
      });
      const fit = bestFit(others, world, reach);
      return {
        property: target.property,
        side,
        limit,
        set,
        ...(fit === null ? { reachable: null, without: null } : reachedBy(others, world, fit, reach)),
        system: fit?.system.id ?? null,
      };
    }),
  );
}

/** What both the blend reaches and what can be weighed of it: a limit put there is kept. The blend's own where no rounding holds. */
function reachedBy(
  question: Question,
  world: World,
  { system, answer }: Fit,
  reach: Aim,
): Pick<CollidingTarget, 'reachable' | 'without'> {
  const { value } = answer;
  if (value === null) {
    const { why } = propertyValue(reach.property, world, answer.state);
    return { reachable: null, without: why ?? null };
  }
  const { miss, state } = weighedBlend(question, world, system, answer, reach);
  const weighed = (miss === 0 ? soughtValue(reach, world, state) : null) ?? value;
  return { reachable: reach.sense === 'min' ? Math.max(weighed, value) : Math.min(weighed, value), without: null };
}
