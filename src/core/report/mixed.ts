import { assess } from '../blend/assess.js';
import type { Target, Verdict } from '../blend/target.js';
import type { WorldInput } from '../blend/world.js';
import type { Brief } from '../brief/read-brief.js';
import type { Recipe } from '../brief/read-recipe.js';
import { recipeBlend } from '../brief/recipe-blend.js';
import type { Shelf } from '../brief/shelf.js';
import { worldInput } from '../brief/world-input.js';
import type { Material } from '../materials/schema.js';
import { roundedBowl } from '../optimise/bowl.js';
import { propose } from '../optimise/propose.js';
import { refuse } from '../problems/problem.js';
import { assessRecipe, proposalResult, type ResultOptions } from './result.js';
import type { AssessmentResult, ProposalResult } from './result-schema.js';

/** A blend that is to be priced or weighed out, wherever it came from: a brief's proposal or a recipe. */
export interface Mixed {
  readonly title: string;
  readonly invented: boolean;
  /** Materials of the blend, water among them, with their grams in one piece (a mould full, where there is one) and in the batch. */
  readonly parts: readonly { readonly material: Material; readonly pieceGrams: number; readonly batchGrams: number }[];
  /** Moulds the batch is for: pieces asked for, or what a recipe as written fills, waste taken off, be it part of one. */
  readonly pieces: number;
  /** Of a brief: g of each part in one of so many equal bowls, rounded so that its limits hold; null: as it is written. */
  readonly inBowl: ((count: number) => readonly number[]) | null;
  /** What the forward model needs to judge the blend anew; materials in the order of `parts`. */
  readonly input: WorldInput;
  /** The maker's own limits, and those every proposal keeps. */
  readonly targets: readonly Target[];
  readonly standing: readonly Target[];
  readonly result: AssessmentResult | ProposalResult;
}

export interface MixedOptions extends ResultOptions {
  /** Pieces in the batch, in place of what the brief or the recipe says. */
  readonly pieces?: number;
}

/** The blend proposed for a brief. */
export function mixedBrief(brief: Brief, shelf: Shelf, invented: boolean, options: MixedOptions = {}): Mixed {
  const { pieces } = options;
  const asked = brief.question;
  const question = pieces === undefined ? asked : { ...asked, batch: { ...asked.batch, pieces } };
  const proposal = propose(question, options);
  const find = new Map(question.materials.map((m) => [m.id, m]));
  const parts = proposal.ingredients.map((i) => ({ ...i, material: find.get(i.material)! }));
  return {
    title: brief.title,
    invented,
    parts,
    pieces: question.batch.pieces,
    inBowl: (count) => roundedBowl(question, proposal, count),
    input: { ...question, materials: parts.map((p) => p.material) },
    targets: question.targets,
    standing: proposal.standing,
    result: proposalResult({ ...brief, question }, proposal, shelf, invented),
  };
}

/**
 * A recipe as written, or as many pieces of it as asked for. Throws InputProblems when pieces are asked for and the
 * recipe has no mould.
 */
export function mixedRecipe(recipe: Recipe, shelf: Shelf, invented: boolean, options: MixedOptions = {}): Mixed {
  const { pieces } = options;
  const { conditions } = recipe.setting;
  if (pieces !== undefined && conditions.volume === null) {
    const expected = 'a mould in the recipe, to know how much a piece takes';
    refuse({ code: 'option-invalid', where: { path: '--pieces' }, found: String(pieces), expected });
  }
  const blend = recipeBlend(recipe, shelf);
  const portion = pieces === undefined ? null : pieces / (1 - conditions.waste);
  const parts = blend.materials.map((material, i) => ({
    material,
    pieceGrams: blend.pieceGrams[i]!,
    batchGrams: portion === null ? blend.batchGrams[i]! : portion * blend.pieceGrams[i]!,
  }));
  return {
    title: recipe.title,
    invented,
    parts,
    inBowl: null,
    pieces: pieces ?? (blend.fills === null ? 1 : blend.fills * (1 - conditions.waste)),
    input: worldInput(shelf, blend.materials, conditions),
    targets: recipe.targets,
    standing: [],
    result: assessRecipe(recipe, shelf, invented, options),
  };
}

/** Verdicts on one piece of other grams of the same materials, without ranges: the maker's limits and the standing ones. */
export const judgedAnew = (mixed: Mixed, pieceGrams: readonly number[]): readonly Verdict[] =>
  assess(mixed.input, pieceGrams, [...mixed.targets, ...mixed.standing], { draws: 0 }).verdicts;
