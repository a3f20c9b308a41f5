import { atLeast, positive } from './guard.js';

/**
 * Packing density of a powder by Puntke's test [0..1]. phi = V_p/(V_p + V_w).
 *
 * powder [g]; density [g/cm3]; water [g that just makes the surface gleam]; waterDensity [g/cm3].
 * Trapped air is not counted, so it reads slightly high. Source: icjonline-2026 p. 8 (test, looked up), form from memory.
 */
export function puntkePacking(powder: number, density: number, water: number, waterDensity: number): number {
  const solids = atLeast(0, powder, 'powder') / positive(density, 'density');
  return solids / positive(solids + water / positive(waterDensity, 'waterDensity'), 'volume');
}

/**
 * Relative flow area of a spread [-]. G = (d/d0)^2 - 1. spread d, cone d0 [same unit, d0 100 mm].
 * Source: okamura (from memory), hunger-brouwers-2009 compares the tests.
 */
export const relativeFlowArea = (spread: number, cone = 100): number => (spread / positive(cone, 'cone')) ** 2 - 1;

export interface SpreadLine {
  /** Water/powder by volume at which the paste only just does not flow, beta_p. */
  readonly retained: number;
  /** Water/powder by volume per unit of relative flow area, E_p. */
  readonly deformation: number;
}

/**
 * Line through spread tests: V_w/V_p = E_p G + beta_p, by least squares.
 * tests [at least two with different spreads]: waterPowder [cm3/cm3], spread [mm]. Source: okamura (from memory).
 */
export function spreadLine(tests: readonly { waterPowder: number; spread: number }[], cone = 100): SpreadLine {
  const g = tests.map((t) => relativeFlowArea(t.spread, cone));
  const meanG = g.reduce((a, b) => a + b, 0) / tests.length;
  const meanW = tests.reduce((a, t) => a + t.waterPowder, 0) / tests.length;
  let top = 0;
  let bottom = 0;
  tests.forEach((t, i) => {
    top += (g[i]! - meanG) * (t.waterPowder - meanW);
    bottom += (g[i]! - meanG) ** 2;
  });
  const deformation = top / positive(bottom, 'spread of the tests');
  return { deformation, retained: meanW - deformation * meanG };
}
