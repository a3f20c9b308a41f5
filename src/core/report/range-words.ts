import type { AssessmentResult } from './result-schema.js';

/** Share of the fresh volume that its likely range may span before a mould is not surely filled. Ours. */
const SURE_FILL = 0.1;

/**
 * What the likely ranges hold for. Where the volume of what is weighed out is not well known, that its weights are those of
 * what is weighed out: a light aggregate denser than told leaves the mould short, and topping it up makes a heavier piece.
 */
export function rangeWords({ piece, properties }: Pick<AssessmentResult, 'piece' | 'properties'>): string {
  const words =
    'Ranges hold nine times in ten by the ranges of the table. Strength is an estimate, not for structural use.';
  const { value, low, high } = properties.find((p) => p.property === 'fresh-volume') ?? {};
  const unsure = value != null && low != null && high != null && high - low > SURE_FILL * value;
  if (piece.volume === null || !unsure) return words;
  return `${words} Weights, and the chances of theirs, are of just what is weighed out, be the mould then full or not: weigh what is left over or topped up.`;
}
