import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { leftOut } from '../../src/core/brief/play.js';
import { isGap } from '../../src/core/materials/gap.js';
import type { Material } from '../../src/core/materials/schema.js';
import type { Question } from '../../src/core/optimise/question.js';
import { seededRandom } from './random-programs.js';
import { randomPrices, varied } from './random-shelf.js';
import { materials, model } from './shipped-table.js';

/**
 * A shelf of so many materials: those of the shipped table that are in play from the start, spread over all kinds, and
 * beyond them bags of the same stuff with figures of their own.
 */
export function shelfOfSize(size: number): Material[] {
  const random = seededRandom(size);
  const usable = materials.filter((m) => !isGap(m.density) && m.kind !== 'water' && leftOut(m) === null);
  const [first] = materials.filter((m) => m.kind === 'water');
  // One of each kind in turn, so that a small shelf has binders, sands and the rest too.
  const kinds = [...new Set(usable.map((m) => m.kind))];
  const byKind = kinds.map((kind) => usable.filter((m) => m.kind === kind));
  const order = Array.from({ length: Math.max(...byKind.map((l) => l.length)) }, (_, i) =>
    byKind.flatMap((list) => list[i] ?? []),
  ).flat();
  const rest = Array.from({ length: size - 1 }, (_, i): Material => {
    const material = order[i % order.length]!;
    const bag = Math.floor(i / order.length);
    return bag === 0 ? material : { ...varied(material, random), id: `${material.id}-bag-${bag + 1}` };
  });
  return [first!, ...rest];
}

/** The same brief for every size: a damp planter as cheap as it can be, with a weight, a strength and a time to keep. */
export function benchQuestion(size: number): Question {
  const shelf = shelfOfSize(size);
  const volume = 400;
  return {
    objective: 'cheapest',
    targets: [
      { property: 'dry-weight', max: 1.7 * volume },
      { property: 'strength', min: 12 },
      { property: 'demould-time', max: 2000 },
    ],
    conditions: { ...DEFAULT_CONDITIONS, service: 'damp', pour: 'tapped', volume },
    materials: shelf,
    doses: [],
    figures: model,
    prices: randomPrices(shelf, seededRandom(size + 1)),
    stock: new Map(),
    batch: { pieces: 4, step: 1, fine: { step: 0.1, most: 200 } },
  };
}
