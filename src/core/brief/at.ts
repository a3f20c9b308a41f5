import type { Where } from '../problems/problem.js';
import type { Located } from '../reading/located.js';

/** Looks up the place of a field by its dotted path. */
export type At = (path: string) => Where;

/** Places in a file that was read with its lines; digits are list indexes. */
export const placesOf = (located: Located): At => (path) =>
  located.where(path.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step)));
