import { leanBlend } from '../blend/drawn.js';
import { central, numbersOf } from '../blend/numbers.js';
import { amountsOf, inBase } from '../blend/state/amounts.js';
import { worldOf } from '../blend/world.js';
import type { Part } from '../brief/read-amounts.js';
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

/** Doses asked for of what is partly water: what was counted is told, as the bottle holds more than the percent says. */
export function dosesAsSolids(doses: readonly AskedDose[], blend: readonly Part[]): Problem[] {
  return doses.flatMap(({ material: id, percent, of }): Problem[] => {
    const part = blend.find((p) => p.material.id === id);
    const solids = part?.material.solids?.value ?? 1;
    if (part === undefined || solids > 1 - TRACE) return [];
    const { material, grams } = part;
    return [
      {
        code: 'dose-as-solids',
        severity: 'note',
        where: { path: `doses.${id}` },
        found: `${Number(percent.toPrecision(4))} % of ${of}`,
        hint: `${material.name} is ${Math.round(100 * solids)} % solids: the ⟦${Number(grams.toPrecision(3))} g⟧ weighed out hold ⟦${Number((solids * grams).toPrecision(3))} g⟧`,
      },
    ];
  });
}

/** A share of water that is no more than damp. */
const TRACE = 0.02;

/** Doses asked for that the steps of the scale leave off, or out; `batchGrams` are those of each material of the blend. */
export function roundedDoses(question: Question, batchGrams: ReadonlyMap<string, number>): Problem[] {
  const { doses, materials } = question;
  if (doses.length === 0) return [];
  const all = materials.map((m) => batchGrams.get(m.id) ?? 0);
  const { input, grams } = leanBlend(question, all);
  const { base } = amountsOf(worldOf(input), grams);
  return doses.flatMap(({ material, percent, of }): Problem[] => {
    const column = materials.findIndex((m) => m.id === material);
    const { name, solids } = numbersOf(materials[column]!, central);
    const hint = 'use a finer scale, or more pieces at once';
    return coarselyWeighed(name, ((percent / 100) * base[of]) / solids, all[column]!, '', hint);
  });
}
