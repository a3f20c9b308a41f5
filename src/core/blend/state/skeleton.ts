import { type Grains, mixedVoids, voidRatio } from '../../science/skeleton.js';
import { isAggregate } from '../numbers.js';
import type { Grams, World } from '../world.js';

export interface Skeleton {
  /** cm³ of grains that form the skeleton. */
  readonly grains: number;
  /** cm³ of voids a cm³ of grains leaves between itself. */
  readonly voidRatio: number;
}

/**
 * Voids of the sands and light aggregates together. Gradings are packed by the compressible packing model, so that a fine
 * sand fills the holes of a coarse one; what has no grading keeps its own loose voids (on the safe side).
 */
export function skeletonOf({ materials }: World, grams: Grams): Skeleton {
  let grains = 0;
  let holes = 0;
  const graded: { readonly volume: number; readonly grains: Grains; readonly voids: number }[] = [];
  for (let i = 0; i < materials.length; i++) {
    const m = materials[i]!;
    if (grams[i] === 0 || !isAggregate(m)) continue;
    const volume = grams[i]! * m.grainVolume;
    grains += volume;
    if (m.grains === null) holes += volume * voidRatio(m.voids);
    else graded.push({ volume, grains: m.grains, voids: m.voids });
  }
  if (grains <= 0) return { grains: 0, voidRatio: 0 };
  const packed = graded.reduce((total, { volume }) => total + volume, 0);
  const voids = graded.length === 1 ? graded[0]!.voids : mixedVoids(graded);
  return { grains, voidRatio: (holes + (voids === null ? 0 : packed * voidRatio(voids))) / grains };
}
