import { isAggregate } from '../numbers.js';
import { type Grams, sum, type World } from '../world.js';

export interface Skeleton {
  /** cm³ of grains that form the skeleton. */
  readonly grains: number;
  /** cm³ of voids a cm³ of grains leaves between itself. */
  readonly voidRatio: number;
}

/** Voids of the sands and light aggregates, each with its own loose voids (no gain from mixing sizes: on the safe side). */
export function skeletonOf(world: World, grams: Grams): Skeleton {
  const grains = sum(world, grams, (m) => (isAggregate(m) ? m.grainVolume : 0));
  if (grains <= 0) return { grains: 0, voidRatio: 0 };
  const voids = sum(world, grams, (m) => (isAggregate(m) ? (m.grainVolume * m.voids) / (1 - m.voids) : 0));
  return { grains, voidRatio: voids / grains };
}
