import type { Material } from '../materials/schema.js';
import type { Region } from '../safety/caution.js';
import { type BlendPart, blendFacts } from '../safety/facts.js';
import { stopsOf } from '../safety/stops.js';
import type { Setting } from './read-setting.js';

/** Why a material is no choice for a piece of this use: a caution would say stop; null where none would. */
export type Stopped = (material: Material) => string | null;

/**
 * What the caution rules say to each material by itself. Where the use alone is stopped, whatever the piece is made of,
 * no other material would help, and none is left out for it.
 */
export function stoppedIn(safety: Setting['safety'], region: Region): Stopped {
  const stops = (parts: readonly BlendPart[]): string[] => stopsOf(blendFacts(parts, safety), region);
  if (stops([]).length > 0) return () => null;
  return (material) => {
    const [title] = stops([{ material, grams: 1 }]);
    return title === undefined ? null : `its caution says stop: ${title}`;
  };
}
