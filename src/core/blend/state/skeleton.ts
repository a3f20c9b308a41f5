import { type Grains, grainsOf, mixedVoids, voidRatio } from '../../science/skeleton.js';
import { isAggregate, type MaterialNumbers } from '../numbers.js';
import { type Grams, sum, type World } from '../world.js';

export interface Skeleton {
  /** cm³ of grains that form the skeleton. */
  readonly grains: number;
  /** cm³ of voids a cm³ of grains leaves between itself. */
  readonly voidRatio: number;
}

/** Calibrated grains by material: a search packs the same sands thousands of times. */
const calibrated = new WeakMap<MaterialNumbers, Grains>();

function grainsIn(m: MaterialNumbers): Grains {
  const known = calibrated.get(m);
  if (known !== undefined) return known;
  const grains = grainsOf(m.grading!, m.voids);
  calibrated.set(m, grains);
  return grains;
}

/**
 * Voids of the sands and light aggregates together. Gradings are packed by the compressible packing model, so that a fine
 * sand fills the holes of a coarse one; what has no grading keeps its own loose voids (on the safe side).
 */
export function skeletonOf(world: World, grams: Grams): Skeleton {
  const grains = sum(world, grams, (m) => (isAggregate(m) ? m.grainVolume : 0));
  if (grains <= 0) return { grains: 0, voidRatio: 0 };
  const graded = world.materials.flatMap((m, i) =>
    isAggregate(m) && m.grading !== null && grams[i]! > 0 ? [{ volume: grams[i]! * m.grainVolume, m }] : [],
  );
  const own = sum(world, grams, (m) => (isAggregate(m) && m.grading === null ? m.grainVolume * voidRatio(m.voids) : 0));
  const packed =
    graded.length === 0
      ? 0
      : graded.length === 1
        ? graded[0]!.volume * voidRatio(graded[0]!.m.voids)
        : graded.reduce((s, a) => s + a.volume, 0) *
          voidRatio(mixedVoids(graded.map(({ volume, m }) => ({ volume, grains: grainsIn(m) })))!);
  return { grains, voidRatio: (own + packed) / grains };
}
