import { PROPERTIES, WEIGHT_DAYS, WEIGHT_ON_DAY } from '../blend/properties/index.js';
import { nearestWord } from '../problems/nearest.js';
import type { Problem } from '../problems/problem.js';

const IDS = PROPERTIES.map((p) => p.id);

/** The names properties are printed by, each with its id; brackets left out, so that a formula inside is a word too. */
export const PROPERTY_NAMES: ReadonlyMap<string, string> = new Map(
  PROPERTIES.map(({ id, name }) => [name.replace(/[()]/g, ''), id]),
);

const idOf = (word: string): string => PROPERTY_NAMES.get(word) ?? word;

/**
 * What to tell of a word that is no property's id, nor one of `others`: the one that was meant by its own or its printed
 * name, and a property sooner than what else holds the word; the range of days where a weight on a day is meant, as the
 * reader of files tells it; or what is expected, where none is near.
 */
export function meantPropertyId(
  word: string,
  expected = 'a property; “pourwright why” lists them all',
  others: readonly string[] = [],
): Pick<Problem, 'expected' | 'nearest'> {
  const own = [...IDS, ...PROPERTY_NAMES.keys()];
  const nearest = nearestWord(word, [...own, ...others], idOf) ?? nearestWord(word, own, idOf);
  if (nearest === undefined) return { expected };
  return WEIGHT_ON_DAY.test(nearest) ? { expected: WEIGHT_DAYS } : { nearest: idOf(nearest) };
}
