import { PROPERTIES } from '../blend/properties/index.js';
import { propertyValue } from '../blend/property.js';
import { figureAt } from '../blend/sampling.js';
import { stateOf } from '../blend/state/state.js';
import { type Grams, type WorldInput, worldOf } from '../blend/world.js';
import type { Shelf } from '../brief/shelf.js';
import { WASTE_KEY } from '../shop/pours-measured.js';
import type { AssessmentResult } from './result-schema.js';

/** The figures of the shop's own pours that this blend's properties rest on, in the order of the learned file. */
export function ownFigures(shelf: Shelf, input: WorldInput, grams: Grams): AssessmentResult['ownFigures'] {
  const { learned } = shelf;
  if (learned === null) return [];
  const used = input.materials.map((_m, i) => i).filter((i) => grams[i]! > 0);
  const lean = { ...input, materials: used.map((i) => input.materials[i]!) };
  const leanGrams = used.map((i) => grams[i]!);
  const values = (moved: string | null): (number | null)[] => {
    const world = worldOf(lean, (key, figure) => (key === moved ? figureAt(figure, 1) : figure.value));
    const state = stateOf(world, leanGrams);
    return PROPERTIES.map((p) => propertyValue(p, world, state).value);
  };
  const centre = values(null);
  const matters = (key: string): boolean => {
    if (key === WASTE_KEY) return input.conditions.waste === shelf.shop.waste;
    return values(key).some((v, i) => v !== centre[i]);
  };
  return [...learned.titles].filter(([key]) => matters(key)).map(([figure, title]) => ({ figure, title }));
}
