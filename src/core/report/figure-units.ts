import type { FigureUnit } from '../materials/words.js';
import type { UnitSystem } from '../units/print.js';
import { convert } from '../units/quantity.js';

/** What makers weigh and measure; heats, conductances and activation energies keep the units of their science. */
const US: Partial<Record<FigureUnit, string>> = { 'g/cm3': 'lb/ft3', MPa: 'psi', mm: 'in', cm: 'in' };

/** The unit that a figure of the table is shown in, and what its value is there. */
export function figureIn(
  unit: FigureUnit,
  system: UnitSystem,
): { readonly unit: string; readonly of: (value: number) => number } {
  if (system === 'us' && unit === 'g/g') return { unit: 'lb/lb', of: (value) => value };
  const us = system === 'us' ? US[unit] : undefined;
  return us === undefined ? { unit, of: (value) => value } : { unit: us, of: (value) => convert(value, unit, us) };
}
