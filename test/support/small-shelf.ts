import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import type { Target } from '../../src/core/blend/target.js';
import type { BinderFamily } from '../../src/core/materials/words.js';
import type { Question } from '../../src/core/optimise/question.js';
import { BINDER_SYSTEMS, type BinderSystem } from '../../src/core/optimise/systems.js';
import { seededRandom } from './random-programs.js';
import { varied } from './random-shelf.js';
import { material, model } from './shipped-table.js';

/** Shelves small enough to try every choice on. Prices and targets are invented. */

const SHELVES: Readonly<Record<string, readonly string[]>> = {
  gypsum: ['casting-plaster', 'alpha-gypsum-cement', 'limestone-flour', 'silica-sand-fine', 'perlite', 'marble-flour'],
  portland: [
    'portland-cement-grey',
    'portland-cement-white',
    'masonry-sand',
    'silica-sand-fine',
    'perlite',
    'metakaolin',
  ],
  csa: ['csa-rapid-cement', 'masonry-sand', 'silica-sand-coarse', 'limestone-flour', 'pumice', 'plasticiser-powder'],
};

export const systemOf = (id: string): BinderSystem => BINDER_SYSTEMS.find((s) => s.id === id)!;

/** A question on a shelf of six dry materials and water, all moved about by the seed. */
export function smallQuestion(seed: number): { readonly question: Question; readonly system: BinderSystem } {
  const random = seededRandom(seed);
  const id = random.pick(Object.keys(SHELVES));
  const materials = ['water', ...SHELVES[id]!].map((m) => varied(material(m), random));
  const volume = random.between(150, 900);
  const targets: Target[] = [
    { property: 'strength', min: random.between(4, 14) },
    { property: 'dry-weight', max: volume * random.between(1.1, 1.7) },
  ];
  return {
    system: systemOf(id),
    question: {
      objective: random.pick(['cheapest', 'lightest', 'heaviest', 'strongest'] as const),
      targets: random.chance(0.7) ? targets : targets.slice(0, 1),
      conditions: { ...DEFAULT_CONDITIONS, volume, service: 'dry-indoor' },
      materials,
      doses: [],
      figures: model,
      prices: new Map(materials.slice(1).map((m) => [m.id, random.between(0.0003, 0.004)])),
      stock: new Map(),
      batch: { pieces: 1, step: 1, fine: { step: 0.1, most: 200 } },
    },
  };
}

export const isBinderOf = (families: readonly BinderFamily[], question: Question, i: number): boolean => {
  const family = question.materials[i]!.binder?.family;
  return family !== undefined && families.includes(family);
};

/** Every set of at most `most` of these numbers, the empty one left out. */
export function subsets(of: readonly number[], most: number): number[][] {
  const sets: number[][] = [[]];
  for (const x of of) sets.push(...sets.filter((s) => s.length < most).map((s) => s.concat(x)));
  return sets.slice(1);
}
