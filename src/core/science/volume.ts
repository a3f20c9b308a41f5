import { atLeast, positive } from './guard.js';

/** Grams of a thing with its particle (or liquid) density in g/cm3. */
export interface Part {
  readonly grams: number;
  readonly density: number;
}

/**
 * Absolute (solid or liquid) volume of the parts [cm3]. V = sum of m/rho.
 *
 * Every liquid counts, admixtures too. Grams are in the state the density belongs to: dry mass with dry density, or
 * saturated surface-dry with saturated surface-dry; mixing the two is the usual slip in published examples.
 * Validity: no air, no reaction. Source: vdot-2011 ch. 3 p. 3-1; c138 clause on V. Errors: density <= 0 throws.
 */
export function absoluteVolume(parts: readonly Part[]): number {
  let volume = 0;
  for (const { grams, density } of parts) volume += grams / positive(density, 'density');
  return volume;
}

/** Mass of the parts [g]. */
export const totalMass = (parts: readonly Part[]): number => parts.reduce((sum, part) => sum + part.grams, 0);

/**
 * Volume of the fresh mix with its air [cm3]. V = V_absolute / (1 - a).
 *
 * absolute [cm3]; air [0..<1, share of the finished volume]. Source: identity, as used in navy-14071 and aci-211.
 */
export function freshVolume(absolute: number, air: number): number {
  if (!(air >= 0 && air < 1)) throw new RangeError(`air is ${air}, expected 0..<1`);
  return atLeast(0, absolute, 'absolute') / (1 - air);
}

/** Density of the mix without air, T [g/cm3]: total mass over absolute volume. Source: c138, theoretical density. */
export const airFreeDensity = (parts: readonly Part[]): number => totalMass(parts) / absoluteVolume(parts);

/**
 * Density of a fresh mix weighed in a measure [g/cm3]. D = (full - tare) / V.
 * full, tare [g]; measure [cm3, > 0]. Source: c138.
 */
export const measuredDensity = (full: number, tare: number, measure: number): number =>
  (full - tare) / positive(measure, 'measure');

/**
 * Yield: volume that a batch makes [cm3]. Y = M / D.
 * batchMass [g]; density [g/cm3, measured, > 0]. Source: c138.
 */
export const batchYield = (batchMass: number, density: number): number => batchMass / positive(density, 'density');

/**
 * Air content by weight [fraction of the mix]. A = (T - D) / T.
 *
 * airFree T [g/cm3, total mass / total ABSOLUTE volume]; measured D [g/cm3]. Zero when D = T. A small negative value
 * means that a density in the table is too low or the measure was overfilled; it is returned, not clamped.
 * Known slip: putting the volume of the measure in place of the absolute volume (one page prints 99 % air that way).
 * Source: c138; open-exam-prep 10.4.
 */
export const gravimetricAir = (airFree: number, measured: number): number =>
  (positive(airFree, 'airFree') - measured) / airFree;

/**
 * What is left for the last ingredient when a volume must be filled [g]: the absolute volume method.
 *
 *   m = rho (V (1 - a) - sum of m_i/rho_i)
 *
 * volume [cm3 of finished mix]; air [fraction of it]; parts = all other ingredients; density [g/cm3 of the last one].
 * Negative when the others already overfill the volume: the mix as asked does not exist.
 * Source: vdot-2011 ch. 3; aci-211 step 7 (fine aggregate).
 */
export function massToFill(volume: number, air: number, parts: readonly Part[], density: number): number {
  return positive(density, 'density') * (volume * (1 - air) - absoluteVolume(parts));
}
