import { clamp, positive } from './guard.js';

/**
 * Fuller-Thompson curve [percent passing]. P = 100 (d/D)^n.
 *
 * size d, largest D [mm, > 0]; exponent n 0.5 (0.45: the maximum density line of the 0.45 power chart; 0.3-0.6 used).
 * Above D it is 100. It includes the powders: a sand alone is drier than it. Source: washington-vsl, fuller-1907.
 */
export const fuller = (size: number, largest: number, exponent = 0.5): number =>
  100 * clamp(positive(size, 'size') / positive(largest, 'largest'), 0, 1) ** exponent;

/** Andreasen's curve [percent passing]. P = 100 (d/D)^q, q 0.37 for densest; all sizes down to nothing. */
export const andreasen = (size: number, largest: number, q = 0.37): number => fuller(size, largest, q);

/**
 * Funk-Dinger (modified Andreasen) curve [percent passing]. P = 100 (d^q - d_min^q) / (D^q - d_min^q).
 *
 * size d, smallest d_min < largest D [one unit]; q 0.22-0.25 when rich in powder, to 0.37 for coarse. Outside d_min..D
 * it is 0 or 100. Validity: all solids, powders included, by volume. Source: funk-dinger-1994, form from memory; q
 * values looked up (hindawi-ace-2022: 0.20-0.25).
 */
export function funkDinger(size: number, smallest: number, largest: number, q: number): number {
  if (!(positive(smallest, 'smallest') < largest)) throw new RangeError('smallest must be below largest');
  const d = clamp(positive(size, 'size'), smallest, largest);
  return (100 * (d ** q - smallest ** q)) / (largest ** q - smallest ** q);
}
