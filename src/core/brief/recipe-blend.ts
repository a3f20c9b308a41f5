import type { Material } from '../materials/schema.js';
import type { Problem } from '../problems/problem.js';
import { mixVolume } from './mix-volume.js';
import type { Recipe } from './read-recipe.js';
import type { Shelf } from './shelf.js';

/** A recipe brought to what is assessed: one mould full, or the batch by itself. */
export interface RecipeBlend {
  readonly materials: readonly Material[];
  /** g in what is assessed: one piece where there is a mould, else the batch. */
  readonly pieceGrams: readonly number[];
  /** g in the batch as written, or for one piece when only parts were given. */
  readonly batchGrams: readonly number[];
  /** How many moulds the batch as written fills; null when there is no mould or no weights. */
  readonly fills: number | null;
  readonly warnings: readonly Problem[];
}

/** What parts without a mould are scaled to. */
const SAMPLE_GRAMS = 1000;

/** Scales a recipe to its mould: volume goes with mass, so one factor does it. */
export function recipeBlend(recipe: Recipe, shelf: Shelf): RecipeBlend {
  const { conditions } = recipe.setting;
  const materials = recipe.parts.map((p) => p.material);
  const grams = recipe.parts.map((p) => p.grams);
  const volume = mixVolume(recipe.parts, shelf, conditions);
  if (conditions.volume === null) {
    const total = grams.reduce((s, g) => s + g, 0);
    const scale = recipe.scaled ? 1 : SAMPLE_GRAMS / total;
    const scaled = grams.map((g) => g * scale);
    return { materials, pieceGrams: scaled, batchGrams: scaled, fills: null, warnings: [] };
  }
  const fills = volume / conditions.volume;
  const pieceGrams = grams.map((g) => g / fills);
  if (!recipe.scaled) {
    const batchGrams = pieceGrams.map((g) => g / (1 - conditions.waste));
    return { materials, pieceGrams, batchGrams, fills: null, warnings: [] };
  }
  const warnings: Problem[] =
    fills >= 0.97
      ? []
      : [
          {
            code: 'recipe-implausible',
            severity: 'warning',
            found: `a mix of ⟦${Math.round(volume)} mL⟧ for a mould of ⟦${Math.round(conditions.volume)} mL⟧`,
            hint: 'it does not fill the mould; the figures below are for a full piece of the same proportions',
          },
        ];
  return { materials, pieceGrams, batchGrams: grams, fills, warnings };
}
