import type { Material } from '../materials/schema.js';
import type { Region } from '../safety/caution.js';
import { type BlendPart, blendFacts, type Use } from '../safety/facts.js';
import { stopsOf } from '../safety/stops.js';
import type { Setting } from './read-setting.js';

/** Why a material is no choice for a piece of this use: a caution would say stop; null where none would. */
export type Stopped = (material: Material) => string | null;

/**
 * What the caution rules say to each material by itself. A use that is stopped by itself, whatever the piece is made of, bars
 * no material, as no other would help there; what is stopped in the other uses is left out all the same.
 */
export function stoppedIn(safety: Setting['safety'], region: Region): Stopped {
  const stops = (parts: readonly BlendPart[], uses: readonly Use[]): string[] =>
    stopsOf(blendFacts(parts, { ...safety, uses }), region);
  const uses = (safety.uses ?? []).filter((use) => stops([], [use]).length === 0);
  return (material) => {
    const [title] = stops([{ material, grams: 1 }], uses);
    return title === undefined ? null : `its caution says stop: ${title}`;
  };
}
