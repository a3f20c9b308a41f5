import type { ModelFigures } from '../materials/model-figures.js';
import type { Material } from '../materials/schema.js';
import type { Conditions } from './conditions.js';
import { central, type MaterialNumbers, type ModelNumbers, modelNumbers, numbersOf, type Reading } from './numbers.js';
import type { Together } from './sampling.js';

/**
 * What every property and row is computed in: the materials in play (one column each), the model's figures and the
 * conditions, all as plain numbers under one reading of the table's ranges.
 */
export interface World {
  readonly materials: readonly MaterialNumbers[];
  readonly model: ModelNumbers;
  readonly conditions: Conditions;
  /** Price per gram of each material in the shop's currency; null where no price is known. */
  readonly prices: readonly (number | null)[];
}

export interface WorldInput {
  readonly materials: readonly Material[];
  readonly figures: ModelFigures;
  readonly conditions: Conditions;
  readonly prices?: ReadonlyMap<string, number>;
  /** How the figures that pours have taught hang together; drawn so. */
  readonly together?: Together;
}

/** @throws InputProblems when a material lacks its density. */
export function worldOf(input: WorldInput, read: Reading = central): World {
  return {
    materials: input.materials.map((m) => numbersOf(m, read)),
    model: modelNumbers(input.figures, read),
    conditions: input.conditions,
    prices: input.materials.map((m) => (m.kind === 'water' ? 0 : (input.prices?.get(m.id) ?? null))),
  };
}

/** A world with only these materials of it, by their places. */
export const pickedWorld = (world: World, places: readonly number[]): World => ({
  ...world,
  materials: places.map((i) => world.materials[i]!),
  prices: places.map((i) => world.prices[i]!),
});

/** Grams of each material of the world, in its order. */
export type Grams = readonly number[];

/** Value of coefficients per gram over the blend. */
export const dot = (coefficients: readonly number[], grams: Grams): number => {
  let total = 0;
  for (let i = 0; i < coefficients.length; i++) total += coefficients[i]! * grams[i]!;
  return total;
};

/** Sum of a coefficient over the blend. */
export function sum(world: World, grams: Grams, of: (m: MaterialNumbers, i: number) => number): number {
  let total = 0;
  for (let i = 0; i < world.materials.length; i++) {
    const g = grams[i]!;
    if (g !== 0) total += g * of(world.materials[i]!, i);
  }
  return total;
}
