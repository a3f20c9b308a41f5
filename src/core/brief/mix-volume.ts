import { evaluate } from '../blend/assess.js';
import type { Conditions } from '../blend/conditions.js';
import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { worldOf } from '../blend/world.js';
import type { Part } from './read-amounts.js';
import type { Shelf } from './shelf.js';

/** cm³ of fresh mix that these weights make. */
export function mixVolume(parts: readonly Part[], shelf: Shelf, conditions: Conditions): number {
  const materials = parts.map((p) => p.material);
  const world = worldOf({ materials, figures: shelf.figures, conditions, prices: shelf.prices });
  return evaluate(
    world,
    parts.map((p) => p.grams),
  ).value(freshVolume)!;
}
