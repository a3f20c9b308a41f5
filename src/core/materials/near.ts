import { cutOff, LONGEST_WORD, slips, tidied } from '../problems/nearest.js';
import type { Material } from './schema.js';

/** More than this is a list to read and no suggestion. */
const MOST_NAMED = 3;

export interface Near {
  /** Ids, the likeliest first; empty when nothing is near. */
  readonly ids: readonly string[];
  /** How many more are as near and not named. */
  readonly more: number;
}

/**
 * The materials a maker may have meant by a word that is none of theirs: first those that hold every part of it
 * ("portland", "fine sand", or their kind), then those whose id or words are a slip away, then those that hold it but for
 * a slip ("portlnd"). It only suggests: a guess would weigh out the wrong bag.
 */
export function nearMaterials(word: string, materials: readonly Material[], own: ReadonlySet<string>): Near {
  const sought = spelt(word);
  if (sought.length < 3 || sought.length > LONGEST_WORD) return { ids: [], more: 0 };
  const ways = [
    () => holding(sought, materials, (a, b) => a === b),
    () => slipsAway(sought, materials),
    () => holding(sought, materials, slipped),
  ];
  for (const way of ways) {
    const found = way();
    if (found.length === 0) continue;
    const ids = [...found.filter(({ id }) => own.has(id)), ...found.filter(({ id }) => !own.has(id))].map((m) => m.id);
    return { ids: ids.slice(0, MOST_NAMED), more: Math.max(0, ids.length - MOST_NAMED) };
  }
  return { ids: [], more: 0 };
}

/** Tidied, and with one spelling of what is spelt in two ways on either side of the ocean. */
const spelt = (word: string): string =>
  tidied(word.slice(0, 2 * LONGEST_WORD))
    .replace(/iz(er|ing|ed)\b/g, 'is$1')
    .replace(/\bfiber/g, 'fibre')
    .replace(/\bmold/g, 'mould')
    .replace(/sulph/g, 'sulf');

/** Another letter at the head of a short word makes another word: “rust” is no slip of “dust”. */
const anotherWord = (sought: string, part: string): boolean =>
  sought.length <= 4 && sought.length === part.length && sought[0] !== part[0];

/** One slip in a part of four letters or more, two in a long one. */
const slipped = (sought: string, part: string): boolean => {
  const most = Math.min(2, Math.floor(sought.length / 4));
  return !anotherWord(sought, part) && Math.abs(sought.length - part.length) <= most && slips(sought, part) <= most;
};

type Alike = (sought: string, part: string) => boolean;

/** Materials one of whose words, or whose kind, holds every part of what is sought; the closest first. */
function holding(sought: string, materials: readonly Material[], alike: Alike): readonly Material[] {
  const parts = sought.split(' ');
  const holds = (words: string): boolean => {
    const there = spelt(words).split(' ');
    return parts.every((part) => there.some((word) => alike(part, word)));
  };
  const begins = (words: string): boolean => {
    const there = spelt(words).split(' ');
    return parts.every((part, i) => there[i] !== undefined && alike(part, there[i]));
  };
  const rank = ({ id, name, kind, also = [] }: Material): number => {
    const names = [id, name];
    if (names.some(begins)) return 0;
    const ofKind = alike(sought, spelt(kind));
    const named = names.some(holds);
    if (ofKind) return named ? 1 : 2;
    return named ? 3 : also.some(holds) ? 4 : Number.POSITIVE_INFINITY;
  };
  return materials
    .map((material) => ({ material, rank: rank(material) }))
    .filter((ranked) => ranked.rank < Number.POSITIVE_INFINITY)
    .sort((a, b) => a.rank - b.rank)
    .map((ranked) => ranked.material);
}

/** Materials with a word as few slips away as any, where that is near at all. */
function slipsAway(sought: string, materials: readonly Material[]): readonly Material[] {
  let least = cutOff(sought);
  let found: Material[] = [];
  for (const material of materials) {
    const steps = Math.min(
      ...[material.id, material.name, ...(material.also ?? [])].map((word) => slips(sought, spelt(word))),
    );
    if (steps < least) found = [];
    if (steps <= least) {
      least = steps;
      found.push(material);
    }
  }
  return found;
}
