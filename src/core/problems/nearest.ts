import { distance } from 'fastest-levenshtein';

/** Words longer than this are not typing slips of anything. */
export const LONGEST_WORD = 60;

/** Case, hyphens, underscores and spaces at the ends do not count. */
export const tidied = (word: string): string =>
  word
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');

const sortedTokens = (word: string): string => word.split(' ').sort().join(' ');

const sortedLetters = (word: string): string => [...word].sort().join('');

/** Letters changed, added or left out; letters in the wrong order count as one slip, words in another order as none. */
export function slips(sought: string, allowed: string): number {
  const steps = Math.min(distance(sought, allowed), distance(sortedTokens(sought), sortedTokens(allowed)));
  return steps === 2 && sortedLetters(sought) === sortedLetters(allowed) ? 1 : steps;
}

/** One slip in a short word, up to a third of a long one; more than that is a guess and not a near miss. */
export const cutOff = (word: string): number => Math.max(1, Math.floor(word.length / 3));

/** In so short a word a letter changed for another makes another word: "UK" is no slip of "US". */
const anotherWord = (sought: string, allowed: string): boolean =>
  sought.length === 2 && allowed.length === 2 && sortedLetters(sought) !== sortedLetters(allowed);

/** Whether a word of three letters or more is one whole part of another; both tidied. */
const isPart = (sought: string, allowed: string): boolean => sought.length >= 3 && allowed.split(' ').includes(sought);

/** The allowed words that hold a word as a whole part: all the weights for "weight". */
export const holdingWord = (word: string, allowed: readonly string[]): readonly string[] =>
  allowed.filter((candidate) => isPart(tidied(word), tidied(candidate)));

/**
 * The allowed word a maker most likely meant, or undefined when none is near.
 *
 * Case, hyphens, underscores and word order do not count. A word that is one whole part of a single allowed word
 * ("fume" in "silica-fume") counts as near; if several hold it that do not mean the same, none is suggested.
 */
export function nearestWord(
  word: string,
  allowed: Iterable<string>,
  meaning: (allowed: string) => string = (same) => same,
): string | undefined {
  const sought = tidied(word);
  if (sought === '' || sought.length > LONGEST_WORD) return undefined;
  let best: string | undefined;
  let bestDistance = Number.POSITIVE_INFINITY;
  const holding: string[] = [];
  for (const candidate of allowed) {
    const plain = tidied(candidate);
    const steps = slips(sought, plain);
    if (steps < bestDistance && !anotherWord(sought, plain)) {
      best = candidate;
      bestDistance = steps;
    }
    if (isPart(sought, plain)) holding.push(candidate);
  }
  // A one-letter word turns into any other one-letter word in one step.
  if (best !== undefined && bestDistance <= cutOff(sought) && bestDistance < sought.length) return best;
  return new Set(holding.map(meaning)).size === 1 ? holding[0] : undefined;
}
