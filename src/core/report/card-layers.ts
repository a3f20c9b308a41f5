import type { Grams, World } from '../blend/world.js';
import type { Kind } from '../materials/words.js';
import type { CardLayer } from './card-schema.js';

/** From the floor of the mould up: grains, powders, doses, light things, water, air. */
const FROM_BELOW: readonly Kind[] = [
  'sand',
  'filler',
  'cement',
  'gypsum',
  'lime',
  'pozzolan',
  'pigment',
  'polymer',
  'admixture',
  'fibre',
  'light-aggregate',
  'water',
];

/** Thinner layers than this share of the volume are drawn as one. */
const THIN = 0.006;
/** g/cm3, as in blend/numbers: water that grains drink or bring. */
const WATER_DENSITY = 0.9982;

/**
 * What a mix is made of by volume, bottom first; shares add up to 1 with the air. Grains are counted whole, with their
 * pores, and what they drink is taken from the water, so that the layers are what one would see.
 */
export function layersOf(world: World, grams: Grams, air: number): CardLayer[] {
  const grains = (kind: Kind): boolean => kind === 'sand' || kind === 'light-aggregate';
  const drunk =
    world.materials.reduce((s, m, i) => (grains(m.kind) ? s + m.freeWater * grams[i]! : s), 0) / WATER_DENSITY;
  let shifted = false;
  const solid = world.materials
    .map((m, i): CardLayer => {
      const own = (grains(m.kind) ? m.grainVolume : m.volume) * grams[i]!;
      const takes = m.kind === 'water' && !shifted ? drunk : 0;
      if (m.kind === 'water') shifted = true;
      return { materials: [m.id], name: m.name, kind: m.kind, cm3: Math.max(0, own + takes), share: 0 };
    })
    .filter((layer) => layer.cm3 > 0);
  const total = solid.reduce((s, layer) => s + layer.cm3, 0) / (1 - air);
  const shared = solid.map((layer) => ({ ...layer, share: layer.cm3 / total }));
  const rank = (layer: CardLayer): number => FROM_BELOW.indexOf(layer.kind as Kind);
  const seen = shared
    .filter((l) => l.share >= THIN || l.kind === 'water')
    .sort((a, b) => rank(a) - rank(b) || b.cm3 - a.cm3);
  const thin = shared.filter((l) => l.share < THIN && l.kind !== 'water');
  const doses = thin.length > 1 ? [joined(thin)] : thin;
  const below = seen.filter((l) => rank(l) <= FROM_BELOW.indexOf('lime'));
  const above = seen.filter((l) => rank(l) > FROM_BELOW.indexOf('lime'));
  const bubbles: CardLayer = { materials: [], name: 'air', kind: 'air', cm3: total * air, share: air };
  return [...below, ...doses, ...above, ...(air > 0 ? [bubbles] : [])];
}

const joined = (layers: readonly CardLayer[]): CardLayer => ({
  materials: layers.flatMap((l) => l.materials),
  name: layers.map((l) => l.name).join(', '),
  kind: 'doses',
  cm3: layers.reduce((s, l) => s + l.cm3, 0),
  share: layers.reduce((s, l) => s + l.share, 0),
});
