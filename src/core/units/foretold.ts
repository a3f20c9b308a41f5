import { printQuantity, type UnitSystem } from './print.js';
import { convert } from './quantity.js';

/** A year in the core unit of each kind. */
const YEAR = { time: 24 * 365, setTime: 60 * 24 * 365 } as const;

/** What is told of a time beyond it. */
export const OVER_A_YEAR = 'over a year';

/** Whether a foretold time [h for time, min for setTime] is beyond what is told. */
export const isOverAYear = (value: number, kind: keyof typeof YEAR): boolean => value > YEAR[kind];

/**
 * A foretold time [h for time, min for setTime] in words. Beyond a year the figure tells a maker nothing but that; what a
 * maker wrote or measured is printed as it is (printQuantity).
 */
export const printForetold = (value: number, kind: keyof typeof YEAR): string =>
  isOverAYear(value, kind) ? OVER_A_YEAR : printQuantity(value, kind);

/**
 * MPa that no cast of a maker's bench reaches: the strongest concretes stay at about 200 even under heat and pressure, and
 * beyond it a figure is a law stretched too far. Common practice, no source.
 */
const STRONGEST = 200;
const OVER = { metric: `over ${STRONGEST} MPa`, us: 'over 29000 psi' } as const;

/** A foretold strength [MPa] to so many significant figures, counted in the unit it is told in. */
export function printStrength(value: number, digits: number, system: UnitSystem): string {
  if (Number(value.toPrecision(digits)) > STRONGEST) return OVER[system];
  const unit = system === 'us' ? 'psi' : 'MPa';
  const known = Number(convert(value, 'MPa', unit).toPrecision(digits));
  return printQuantity(convert(known, unit, 'MPa'), 'pressure', { system });
}
