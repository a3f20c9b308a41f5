import type { Material } from '../materials/schema.js';
import { isPoured } from '../materials/table.js';
import { type AskedDose, type Limits, MOST_PARTS, type PartsAsked } from '../optimise/question.js';
import type { Gather } from '../problems/gather.js';
import type { Where } from '../problems/problem.js';
import { parseQuantity } from '../units/quantity.js';
import type { WrittenLimits, WrittenParts } from './schema.js';

/**
 * What a blend may be made of. Notes `brief-contradicts` where the doses asked for leave no room for a binder among so
 * many ingredients.
 */
export function readLimits(
  written: WrittenLimits | undefined,
  doses: readonly AskedDose[],
  materials: readonly Material[],
  all: Gather,
  at: (path: string) => Where,
): Limits {
  const ingredients = written?.ingredients ?? null;
  const least = written?.['least-dose'];
  const dry = doses.filter((d) => materials.some((m) => m.id === d.material && !isPoured(m)));
  if (ingredients !== null && dry.length >= ingredients) {
    all.add({
      code: 'brief-contradicts',
      severity: 'error',
      where: at('limits.ingredients'),
      found: `at most ${ingredients}, and ${dry.map((d) => d.material).join(', ')} asked for`,
      expected: `at least ${dry.length + 1}, so that there is room for a binder`,
    });
  }
  const leastDose =
    least === undefined
      ? null
      : (all.attempt(() => parseQuantity(least, 'mass', at('limits.least-dose'), { positive: true })) ?? null);
  return { ingredients, leastDose };
}

/** "scoop", or { by: scoop, most: 6 }. */
export const readParts = (written: WrittenParts): PartsAsked =>
  typeof written === 'string'
    ? { by: written, most: MOST_PARTS }
    : { by: written.by, most: written.most ?? MOST_PARTS };
