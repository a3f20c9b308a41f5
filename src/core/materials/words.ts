/** The families of things on a maker's shelf. */
export const KINDS = [
  'cement',
  'gypsum',
  'lime',
  'pozzolan',
  'filler',
  'sand',
  'light-aggregate',
  'admixture',
  'polymer',
  'pigment',
  'fibre',
  'water',
] as const;

export type Kind = (typeof KINDS)[number];

/** What makes a binder set. Setting, strength, water and heat models are chosen by it. */
export const BINDER_FAMILIES = ['portland', 'csa', 'aluminate', 'gypsum', 'lime', 'natural-hydraulic-lime'] as const;

export type BinderFamily = (typeof BINDER_FAMILIES)[number];

export const SERVICES = ['dry-indoor', 'damp', 'wet', 'warm'] as const;

export type Service = (typeof SERVICES)[number];

/**
 * What a dose or an effect is a percent of, by mass. `binder` is all cement, gypsum, lime and pozzolan. The percent
 * counts the solids of a liquid, so that emulsions of different strength compare.
 */
export const DOSE_BASES = ['binder', 'cement', 'gypsum', 'portland', 'csa', 'aluminate', 'lime', 'dry-blend'] as const;

export type DoseBasis = (typeof DOSE_BASES)[number];

/** How a figure was come by. `ours` is a judgement of this project; `from-memory` was recalled, not looked up. */
export const STATUSES = ['looked-up', 'from-memory', 'common-practice', 'computed', 'ours'] as const;

/** Units a figure may carry. They are fixed per field (see schema.ts), and spelled out so that a row reads alone. */
export const FIGURE_UNITS = [
  'g/cm3',
  'g/g',
  'percent',
  'm2/kg',
  'min',
  'h',
  'J/g',
  'J/(g K)',
  'mm',
  'ln per percent',
  'fraction per percent',
  'percent per percent',
  'fraction',
  'MPa',
  'days',
  'months',
  'factor',
  'kJ/mol',
  'cm',
  'W/(m K)',
  'W/(m2 K)',
] as const;

export type FigureUnit = (typeof FIGURE_UNITS)[number];
