import { isAggregate } from '../blend/numbers.js';
import type { Form, Property } from '../blend/property.js';
import { type BlendState, stateOf } from '../blend/state/state.js';
import { dot, type Grams, pickedWorld, sum, type World } from '../blend/world.js';

/** A blend with a little less of one material, or more where there is none. */
export interface Neighbour {
  /** Only what the neighbour holds: what it lacks changes nothing, and a long shelf is mostly that. */
  readonly world: World;
  readonly state: BlendState;
  readonly step: number;
}

/** The state of a blend, and how its properties lie about it. */
export interface Neighbourhood {
  readonly base: BlendState;
  /** One a material, null for those that may not be used; null once they were let go. */
  readonly neighbours: readonly (Neighbour | null)[] | null;
  /** Gradients worked out so far: both sides of a window, the objective and its faces ask for the same. */
  readonly known: Map<Property, Form>;
}

type WithNeighbours = Neighbourhood & { readonly neighbours: readonly (Neighbour | null)[] };

/** Share of a material's own mass that a neighbour has less of it; of the blend's mass where there is none. */
const STEP = 1e-6;
const STEP_FROM_NONE = 1e-8;

/** A blend on a corner is looked at from so close beside it, in shares of each material; wider if that is still on it. */
const BESIDE = [3e-5, 1e-4] as const;

/**
 * The neighbourhood of a blend. Where the blend sits on a corner of the model (a pozzolan at just its cap), the steps
 * back of its materials come down on different faces, and slopes of different faces do not belong together; then it is
 * the neighbourhood of a blend close beside it, on one face. A search that runs into the other face learns it there.
 * `base`: the state of these very grams, where it is at hand.
 */
export function neighbourhood(
  world: World,
  grams: Grams,
  open: readonly boolean[],
  base: BlendState = stateOf(world, grams),
): WithNeighbours {
  let hood = around(world, base, open);
  for (const share of BESIDE) {
    if (!astride(hood)) break;
    // The golden ratio's multiples leave no two materials moved alike, so no proportion of two stays what it was.
    const beside = grams.map((g, i) => g * (1 + share * (2 * ((i * GOLDEN) % 1) - 1)));
    hood = around(world, stateOf(world, beside), open);
  }
  return hood;
}

const GOLDEN = 0.6180339887498949;

function around(world: World, base: BlendState, open: readonly boolean[]): WithNeighbours {
  const { grams } = base;
  const total = Math.max(
    1,
    sum(world, grams, () => 1),
  );
  const held = grams.flatMap((g, i) => (g === 0 ? [] : [i]));
  const heldWorld = pickedWorld(world, held);
  const neighbours = open.map((usable, i): Neighbour | null => {
    if (!usable) return null;
    const own = grams[i]! === 0 ? [...held, i] : held;
    const there = grams[i]! === 0 ? pickedWorld(world, own) : heldWorld;
    // Looking back from what is there: a dose at its ceiling still has the slope that brought it there.
    const step = grams[i]! > total * STEP_FROM_NONE ? -STEP * grams[i]! : total * STEP_FROM_NONE;
    return {
      world: there,
      state: stateOf(
        there,
        own.map((k) => grams[k]! + (k === i ? step : 0)),
        isAggregate(world.materials[i]!) ? undefined : base,
      ),
      step,
    };
  });
  return { base, neighbours, known: new Map() };
}

/** Sums over a blend that are homogeneous of degree one in its grams and have the model's corners in them. */
const cornered: readonly ((state: BlendState) => number)[] = [
  (s) => dot(s.strength.denominator, s.grams),
  (s) => dot(s.strength.numerator, s.grams),
  (s) => dot(s.demand, s.grams),
];

const ONE_FACE = 1e-5;

/** Whether slopes of different faces have been mixed: then they do not add up to the sum itself (Euler's theorem). */
function astride({ base, neighbours }: WithNeighbours): boolean {
  if (base.grams.some((g, i) => g > 0 && neighbours[i] === null)) return false;
  return cornered.some((of) => {
    const here = of(base);
    let total = 0;
    let size = Math.abs(here);
    neighbours.forEach((neighbour, i) => {
      if (neighbour === null || base.grams[i] === 0) return;
      const part = ((of(neighbour.state) - here) / neighbour.step) * base.grams[i]!;
      total += part;
      size += Math.abs(part);
    });
    return Math.abs(total - here) > ONE_FACE * size;
  });
}

/**
 * A neighbourhood with the gradients that were asked of it, for whoever will ask for no others: the states of all the
 * neighbours take most of the memory of a search.
 */
export const withoutNeighbours = ({ base, known }: Neighbourhood): Neighbourhood => ({
  base,
  neighbours: null,
  known,
});

/** A blend that has no neighbours: forms there are exact at the blend itself and know nothing of slopes. */
export const frozenAt = (base: BlendState): Neighbourhood => ({ base, neighbours: [], known: new Map() });

/**
 * A property's form with its numerator and denominator replaced by their gradients at the blend.
 *
 * Both are homogeneous of degree one in the grams (twice the blend is the same blend twice), so by Euler's theorem the
 * gradient form gives the same value at the blend itself, and unlike the frozen form it also knows how the state moves.
 */
export function tangentForm(property: Property, world: World, hood: Neighbourhood): Form {
  const form = hood.known.get(property) ?? gradientForm(property, world, hood);
  hood.known.set(property, form);
  return form;
}

function gradientForm(property: Property, world: World, hood: Neighbourhood): Form {
  const frozen = property.form(world, hood.base);
  if (property.stateless === true || property.sloped === true) return frozen;
  if (hood.neighbours === null) throw new Error(`no gradient of ${property.id} was asked for in time`);
  const { grams } = hood.base;
  const n0 = dot(frozen.numerator, grams);
  const d0 = frozen.denominator === null ? 0 : dot(frozen.denominator, grams);
  const numerator = [...frozen.numerator];
  const denominator = frozen.denominator === null ? null : [...frozen.denominator];
  hood.neighbours.forEach((neighbour, i) => {
    if (neighbour === null) return;
    const { state, step } = neighbour;
    const form = property.form(neighbour.world, state);
    numerator[i] = (dot(form.numerator, state.grams) - n0) / step;
    if (denominator !== null) denominator[i] = (dot(form.denominator!, state.grams) - d0) / step;
  });
  const { constant, link } = frozen;
  return { numerator, constant, denominator, link };
}
