import type { Conditions } from '../blend/conditions.js';
import type { WorldInput } from '../blend/world.js';
import type { Material } from '../materials/schema.js';
import type { Shelf } from './shelf.js';

/** Materials of a shelf under conditions, with all that the shelf knows of them. */
export const worldInput = <C extends Conditions>(
  shelf: Shelf,
  materials: readonly Material[],
  conditions: C,
): WorldInput & { readonly conditions: C } => ({
  materials,
  figures: shelf.figures,
  conditions,
  prices: shelf.prices,
  ...(shelf.learned === null ? {} : { together: shelf.learned.together }),
});
