import { worldOf } from '../blend/world.js';
import { AIMS } from './objective.js';
import type { Proposal } from './propose.js';
import type { Question } from './question.js';
import { roundToScale } from './rounding.js';
import { BINDER_SYSTEMS } from './systems.js';

/**
 * One of `count` equal bowls of a proposed batch, rounded as the batch was: so that every limit holds of a mould full of
 * it, where any rounding of so small a bowl does. g of each of the proposal's ingredients, in their order.
 */
export function roundedBowl(question: Question, proposal: Proposal, count: number): readonly number[] {
  const { batch, conditions, materials } = question;
  const weighed = new Map(proposal.ingredients.map((i) => [i.material, i]));
  const system = BINDER_SYSTEMS.find((s) => s.id === proposal.system)!;
  // What the bowl really takes of the batch, which may fill a little more or less than was asked for.
  const pieces = (proposal.fills * (1 - conditions.waste)) / count;
  const { batchGrams } = roundToScale(
    { ...question, batch: { ...batch, pieces } },
    worldOf(question),
    system,
    materials.map((m) => weighed.get(m.id)?.pieceGrams ?? 0),
    AIMS[question.objective],
  );
  const grams = new Map(materials.map((m, i) => [m.id, batchGrams[i]!]));
  return proposal.ingredients.map((i) => grams.get(i.material)!);
}
