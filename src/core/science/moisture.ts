import { atLeast } from './guard.js';

/**
 * Water states of an aggregate. Absorption and total moisture are fractions of the OVEN-DRY mass; free (surface)
 * moisture is a fraction of the SATURATED SURFACE-DRY mass. Source: aci-211 and c70 definitions (from memory);
 * free-moisture convention as worked in army-en5466.
 */

/** Saturated surface-dry mass [g] of an oven-dry mass: m (1 + absorption). */
export const saturatedMass = (ovenDry: number, absorption: number): number =>
  atLeast(0, ovenDry, 'ovenDry') * (1 + atLeast(0, absorption, 'absorption'));

/** Mass as it lies on the shelf [g] of an oven-dry mass: m (1 + moisture). */
export const stockMass = (ovenDry: number, moisture: number): number =>
  atLeast(0, ovenDry, 'ovenDry') * (1 + atLeast(0, moisture, 'moisture'));

/** Oven-dry mass [g] of what was weighed damp: m / (1 + moisture). */
export const ovenDryMass = (stock: number, moisture: number): number =>
  atLeast(0, stock, 'stock') / (1 + atLeast(0, moisture, 'moisture'));

/**
 * Water an aggregate gives to the mix (positive) or drinks from it (negative) [g]. m_dry (moisture - absorption).
 * ovenDry [g]; moisture, absorption [fractions of the oven-dry mass].
 * Validity: enough time to soak; light aggregates drink for hours and never reach full absorption in the bowl.
 */
export const freeWater = (ovenDry: number, moisture: number, absorption: number): number =>
  atLeast(0, ovenDry, 'ovenDry') * (atLeast(0, moisture, 'moisture') - atLeast(0, absorption, 'absorption'));

/** Aggregate of a mix design: saturated surface-dry grams and its surface moisture as a fraction of them. */
export interface DampAggregate {
  readonly saturated: number;
  readonly surfaceMoisture: number;
}

export interface MoistureCorrection {
  /** g of each aggregate to weigh out damp. */
  readonly weighOut: readonly number[];
  /** g of water that comes along on their surfaces. */
  readonly carried: number;
  /** g of water still to add; negative when the aggregates bring more than the design wants. */
  readonly waterToAdd: number;
}

/**
 * Corrects a saturated surface-dry mix design for damp aggregates [g]. Damp mass = m_ssd (1 + f); the water m_ssd f
 * comes off the mixing water. A wet aggregate is weighed out HEAVIER (a published card has it lighter).
 * Source: army-en5466 (100.34 lb carried of 38.6 gal leaves 26.6 gal to add).
 */
export function correctForMoisture(designWater: number, aggregates: readonly DampAggregate[]): MoistureCorrection {
  let carried = 0;
  const weighOut = aggregates.map(({ saturated, surfaceMoisture }) => {
    carried += saturated * surfaceMoisture;
    return saturated * (1 + surfaceMoisture);
  });
  return { weighOut, carried, waterToAdd: designWater - carried };
}
