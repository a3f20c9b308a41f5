/**
 * Checks of arguments. A science function clamps or reports what lies outside the range its source measured, but an
 * argument that means nothing (a negative mass, NaN) is a mistake of the caller and throws a RangeError.
 */

/** Returns the value. @throws RangeError when it is not a finite number of at least `least`. */
export function atLeast(least: number, value: number, name: string): number {
  if (!(Number.isFinite(value) && value >= least)) throw new RangeError(`${name} is ${value}, expected >= ${least}`);
  return value;
}

/** Returns the value. @throws RangeError when it is not a finite number above zero. */
export function positive(value: number, name: string): number {
  if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`${name} is ${value}, expected > 0`);
  return value;
}

/** Returns the value. @throws RangeError when it lies outside 0..1. */
export function fraction(value: number, name: string): number {
  if (!(value >= 0 && value <= 1)) throw new RangeError(`${name} is ${value}, expected 0..1`);
  return value;
}

/** The value [its own unit], moved to the nearest end when it lies outside low..high. */
export const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
