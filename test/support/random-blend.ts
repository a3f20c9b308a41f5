import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { type World, type WorldInput, worldOf } from '../../src/core/blend/world.js';
import { isGap } from '../../src/core/materials/gap.js';
import type { Material } from '../../src/core/materials/schema.js';
import { type Random, seededRandom } from './random-programs.js';
import { randomConditions, randomMaterials, randomPrices, varied } from './random-shelf.js';
import { materials, model } from './shipped-table.js';

/** A seeded random blend over a random shelf: most like something a maker would stir, some odd on purpose. */
export interface RandomBlend {
  readonly input: WorldInput;
  readonly world: World;
  readonly grams: readonly number[];
}

const usable = materials.filter((m) => !isGap(m.density));

/** Also what is never in play by itself: pigments, polymers, fibres, thickeners. */
function anyMaterials(random: Random): Material[] {
  const shelf = randomMaterials(random);
  const others = usable.filter((m) => !shelf.some((s) => s.id === m.id));
  for (let n = random.whole(0, 4); n > 0; n--) shelf.push(varied(random.pick(others), random));
  return shelf.filter((m, i) => shelf.findIndex((o) => o.id === m.id) === i);
}

function gramsOf(material: Material, binder: number, random: Random): number {
  switch (material.kind) {
    case 'water':
      return random.chance(0.97) ? binder * random.between(0.15, 1.1) : 0;
    case 'cement':
    case 'gypsum':
    case 'lime':
      return random.chance(0.8) ? binder * random.between(0.1, 1) : 0;
    case 'pozzolan':
    case 'filler':
      return random.chance(0.7) ? binder * random.between(0.02, 0.6) : 0;
    case 'sand':
      return random.chance(0.75) ? binder * random.between(0.05, 2) : 0;
    case 'light-aggregate':
      return random.chance(0.7) ? binder * random.between(0.01, 0.5) : 0;
    case 'polymer':
      return random.chance(0.7) ? binder * random.between(0.01, 0.15) : 0;
    default:
      return random.chance(0.7) ? binder * random.between(0.0001, 0.03) : 0;
  }
}

export function randomBlend(seed: number): RandomBlend {
  const random = seededRandom(seed);
  const shelf = anyMaterials(random);
  const binder = Math.exp(random.between(Math.log(20), Math.log(5000)));
  const grams = shelf.map((m) => gramsOf(m, binder, random));
  if (!grams.some((g) => g > 0)) grams[0] = binder;
  const conditions = { ...DEFAULT_CONDITIONS, ...randomConditions(random) };
  const input = { materials: shelf, figures: model, conditions, prices: randomPrices(shelf, random) };
  return { input, world: worldOf(input), grams };
}
