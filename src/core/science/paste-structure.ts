import { atLeast, clamp, positive } from './guard.js';

/** Volume shares of hardened cement paste; they sum to 1. */
export interface PasteVolumes {
  /** Share of water in the fresh paste, p. */
  readonly initialWater: number;
  readonly chemicalShrinkage: number;
  readonly capillaryWater: number;
  readonly gelWater: number;
  readonly gelSolid: number;
  readonly cement: number;
}

/** Share of water in a fresh paste by volume, p [0..1]: (w/c) / (w/c + rho_w/rho_c). Source: jensen-hansen-2001. */
export function initialWaterShare(waterToCement: number, cementDensity = 3.15, water = 1): number {
  return waterToCement / (waterToCement + positive(water, 'water') / positive(cementDensity, 'cementDensity'));
}

/**
 * Highest degree of hydration the space and the water allow [0..1].
 *
 *   sealed:    p / (1.3 (1 - p)), until the capillary water is used up (w/c 0.41-0.42 for full hydration)
 *   saturated: p / (1.1 (1 - p)), until the gel fills all space (w/c 0.35-0.36)
 *
 * Source: jensen-hansen-2001 (from memory).
 */
export function degreeLimit(initialWater: number, curing: 'sealed' | 'saturated'): number {
  const p = clamp(initialWater, 0, 1);
  return p === 1 ? 1 : Math.min(1, p / ((curing === 'sealed' ? 1.3 : 1.1) * (1 - p)));
}

/**
 * Powers' volumes of a sealed portland paste [shares of the paste volume, sum 1].
 *
 *   p = (w/c) / (w/c + rho_w/rho_c)
 *   chemical shrinkage 0.20 (1-p) a;  capillary water p - 1.3 (1-p) a;  gel water 0.6 (1-p) a
 *   gel solid 1.5 (1-p) a;  unhydrated cement (1-p)(1-a)
 *
 * degree a [0..1; capped where the capillary water runs out]; waterToCement [g/g, > 0]; cementDensity [g/cm3];
 * water [g/cm3]. Validity: portland without silica fume, at rest, no bleeding.
 * Source: jensen-hansen-2001 (from memory; the sum is an identity).
 */
export function pasteVolumes(degree: number, waterToCement: number, cementDensity = 3.15, water = 1): PasteVolumes {
  const p = initialWaterShare(positive(waterToCement, 'waterToCement'), cementDensity, water);
  const a = clamp(degree, 0, degreeLimit(p, 'sealed'));
  const reacted = (1 - p) * a;
  return {
    initialWater: p,
    chemicalShrinkage: 0.2 * reacted,
    capillaryWater: p - 1.3 * reacted,
    gelWater: 0.6 * reacted,
    gelSolid: 1.5 * reacted,
    cement: (1 - p) * (1 - a),
  };
}

/**
 * Capillary pores per gram of cement [cm3/g]. w/c - 0.36 a, at least 0.
 * Source: powers, as in mindess; worked in aldusleaf-14853465 (looked up). A training card (brainscape-powers) has 0.38 for
 * full hydration, from other specific volumes.
 */
export const capillaryPoresPerGram = (degree: number, waterToCement: number): number =>
  Math.max(0, atLeast(0, waterToCement, 'waterToCement') - 0.36 * clamp(degree, 0, 1));

/**
 * Capillary porosity of the paste [fraction]. theta = 1 - (1 + 1.15 a)/(1 + 3.15 w/c), at least 0.
 *
 * Below about 0.20 (0.18-0.22) the capillaries no longer connect, and the paste hardly leaks.
 * Source: nist-garbocz-curing node 4, after Young and Hansen (looked up).
 */
export const capillaryPorosity = (degree: number, waterToCement: number): number =>
  Math.max(0, 1 - (1 + 1.15 * clamp(degree, 0, 1)) / (1 + 3.15 * positive(waterToCement, 'waterToCement')));

/** Capillary porosity at which the capillaries disconnect (0.18-0.22). Source: nist-garbocz-curing node 4. */
export const PERCOLATION_POROSITY = 0.2;

/**
 * Degree of hydration at which the capillaries disconnect [0..1], or null when this w/c never gets there.
 * Turned round from capillaryPorosity = 0.20. Above w/c 0.53 there is none.
 */
export function disconnectingDegree(waterToCement: number): number | null {
  const a = ((1 - PERCOLATION_POROSITY) * (1 + 3.15 * positive(waterToCement, 'waterToCement')) - 1) / 1.15;
  return a > 1 ? null : Math.max(0, a);
}

/**
 * Total porosity of set plaster [fraction]. 1 - dry density / 2.32.
 * dryDensity [g/cm3]; gypsum 2.32 [g/cm3, from memory]. Source: definition.
 */
export const gypsumPorosity = (dryDensity: number, gypsum = 2.32): number =>
  clamp(1 - atLeast(0, dryDensity, 'dryDensity') / positive(gypsum, 'gypsum'), 0, 1);
