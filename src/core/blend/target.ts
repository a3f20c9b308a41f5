import type { Property } from './property.js';
import type { BlendState } from './state/state.js';
import { dot, type World } from './world.js';

/** A limit or window on a property, in its core unit. At least one side is given. */
export interface Target {
  /** Property id. */
  readonly property: string;
  readonly min?: number;
  readonly max?: number;
  /** Where the maker wrote it, for messages. */
  readonly path?: string;
}

export interface Verdict {
  readonly property: string;
  readonly min: number | null;
  readonly max: number | null;
  readonly value: number | null;
  /** Met by the central prediction; for a property the blend does not have, see `holdsWithout`. */
  readonly met: boolean;
  /** Distance to the nearer limit in the property's unit: positive inside, negative by how much it is missed. */
  readonly margin: number | null;
  /** Share of the draws that meet it, 0..1; null when no draws were made. */
  readonly chance: number | null;
}

/** Relative slack for arithmetic, far below any scale's step. */
const SLACK = 1e-9;

/** Signed distance to the nearer side of the window. */
export function marginOf(target: Target, value: number): number {
  const toMax = target.max === undefined ? Number.POSITIVE_INFINITY : target.max - value;
  const toMin = target.min === undefined ? Number.POSITIVE_INFINITY : value - target.min;
  return Math.min(toMax, toMin);
}

export function meets(target: Target, value: number): boolean {
  const size = Math.max(Math.abs(target.max ?? 0), Math.abs(target.min ?? 0), Math.abs(value));
  return marginOf(target, value) >= -SLACK * size;
}

/**
 * Whether a limit stands unbroken by a blend that lacks the property, such as "at least 0.25 of pozzolan to cement"
 * where there is no cement. It is judged as its row is, numerator against limit times denominator, so that forward
 * model and optimiser agree; a blend that lacks what every piece must have meets no limit on it, but where it only never
 * comes to it a least.
 */
export function holdsWithout(property: Property, target: Target, world: World, state: BlendState): boolean {
  if (target.min === undefined && target.max === undefined) return true;
  if (property.needed === true) return target.max === undefined && property.endless?.(world, state) === true;
  const { numerator, denominator, constant = 0, link } = property.form(world, state);
  const n = dot(numerator, state.grams) + constant;
  const d = denominator === null ? 1 : dot(denominator, state.grams);
  const over = (limit: number): number => n - link.inverse(limit) * d;
  const dust = SLACK * Math.max(Math.abs(n), Math.abs(d));
  const low = link.rising ? target.min : target.max;
  const high = link.rising ? target.max : target.min;
  return (high === undefined || over(high) <= dust) && (low === undefined || over(low) >= -dust);
}

/**
 * @param without whether the limit holds where there is no value (see `holdsWithout`); by default it does not.
 */
export function verdictOf(
  target: Target,
  value: number | null,
  sample: readonly (number | null)[] | null,
  without = false,
): Verdict {
  const meetsAt = (v: number | null): boolean => (v === null ? without : meets(target, v));
  return {
    property: target.property,
    min: target.min ?? null,
    max: target.max ?? null,
    value,
    met: meetsAt(value),
    margin: value === null ? null : marginOf(target, value),
    chance: sample === null || sample.length === 0 ? null : sample.filter(meetsAt).length / sample.length,
  };
}
