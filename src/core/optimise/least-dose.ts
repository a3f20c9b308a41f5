import type { Grams, World } from '../blend/world.js';
import { isPoured } from '../materials/table.js';
import type { Limits, Question } from './question.js';

/** Fewer steps of the scale than this weigh nothing out with sense: half a step is then over a tenth. Ours. */
export const LEAST_STEPS = 5;

export const NO_LIMITS: Limits = { ingredients: null, leastDose: null };

/** g in the batch that an ingredient is used at, if at all. */
export const leastDose = ({ batch, limits = NO_LIMITS }: Question): number =>
  limits.leastDose ?? LEAST_STEPS * (batch.fine?.step ?? batch.step);

/** Whether a material counts as a dry ingredient: all but water and what is poured. */
export const isDry = (question: Question, material: number): boolean => !isPoured(question.materials[material]!);

/** Below this share of the mass an ingredient is dust of arithmetic. */
export const DUST = 1e-9;

/** Materials that a blend holds, water apart. */
export function heldIn({ materials }: World, grams: Grams): number[] {
  const dust = DUST * grams.reduce((s, g) => s + g, 0);
  return materials.flatMap((m, i) => (m.kind !== 'water' && grams[i]! > dust ? [i] : []));
}
