import { dryingForm } from '../blend/properties/drying.js';
import { dryWeight, weightForm } from '../blend/properties/volume-and-weight.js';
import { ratioOf } from '../blend/property.js';
import type { BlendState } from '../blend/state/state.js';
import type { World } from '../blend/world.js';
import type { ConstantWeightRule } from '../science/drying.js';

/** g that a piece of these grams weighs some hours after the water went in. */
export const weightAfter = (world: World, state: BlendState, hours: number): number =>
  ratioOf(weightForm(world, state, hours), state.grams);

/** g of the piece when drying is over. */
export const weightWhenDry = (world: World, state: BlendState): number =>
  ratioOf(dryWeight.form(world, state), state.grams);

/**
 * Hours after the water went in until two weighings would call the piece dry: the property drying-days, in hours. Infinity
 * in a room that never dries it.
 */
export function hoursUntilDry(world: World, state: BlendState, rule?: ConstantWeightRule): number {
  const form = dryingForm(world, state, rule);
  return 24 * form.link.of(ratioOf(form, state.grams));
}
