import { PROPERTIES } from '../blend/properties/index.js';
import { meantProperty } from '../blend/properties/unknown.js';
import type { Problem } from '../problems/problem.js';

/** The names properties are printed by, each with its id; brackets left out, so that a formula inside is a word too. */
export const PROPERTY_NAMES: ReadonlyMap<string, string> = new Map(
  PROPERTIES.map(({ id, name }) => [name.replace(/[()]/g, ''), id]),
);

/** What to tell of a word that is no property's id: the one that was meant by its own or its printed name, else where all are. */
export function meantPropertyId(word: string): Pick<Problem, 'expected' | 'nearest'> {
  const words = [...PROPERTIES.map((p) => p.id), ...PROPERTY_NAMES.keys()];
  const meant = meantProperty(word, words, 'a property; “pourwright why” lists them all');
  const { nearest } = meant;
  return typeof nearest === 'string' ? { ...meant, nearest: PROPERTY_NAMES.get(nearest) ?? nearest } : meant;
}
