import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { ratioOf } from '../blend/property.js';
import { figureAt } from '../blend/sampling.js';
import { stateOf } from '../blend/state/state.js';
import { worldOf } from '../blend/world.js';
import type { Figure } from '../materials/figure.js';
import { CONSTANT_WEIGHT, constantWeight } from '../science/drying.js';
import { hoursUntilDry, weightAfter, weightWhenDry } from './drying-time.js';
import type { Weighing } from './pours-cells.js';
import { fitFigures } from './pours-fit.js';
import { type KnownPour, measuredPour } from './pours-measured.js';

export interface Curve {
  /** g at these hours after the water, by the model fitted to this pour alone. */
  readonly at: (hours: number) => number;
  /** g when drying is over. */
  readonly dry: number;
  /** h after the water at which two weighings would call it dry; Infinity in a room that never dries it. */
  readonly dryAfter: number;
}

/**
 * The weight of a pour's piece against time, the figures moved within their ranges to fit its own measurements; null when
 * it was never weighed and its mould is not known either.
 */
export function fittedCurve(pour: KnownPour, step: number, waste: Figure): Curve | null {
  const { volume } = pour.input.conditions;
  const [first] = pour.weights;
  if (volume === null && first === undefined) return null;
  const measured = measuredPour(pour, step, waste);
  const moved = new Map(measured === null ? [] : fitFigures([measured]).figures.map((f) => [f.key, f.moved]));
  const world = worldOf(pour.input, (key, figure) => {
    const z = moved.get(key);
    return z === undefined ? figure.value : figureAt(figure, z);
  });
  const state = stateOf(world, pour.grams);
  const filled = volume === null ? Number.NaN : volume / ratioOf(freshVolume.form(world, state), pour.grams);
  // The piece weighed tells its own size; a mould filled a little more or less is not the model's error.
  const size =
    first === undefined
      ? filled
      : pour.weights.reduce((s, w) => s + w.grams / weightAfter(world, state, w.hours), 0) / pour.weights.length;
  return {
    at: (hours) => size * weightAfter(world, state, hours),
    dry: size * weightWhenDry(world, state),
    dryAfter: hoursUntilDry(world, state),
  };
}

export interface ConstantWeight {
  readonly verdict: 'dry' | 'drying' | 'too-soon' | 'not-weighed-twice';
  /** The two weighings it rests on. */
  readonly first: Weighing | null;
  readonly last: Weighing | null;
  /** Change between them as a share of the last weight. */
  readonly change: number | null;
}

/** Whether the scale calls the piece dry: the last weighing against the latest one that lies far enough back. */
export function atConstantWeight(weights: readonly Weighing[]): ConstantWeight {
  const last = weights.at(-1);
  if (last === undefined || weights.length < 2)
    return { verdict: 'not-weighed-twice', first: null, last: last ?? null, change: null };
  const earlier = weights.slice(0, -1);
  const first = earlier.filter((w) => last.hours - w.hours >= CONSTANT_WEIGHT.apart).at(-1) ?? earlier.at(-1)!;
  return {
    verdict: constantWeight(first.grams, last.grams, last.hours - first.hours),
    first,
    last,
    change: Math.abs(first.grams - last.grams) / last.grams,
  };
}
