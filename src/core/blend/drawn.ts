import { type Property, propertyValue } from './property.js';
import type { Draws } from './sampling.js';
import { stateOf } from './state/state.js';
import { type Grams, type World, type WorldInput, worldOf } from './world.js';

/** A blend with only the materials it has: the others change nothing, so they need not be drawn. */
export function leanBlend<W extends WorldInput>(input: W, grams: Grams): { readonly input: W; readonly grams: Grams } {
  const used = input.materials.map((_m, i) => i).filter((i) => grams[i]! > 0);
  return { input: { ...input, materials: used.map((i) => input.materials[i]!) }, grams: used.map((i) => grams[i]!) };
}

/**
 * Values of properties of a lean blend in each draw, one list a property; null where a draw has no such property.
 * `scooped`: materials that are measured out by loose volume, so that a draw's loose density decides what they weigh.
 */
export function drawnValues(
  { input, grams }: { readonly input: WorldInput; readonly grams: Grams },
  properties: readonly Property[],
  draws: Draws,
  scooped: ReadonlySet<string> = new Set(),
): (number | null)[][] {
  const values = properties.map((): (number | null)[] => []);
  const meant = scooped.size === 0 ? [] : worldOf(input).materials;
  const weighs = (world: World): Grams =>
    grams.map((g, i) => {
      const loose = meant[i]?.bulkDensity ?? null;
      return loose === null || !scooped.has(meant[i]!.id) ? g : (g * world.materials[i]!.bulkDensity!) / loose;
    });
  for (let j = 0; j < draws.count; j++) {
    const world = worldOf(input, draws.reading(j));
    const state = stateOf(world, scooped.size === 0 ? grams : weighs(world));
    for (let p = 0; p < properties.length; p++) values[p]!.push(propertyValue(properties[p]!, world, state).value);
  }
  return values;
}
