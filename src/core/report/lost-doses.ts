import { central, numbersOf } from '../blend/numbers.js';
import { inBase } from '../blend/state/amounts.js';
import type { Material } from '../materials/schema.js';
import type { AskedDose, Question } from '../optimise/question.js';
import type { Problem } from '../problems/problem.js';
import { BASE_WORDS } from '../risks/dose.js';
import { coarselyWeighed } from './too-fine-to-weigh.js';

/** Doses asked for as a percent of what a proposal has none of: a percent of nothing is nothing, and that is said. */
export function lostDoses(doses: readonly AskedDose[], blend: readonly Material[]): Problem[] {
  const has = (of: AskedDose['of']): boolean =>
    blend.some(({ kind, binder }) => inBase({ kind, family: binder?.family ?? null, solids: 1 }, of) > 0);
  return doses
    .filter((dose) => !has(dose.of))
    .map(
      ({ material, percent, of }): Problem => ({
        code: 'brief-contradicts',
        severity: 'warning',
        where: { path: `doses.${material}` },
        found: `${Number(percent.toPrecision(4))} % of ${of}`,
        hint: `this blend has none of ${BASE_WORDS[of]}, and so no ${material}; ask for a share of something that it has, or bar the other binders`,
      }),
    );
}

/** Doses asked for that the steps of the scale leave off, or out; `batchGrams` are those of each material of the blend. */
export function roundedDoses(
  { doses, materials }: Pick<Question, 'doses' | 'materials'>,
  batchGrams: ReadonlyMap<string, number>,
): Problem[] {
  if (doses.length === 0) return [];
  const numbers = new Map(materials.map((m) => [m.id, numbersOf(m, central)]));
  return doses.flatMap(({ material, percent, of }): Problem[] => {
    const { name, solids } = numbers.get(material)!;
    const base = [...batchGrams].reduce((sum, [id, grams]) => sum + grams * inBase(numbers.get(id)!, of), 0);
    const hint = 'use a finer scale, or more pieces at once';
    return coarselyWeighed(name, ((percent / 100) * base) / solids, batchGrams.get(material) ?? 0, '', hint);
  });
}
