import { isFree } from '../brief/play.js';
import type { Shelf } from '../brief/shelf.js';
import type { Material } from '../materials/schema.js';
import type { Problem } from '../problems/problem.js';

/**
 * A note on materials that a proposal uses and the maker's price list does not name: most likely they are not at hand. None
 * where there is no price list.
 */
export function unlistedNote(materials: readonly Material[], shelf: Shelf): Problem[] {
  if (shelf.prices.size === 0) return [];
  const unlisted = materials.filter((m) => !isFree(m) && !shelf.prices.has(m.id));
  if (unlisted.length === 0) return [];
  return [
    {
      code: 'price-unlisted',
      severity: 'note',
      found: unlisted.map((m) => m.name).join(', '),
      hint: 'to stay with what you have, name it under “materials: only”, or set a limit on cost: then only what has a price is used',
    },
  ];
}
