import type { Form, Property } from '../blend/property.js';
import { type BlendState, stateOf } from '../blend/state/state.js';
import { type Grams, sum, type World } from '../blend/world.js';

/** The states of a blend and of its neighbours, each with a little less of one material, or more where there is none. */
export interface Neighbourhood {
  readonly base: BlendState;
  /** One a material; null for those that may not be used. */
  readonly neighbours: readonly ({ readonly state: BlendState; readonly step: number } | null)[];
}

/** Share of a material's own mass that a neighbour has less of it; of the blend's mass where there is none. */
const STEP = 1e-6;
const STEP_FROM_NONE = 1e-8;

export function neighbourhood(world: World, grams: Grams, open: readonly boolean[]): Neighbourhood {
  const total = Math.max(
    1,
    sum(world, grams, () => 1),
  );
  const base = stateOf(world, grams);
  const neighbours = open.map((usable, i) => {
    if (!usable) return null;
    // Looking back from what is there: a dose at its ceiling still has the slope that brought it there.
    const signed = grams[i]! > total * STEP_FROM_NONE ? -STEP * grams[i]! : total * STEP_FROM_NONE;
    const moved = [...grams];
    moved[i] = moved[i]! + signed;
    return { state: stateOf(world, moved), step: signed };
  });
  return { base, neighbours };
}

const dot = (c: readonly number[], grams: Grams): number => {
  let total = 0;
  for (let i = 0; i < c.length; i++) total += c[i]! * grams[i]!;
  return total;
};

/**
 * A property's form with its numerator and denominator replaced by their gradients at the blend.
 *
 * Both are homogeneous of degree one in the grams (twice the blend is the same blend twice), so by Euler's theorem the
 * gradient form gives the same value at the blend itself, and unlike the frozen form it also knows how the state moves.
 */
export function tangentForm(property: Property, world: World, hood: Neighbourhood): Form {
  const frozen = property.form(world, hood.base);
  if (property.stateless === true) return frozen;
  const { grams } = hood.base;
  const n0 = dot(frozen.numerator, grams);
  const d0 = frozen.denominator === null ? 0 : dot(frozen.denominator, grams);
  const numerator = [...frozen.numerator];
  const denominator = frozen.denominator === null ? null : [...frozen.denominator];
  hood.neighbours.forEach((neighbour, i) => {
    if (neighbour === null) return;
    const { state, step } = neighbour;
    const form = property.form(world, state);
    numerator[i] = (dot(form.numerator, state.grams) - n0) / step;
    if (denominator !== null) denominator[i] = (dot(form.denominator!, state.grams) - d0) / step;
  });
  return { ...frozen, numerator, denominator };
}
