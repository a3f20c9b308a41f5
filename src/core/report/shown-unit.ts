import type { Quantity } from '../blend/property.js';
import { lastPlace, type UnitSystem } from '../units/print.js';
import { convert } from '../units/quantity.js';
import { KIND_INFO, type QuantityKind } from '../units/vocabulary.js';

/** Properties that US units change, temperatures apart. */
export const SHOWN_KINDS: Partial<Record<Quantity, QuantityKind>> = {
  mass: 'mass',
  volume: 'volume',
  density: 'density',
  strength: 'pressure',
};

/** °F in a °C of difference. */
const FAHRENHEIT = 1.8;

/**
 * How many of the unit a property is shown in make one of its core unit, at this size; of a difference where it is a
 * temperature. Metric has powers of ten of the core units, which is all the same to figures and round numbers: 1.
 */
export function perCoreUnit(quantity: Quantity, size: number, system: UnitSystem): number {
  if (system === 'metric') return 1;
  if (quantity === 'temperature') return FAHRENHEIT;
  const kind = SHOWN_KINDS[quantity];
  return kind === undefined ? 1 : convert(1, KIND_INFO[kind].core, lastPlace(size, kind, { system }).unit);
}

/** A value in the unit it is shown in and back, for what is to be round there; temperatures with their offset. */
export function shownUnit(
  quantity: Quantity,
  size: number,
  system: UnitSystem,
): { readonly to: (value: number) => number; readonly from: (shown: number) => number } {
  if (quantity === 'temperature' && system === 'us')
    return { to: (value) => convert(value, '°C', '°F'), from: (shown) => convert(shown, '°F', '°C') };
  const per = perCoreUnit(quantity, size, system);
  return { to: (value) => value * per, from: (shown) => shown / per };
}
