/**
 * Units printed in the published examples, each as what one of them is in core units (g, cm3, MPa, J, fractions).
 * Written anew here from NIST Handbook 44 Appendix C and exact definitions, so that the oracles do not lean on src/core/units.
 */
const POUND = 453.59237;
const FOOT3 = 30.48 ** 3;
const CALORIE = 4.184;

export const IN_CORE_UNITS: Readonly<Record<string, number>> = {
  '-': 1,
  g: 1,
  kg: 1000,
  lb: POUND,
  cm3: 1,
  L: 1000,
  m3: 1e6,
  ft3: FOOT3,
  yd3: 27 * FOOT3,
  gal: 3785.411784,
  'g/cm3': 1,
  'kg/m3': 1e-3,
  'lb/ft3': POUND / FOOT3,
  /** Core keeps fractions. */
  percent: 0.01,
  /** For the few functions whose result is in percent because the trade writes it so (oxides, sieves, SO3). */
  'percent by mass': 1,
  'percent passing': 1,
  'g/g': 1,
  days: 1,
  'cm3/g': 1,
  'g/mol': 1,
  'mol/L': 1,
  'g/L': 1,
  MPa: 1,
  psi: 0.006894757293168361,
  'kgf/cm2': 0.0980665,
  'J/g': 1,
  'cal/g': CALORIE,
  'kJ/mol': 1,
  'cal/(g K)': CALORIE,
  K: 1,
  '°C': 1,
  min: 1,
  h: 1,
  packs: 1,
  currency: 1,
  /** Of cement, and of sand as a cart brings it: any mass does, so long as its price is per the same. */
  barrel: 380 * POUND,
  load: 2430 * POUND,
  'currency/barrel': 1 / (380 * POUND),
  'currency/load': 1 / (2430 * POUND),
  'kg/(m2 h)': 1,
  'lb/(ft2 h)': POUND / 1000 / (0.3048 * 0.3048),
};

/** Factor of a unit. @throws RangeError on a unit no oracle has used yet. */
export function factorOf(unit: string): number {
  const factor = IN_CORE_UNITS[unit];
  if (factor === undefined) throw new RangeError(`oracle unit "${unit}" is not in test/oracles/units.ts`);
  return factor;
}
