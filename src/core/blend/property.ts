import { heldExp } from './held-exp.js';
import type { BlendState } from './state/state.js';
import { dot, type Grams, type World } from './world.js';

/** A monotone function between the ratio of two linear forms and the property, with its inverse. */
export interface Link {
  readonly of: (ratio: number) => number;
  /** Inverse; -Infinity or Infinity where the property cannot go that far. */
  readonly inverse: (value: number) => number;
  /** False where the property falls as the ratio rises. */
  readonly rising: boolean;
}

export const IDENTITY: Link = { of: (x) => x, inverse: (y) => y, rising: true };
/** For water over something: grains that drink more than there is leave none of it, and not less than none. */
export const FROM_NOTHING: Link = {
  of: (x) => Math.max(0, x),
  inverse: (y) => (y < 0 ? Number.NEGATIVE_INFINITY : y),
  rising: true,
};
export const EXPONENTIAL: Link = {
  of: heldExp,
  inverse: (y) => (y > 0 ? Math.log(y) : Number.NEGATIVE_INFINITY),
  rising: true,
};
/** For times that are a fixed share of an exponential one. */
export const scaledExponential = (share: number): Link => ({
  of: (x) => share * heldExp(x),
  inverse: (y) => (y > 0 ? Math.log(y / share) : Number.NEGATIVE_INFINITY),
  rising: true,
});

/** value = link( (numerator . grams + constant) / (denominator . grams) ); a null denominator is 1. */
export interface Form {
  readonly numerator: readonly number[];
  readonly constant?: number | undefined;
  readonly denominator: readonly number[] | null;
  readonly link: Link;
}

/** What a number is, so that it can be parsed, printed and compared: see units/. */
export type Quantity =
  | 'mass'
  | 'volume'
  | 'density'
  | 'ratio'
  | 'percent'
  | 'set-time'
  | 'days'
  | 'strength'
  | 'temperature'
  | 'money';

/**
 * A property of a blend is one object. The forward model evaluates it, and the optimiser's rows, the verdicts, the
 * frontier and `why` are all derived from it.
 */
export interface Property {
  /** Stable: scripts rely on it. */
  readonly id: string;
  readonly name: string;
  readonly quantity: Quantity;
  /** Unit of the number in JSON: always the core unit. */
  readonly unit: string;
  /** One line for the maker: what it tells. */
  readonly meaning: string;
  /** What the number rests on, one line. */
  readonly restsOn: string;
  /** Ids of the models in science/provenance.ts. */
  readonly models: readonly string[];
  /** Digits worth printing (significant). */
  readonly digits: number;
  /** True when the coefficients do not depend on the blend, so that rows on it are exact. */
  readonly stateless?: true;
  /** True when the coefficients are slopes at the blend already: those of N and D themselves, not of either held as it is. */
  readonly sloped?: true;
  /** True for what every piece must have: a blend without it meets no limit on it. */
  readonly needed?: true;
  /** Whether a blend lacks the property because it is put off for ever: that keeps any least of it. */
  readonly endless?: (world: World, state: BlendState) => boolean;
  /** Why the property cannot be had for this blend, or null when it can. */
  readonly missing?: (world: World, state: BlendState) => string | null;
  readonly form: (world: World, state: BlendState) => Form;
}

/** The ratio a form stands at; NaN where its denominator is zero. */
export function ratioOf(form: Form, grams: Grams): number {
  const n = dot(form.numerator, grams) + (form.constant ?? 0);
  if (form.denominator === null) return n;
  const d = dot(form.denominator, grams);
  return d > 0 ? n / d : Number.NaN;
}

export interface PropertyValue {
  readonly id: string;
  /** null when the blend has no such property; `why` then says why. */
  readonly value: number | null;
  readonly why?: string;
}

/** Evaluates one property of a blend whose state is known. */
export function propertyValue(property: Property, world: World, state: BlendState): PropertyValue {
  const why = property.missing?.(world, state) ?? null;
  if (why !== null) return { id: property.id, value: null, why };
  const form = property.form(world, state);
  const ratio = ratioOf(form, state.grams);
  const value = Number.isNaN(ratio) ? ratio : form.link.of(ratio);
  if (!Number.isFinite(value)) return { id: property.id, value: null, why: 'nothing in the blend to take it from' };
  return { id: property.id, value };
}
