import type { Material } from '../materials/schema.js';
import { measuredDensity } from '../materials/table.js';

/** An amount by volume, with how far off a scoop can be. */
export interface Scooped {
  /** cm3 as measured out. */
  readonly cm3: number;
  /** Scoops: likely, and from the densest to the loosest filling. */
  readonly scoops: number;
  readonly least: number;
  readonly most: number;
  /** Largest share by which the central number of scoops can give too little or too much. */
  readonly error: number;
}

/** Below this a scoop tells nothing, so the amount is weighed whatever happens. */
export const LEAST_SCOOP = 0.25;

/**
 * Scoops of a volume that hold these grams; null where the density as measured out is not known.
 *
 * n scoops of a stuff of density d hold n d v grams, and d lies between low and high (table, loose as scooped). The error
 * is that of the mass really taken when the central number is scooped: d/d_low and d_high/d against 1.
 */
export function scooped(material: Material, grams: number, scoop: number): Scooped | null {
  const density = measuredDensity(material);
  if (density === undefined) return null;
  const { value, low, high } = density;
  return {
    cm3: grams / value,
    scoops: grams / value / scoop,
    least: grams / high / scoop,
    most: grams / low / scoop,
    error: Math.max(high / value - 1, 1 - low / value),
  };
}
