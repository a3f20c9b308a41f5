import { remainingFreeWater } from '../../science/drying.js';
import { limeCarbonation } from '../../science/stoichiometry.js';
import { type Form, IDENTITY, type Property } from '../property.js';
import type { BlendState } from '../state/state.js';
import { FOR_GOOD } from '../state/water-state.js';
import type { World } from '../world.js';
import { linear } from './linear.js';

/** Models of what stays in the piece for good. */
const BOUND = [
  'mass-balance',
  'stoichiometry',
  'plaster-density',
  'cement-water',
  'ultimate-degree',
  'hydration-growth',
  'equivalent-age',
  'paste-volumes',
  'sorption-cement',
  'sorption-gypsum',
] as const;

export const freshVolume: Property = {
  id: 'fresh-volume',
  name: 'fresh volume',
  quantity: 'volume',
  unit: 'cm3',
  meaning: 'how much mould the mix fills',
  restsOn: 'particle densities and the air left by pouring',
  models: ['absolute-volume'],
  digits: 3,
  form: (world, state) => linear(world.materials.map((m) => m.volume / (1 - state.air))),
};

export const freshWeight: Property = {
  id: 'fresh-weight',
  stateless: true,
  name: 'weight as poured',
  quantity: 'mass',
  unit: 'g',
  meaning: 'weight of the wet mix',
  restsOn: 'what is weighed in',
  models: ['mass-balance'],
  digits: 3,
  form: (world) => linear(world.materials.map(() => 1)),
};

export const freshDensity: Property = {
  id: 'fresh-density',
  name: 'fresh density',
  quantity: 'density',
  unit: 'g/cm3',
  meaning: 'weight of the wet mix per volume',
  restsOn: 'particle densities and the air left by pouring',
  models: ['absolute-volume'],
  digits: 3,
  form: (world, state) => ({
    numerator: world.materials.map(() => 1),
    denominator: world.materials.map((m) => m.volume / (1 - state.air)),
    link: IDENTITY,
  }),
};

export const demouldWeight: Property = {
  id: 'demould-weight',
  stateless: true,
  name: 'weight at demoulding',
  quantity: 'mass',
  unit: 'g',
  meaning: 'what the scale shows when the piece leaves the mould',
  restsOn: 'the fresh weight less what dries off in the mould',
  models: ['mass-balance', 'drying-first-order'],
  digits: 3,
  form: (world) => {
    const lost = world.model('lost-in-mould');
    return linear(world.materials.map((m) => 1 - lost * (1 - m.solids)));
  },
};

/** g that a gram of slaked lime gains as it turns to stone. */
const CARBONATION_GAIN = limeCarbonation(1).solids - 1;

/** g that the slaked lime in a gram of each material may yet gain from the air. */
export const carbonationGain = ({ materials }: World): number[] =>
  materials.map((m) => CARBONATION_GAIN * m.calciumHydroxide * m.solids);

/**
 * The part of it that is gained by the time the piece is dry: lime takes it up as its pores empty. None in the middle reading,
 * for nothing tells how fast; the likely range has it.
 */
function gainedSoon(world: World, { grams }: BlendState): number[] {
  const gain = carbonationGain(world);
  // What is not in play is not asked for.
  const share = gain.some((g, i) => g > 0 && grams[i]! > 0) ? world.model('lime-carbonated') : 0;
  return gain.map((g) => share * g);
}

/** g of a gram of each material that stay in a dry piece, without what its lime takes from the air. */
export function dryGrams({ materials }: World, { water }: BlendState): number[] {
  const held = water.heldAtRest();
  const bound = water.boundAt(FOR_GOOD);
  return materials.map((m, i) => m.solids + bound[i]! + held[i]!);
}

export const dryWeight: Property = {
  id: 'dry-weight',
  name: 'dry weight',
  quantity: 'mass',
  unit: 'g',
  meaning: 'constant weight in the room, when drying is over',
  restsOn:
    'solids, water bound by setting, and the little the pores hold at room humidity; what lime takes from the air meanwhile widens the range',
  models: BOUND,
  digits: 3,
  form: (world, state) => {
    const gained = gainedSoon(world, state);
    return linear(dryGrams(world, state).map((dry, i) => dry + gained[i]!));
  },
};

/** Weight some hours after the water went in: dry weight plus the free water that has not left yet, first-order tail. */
export function weightForm(world: World, state: BlendState, hours: number): Form {
  const { water } = state;
  const held = water.heldAtRest();
  const bound = water.boundAt(hours);
  const left = remainingFreeWater(1, Math.max(0, hours - water.dryFromHours), water.dryingHours);
  const lost = world.model('lost-in-mould');
  const gained = gainedSoon(world, state);
  const numerator: number[] = [];
  for (let i = 0; i < world.materials.length; i++) {
    const { solids } = world.materials[i]!;
    const stays = bound[i]! + held[i]!;
    numerator.push(solids + stays + left * ((1 - lost) * (1 - solids) - stays) + (1 - left) * gained[i]!);
  }
  return linear(numerator);
}

/** Weight so many whole days after pouring. */
export const weightOnDay = (day: number): Property => ({
  id: `weight-day-${day}`,
  name: day === 1 ? 'weight after a day' : `weight after ${day} days`,
  quantity: 'mass',
  unit: 'g',
  meaning: `what the scale shows ${day} days after pouring`,
  restsOn: 'dry weight plus the water still leaving; wall, room and your weighings decide how fast',
  models: [...BOUND, 'drying-first-order', 'evaporation'],
  digits: 3,
  form: (world, state) => weightForm(world, state, 24 * day),
});
