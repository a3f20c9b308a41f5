import { type Property, propertyValue } from './property.js';
import type { Draws } from './sampling.js';
import { stateOf } from './state/state.js';
import { type Grams, type WorldInput, worldOf } from './world.js';

/** A blend with only the materials it has: the others change nothing, so they need not be drawn. */
export function leanBlend<W extends WorldInput>(input: W, grams: Grams): { readonly input: W; readonly grams: Grams } {
  const used = input.materials.map((_m, i) => i).filter((i) => grams[i]! > 0);
  return { input: { ...input, materials: used.map((i) => input.materials[i]!) }, grams: used.map((i) => grams[i]!) };
}

/** Values of properties of a lean blend in each draw, one list a property; null where a draw has no such property. */
export function drawnValues(
  { input, grams }: { readonly input: WorldInput; readonly grams: Grams },
  properties: readonly Property[],
  draws: Draws,
): (number | null)[][] {
  const values = properties.map((): (number | null)[] => []);
  for (let j = 0; j < draws.count; j++) {
    const world = worldOf(input, draws.reading(j));
    const state = stateOf(world, grams);
    for (let p = 0; p < properties.length; p++) values[p]!.push(propertyValue(properties[p]!, world, state).value);
  }
  return values;
}
