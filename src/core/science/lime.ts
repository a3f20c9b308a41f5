import { MOLAR_MASSES } from './stoichiometry.js';

/**
 * pH of saturated lime water [-]. 12.45 at 25 °C, -0.033 per °C.
 *
 * celsius [°C]. Validity: about 0-60 °C, straight line through 25 °C. Tap water and carbonation lower it.
 * Diluted 1:1 it falls by only 0.28: alkaline water from fresh cement stays caustic.
 * Source: bates-1956 (abstract, looked up). 20 °C by the line: 12.62.
 */
export const saturatedLimePh = (celsius: number): number =>
  SATURATED_LIME.ph25 + SATURATED_LIME.phPerDegree * (celsius - 25);

/** Saturated calcium hydroxide at 25 °C. Source: bates-1956 (abstract, looked up). */
export const SATURATED_LIME = {
  ph25: 12.45,
  phPerDegree: -0.033,
  /** pH change on dilution with an equal volume of water. */
  dilution: -0.28,
  /** mol/L. */
  molarity: 0.0203,
} as const;

/** Slaked lime a litre of water dissolves at 25 °C [g/L]: molarity x M(Ca(OH)2) = 1.504. Source: bates-1956. */
export const limeSolubility25 = (): number => SATURATED_LIME.molarity * MOLAR_MASSES.slakedLime;
