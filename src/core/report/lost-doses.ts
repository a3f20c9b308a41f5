import { inBase } from '../blend/state/amounts.js';
import type { Material } from '../materials/schema.js';
import type { AskedDose } from '../optimise/question.js';
import type { Problem } from '../problems/problem.js';
import { BASE_WORDS } from '../risks/dose.js';

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
