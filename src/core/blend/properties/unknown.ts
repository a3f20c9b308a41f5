import { nearestWord } from '../../problems/nearest.js';
import type { Problem } from '../../problems/problem.js';
import { WEIGHT_DAYS, WEIGHT_ON_DAY } from './index.js';

/**
 * What to tell of a word that is no property: the range of days where a weight on a day is meant, as the reader of files
 * tells it; else the nearest of `words`, and what would be one where none is near.
 */
export function meantProperty(
  word: string,
  words: readonly string[],
  expected: string,
): Pick<Problem, 'expected' | 'nearest'> {
  const nearest = nearestWord(word, words);
  if (nearest === undefined) return { expected };
  return WEIGHT_ON_DAY.test(nearest) ? { expected: WEIGHT_DAYS } : { nearest };
}
