import type { Problem } from '../problems/problem.js';
import { printMinutes, significant } from './print.js';

/**
 * Bowls that share a mould: what is poured on a layer that has stiffened does not grow together with it. Common practice,
 * no source.
 *
 * fills: moulds that one bowl fills; pourable: min from powder meeting water to the last moment it pours, null: not known.
 */
export function joinedBowls(count: number, fills: number, pourable: number | null): Problem[] {
  if (count === 1 || Math.abs(fills - Math.round(fills)) < 1e-6) return [];
  const by = pourable === null ? '' : `, which is ${printMinutes(pourable)} after its powder met water`;
  return [
    {
      code: 'bowls-joined',
      severity: 'warning',
      found:
        fills < 1
          ? `a mould takes ${significant(1 / fills, 3)} bowls like this`
          : `a bowl fills ${significant(fills, 3)} moulds, so that some moulds take two bowls`,
      hint: `pour each bowl before the last one in that mould stiffens${by}; else a weak seam stays between them, a cold joint (common practice, no source). Mix in larger bowls, or several at once`,
    },
  ];
}
