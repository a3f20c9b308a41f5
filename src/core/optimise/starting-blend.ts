import { isBinder } from '../blend/numbers.js';
import type { World } from '../blend/world.js';
import type { Column } from './lp/types.js';

/**
 * Somewhere sensible to compute the first state from: a third of the mould in binder (pozzolans apart), a third in
 * sand, light aggregate and filler where there are any, and the water the powders ask for.
 */
export function startingBlend(world: World, columns: readonly Column[], volume: number): number[] {
  const open = (i: number) => (columns[i]!.upper ?? Number.POSITIVE_INFINITY) > 0;
  const spread = (belongs: (i: number) => boolean, cm3: number): Map<number, number> => {
    const members = world.materials.map((_m, i) => i).filter((i) => open(i) && belongs(i));
    return new Map(members.map((i) => [i, cm3 / members.length / Math.max(0.05, world.materials[i]!.grainVolume)]));
  };
  const third = volume / 3;
  const parts = [
    spread((i) => isBinder(world.materials[i]!) && world.materials[i]!.family !== null, third),
    spread((i) => ['sand', 'light-aggregate', 'filler'].includes(world.materials[i]!.kind), third),
  ];
  const grams = world.materials.map((_m, i) => parts.reduce((s, p) => s + (p.get(i) ?? 0), 0));
  const demand = grams.reduce((s, g, i) => s + g * (world.materials[i]!.demand - world.materials[i]!.freeWater), 0);
  const water = world.materials.findIndex((m) => m.kind === 'water');
  if (water >= 0) grams[water] = Math.max(0.2 * volume, Math.min(volume, demand));
  return grams;
}
