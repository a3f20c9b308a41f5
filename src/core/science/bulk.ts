import { atLeast, clamp, positive } from './guard.js';

/**
 * Voids between the grains of a loose or rodded aggregate [fraction of the bulk volume]. e = 1 - bulk/particle.
 *
 * bulk [g/cm3, oven-dry, > 0]; particle [g/cm3, oven-dry bulk specific gravity times water density, > bulk].
 * Clamped to 0..1: a bulk density over the particle density is a typing error upstream.
 * Source: c29, clause on void content.
 */
export function voidContent(bulk: number, particle: number): number {
  return clamp(1 - atLeast(0, bulk, 'bulk') / positive(particle, 'particle'), 0, 1);
}

/** Bulk density that leaves the given voids [g/cm3]: particle (1 - e). Source: c29 turned round. */
export const bulkDensityFromVoids = (particle: number, voids: number): number =>
  positive(particle, 'particle') * (1 - clamp(voids, 0, 1));

/**
 * Voids from the water a measure of sand takes up [fraction]. e = (mass saturated - mass dry) / (measure x water density)
 * dry, filled [g in the measure]; measure [cm3]; water [g/cm3]. Trapped air makes it read low. Source: gluedideas-radford.
 */
export const voidContentByFlooding = (dry: number, filled: number, measure: number, water: number): number =>
  (filled - dry) / (positive(measure, 'measure') * positive(water, 'water'));

/**
 * Bulking of damp sand [fraction of the dry volume]: (damp height - flooded height) / flooded height.
 *
 * dampHeight, floodedHeight [same unit, > 0]. Flooded sand falls back to its dry volume, so the test needs no oven.
 * Usual 0.2-0.4 at 5-8 % moisture, more for fine sand. Source: civilease-bulking.
 */
export const bulking = (dampHeight: number, floodedHeight: number): number =>
  dampHeight / positive(floodedHeight, 'floodedHeight') - 1;

/** Volume of a mass as scooped [cm3]: m / loose bulk density. */
export const scoopVolume = (grams: number, bulkDensity: number): number => grams / positive(bulkDensity, 'bulkDensity');

/** Parts by volume that a ratio by mass means, for a pack of known mass and volume. */
export interface LooseRatio {
  /** cm3 of sand to one pack of cement. */
  readonly sand: number;
  /** Volumes of sand to one volume of cement. */
  readonly parts: number;
}

/**
 * A ratio by mass told in volumes. sand = ratio x pack / bulk density; parts = sand / pack volume.
 *
 * massRatio [g sand per g cement]; pack [g of cement]; packVolume [cm3 of it, as measured]; sandBulk [g/cm3, loose].
 * Validity: no better than the bulk densities: scooped cement varies by 20 %. Source: gillette-hill-1908.
 */
export function massRatioByVolume(massRatio: number, pack: number, packVolume: number, sandBulk: number): LooseRatio {
  const sand = scoopVolume(massRatio * pack, sandBulk);
  return { sand, parts: sand / positive(packVolume, 'packVolume') };
}

/**
 * Packs of cement in a volume of lean mortar, whose paste does not fill the voids [packs].
 *
 *   N = V / (1.1 n s);   1.1 read as the 10 % by which damp sand swells (our reading)
 *
 * volume [cm3 of mortar]; sandParts n [volumes of sand per volume of cement, >= 3]; pack s [cm3 of one pack of cement];
 * swell [1.1]. Validity: lean mixes from 1:3; reproduces the published columns to 0.6 %. For richer mixes use
 * absolute volumes. Source: gillette-hill-1908.
 */
export const leanMortarPacks = (volume: number, sandParts: number, pack: number, swell = 1.1): number =>
  volume / (swell * positive(sandParts, 'sandParts') * positive(pack, 'pack'));
