import { skeletonVoids, voidRatio } from '../../science/skeleton.js';
import { isAggregate, type MaterialNumbers } from '../numbers.js';
import { type Grams, sum, type World } from '../world.js';

export interface Skeleton {
  /** cm³ of grains that form the skeleton. */
  readonly grains: number;
  /** cm³ of voids a cm³ of grains leaves between itself. */
  readonly voidRatio: number;
}

/**
 * Voids of the sands and light aggregates together. Several gradings are packed by the compressible packing model, so
 * that a fine sand fills the holes of a coarse one; a material alone, or without a grading, keeps its own loose voids.
 */
export function skeletonOf(world: World, grams: Grams): Skeleton {
  const grains = sum(world, grams, (m) => (isAggregate(m) ? m.grainVolume : 0));
  if (grains <= 0) return { grains: 0, voidRatio: 0 };
  const present = world.materials
    .map((material, i) => ({ material, volume: grams[i]! * material.grainVolume }))
    .filter(({ material, volume }) => isAggregate(material) && volume > 1e-9 * grains);
  const ungraded = present.some(({ material }) => material.grading === null);
  if (present.length === 1 || ungraded) return { grains, voidRatio: ownVoids(world, grams) / grains };
  const voids = skeletonVoids(
    present.map(({ material, volume }) => ({ volume, voids: material.voids, grading: material.grading! })),
  );
  return { grains, voidRatio: voidRatio(voids!) };
}

const ownVoids = (world: World, grams: Grams): number =>
  sum(world, grams, (m: MaterialNumbers) => (isAggregate(m) ? m.grainVolume * voidRatio(m.voids) : 0));
