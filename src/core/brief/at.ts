import type { Where } from '../problems/problem.js';

/** Looks up the place of a field by its dotted path (see reading/located.ts). */
export type At = (path: string) => Where;
