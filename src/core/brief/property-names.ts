import { PROPERTIES } from '../blend/properties/index.js';
import { meantProperty } from '../blend/properties/unknown.js';
import type { Problem } from '../problems/problem.js';

/** The names properties are printed by, each with its id; brackets left out, so that a formula inside is a word too. */
export const PROPERTY_NAMES: ReadonlyMap<string, string> = new Map(
  PROPERTIES.map(({ id, name }) => [name.replace(/[()]/g, ''), id]),
);

/** What to tell of a word that is no property's id: the ids, and the one that was meant by its own or its printed name. */
export function meantPropertyId(word: string): Pick<Problem, 'expected' | 'nearest'> {
  const ids = PROPERTIES.map((p) => p.id);
  const meant = meantProperty(word, [...ids, ...PROPERTY_NAMES.keys()], ids.join(', '));
  const { nearest } = meant;
  return typeof nearest === 'string' ? { ...meant, nearest: PROPERTY_NAMES.get(nearest) ?? nearest } : meant;
}
