import { atLeast, positive } from './guard.js';

export interface EmulsionDose {
  /** g of emulsion to weigh out. */
  readonly emulsion: number;
  /** g of water it brings. */
  readonly water: number;
}

/**
 * Emulsion that brings a wanted share of polymer solids [g].
 *
 *   emulsion = (P/C) c / s;   water in it = emulsion (1 - s)
 *
 * cement c [g]; polymerToCement P/C [g solids per g cement, usual 0.05-0.20]; solids s [0..1 of the emulsion, > 0].
 * Source: aci-548 definitions (from memory).
 */
export function emulsionDose(cement: number, polymerToCement: number, solids: number): EmulsionDose {
  const emulsion =
    (atLeast(0, cement, 'cement') * atLeast(0, polymerToCement, 'polymerToCement')) / positive(solids, 'solids');
  return { emulsion, water: liquidWater(emulsion, solids) };
}

/** Water in a liquid admixture or emulsion [g]: dose (1 - solids). dose [g]; solids [0..1]. Source: aci-548. */
export const liquidWater = (dose: number, solids: number): number => atLeast(0, dose, 'dose') * (1 - solids);

/**
 * Water still to add [g] when liquids bring some: w/c x c - sum of their water. Negative: the liquids alone are too much.
 * Source: aci-548 (water in latex counts).
 */
export const waterToAdd = (cement: number, waterToCement: number, brought: number): number =>
  waterToCement * atLeast(0, cement, 'cement') - brought;
