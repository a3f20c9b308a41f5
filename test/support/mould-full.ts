import { evaluate } from '../../src/core/blend/assess.js';
import { freshVolume } from '../../src/core/blend/properties/volume-and-weight.js';
import type { World } from '../../src/core/blend/world.js';

/** How many moulds these grams fill. */
export const mouldsOf = (world: World, grams: readonly number[]): number =>
  evaluate(world, grams).value(freshVolume)! / world.conditions.volume!;

/** One mould full of a mix of these grams. */
export function mouldFull(world: World, grams: readonly number[]): number[] {
  const moulds = mouldsOf(world, grams);
  return grams.map((g) => g / moulds);
}
