import { onStep } from '../shop/card-bowls.js';
import { printQuantity, type UnitSystem } from '../units/print.js';
import { convert } from '../units/quantity.js';
import type { IngredientResult } from './result-schema.js';

/** A scale that counts in ounces has a step that is a round number of them. */
function countsOunces(step: number): boolean {
  const ounces = convert(step, 'g', 'oz');
  const rounded = Number(ounces.toPrecision(3));
  return rounded >= 0.005 && Math.abs(ounces / rounded - 1) < 1e-6;
}

/** An amount on the step [g] of the scale that weighs it: "134 g", "41.634 kg", "15 lb 15.7 oz". */
export const printOnStep = (grams: number, step: number, system: UnitSystem): string =>
  printQuantity(onStep(grams, step), 'mass', { system, step });

/** The same in the unit that this scale counts in. */
export const onScale = (grams: number, step: number): string =>
  printOnStep(grams, step, countsOunces(step) ? 'us' : 'metric');

/** Figures of an amount that lies on no step. */
const FIGURES = 3;

/** An amount that no scale has rounded: as fine as one with this step [g], and in three figures or more. */
export const printFine = (grams: number, step: number, system: UnitSystem): string =>
  printQuantity(grams, 'mass', { system, step, figures: FIGURES });

/** What is weighed out of an ingredient; `step`: the scale's, for a recipe's amounts, which are told as they are written. */
export const printBatch = (
  { batchGrams, step }: Pick<IngredientResult, 'batchGrams' | 'step'>,
  scaleStep: number,
  system: UnitSystem,
): string => (step === null ? printFine(batchGrams, scaleStep, system) : printOnStep(batchGrams, step, system));
