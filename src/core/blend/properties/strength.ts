import { strengthShare } from '../../science/strength.js';
import { EXPONENTIAL, type Property } from '../property.js';
import { withoutWater } from '../state/amounts.js';
import type { BlendState } from '../state/state.js';
import { hardens, withinGelSpace } from '../state/strength-state.js';
import type { World } from '../world.js';

export const strength: Property = {
  id: 'strength',
  name: 'strength, an estimate',
  quantity: 'strength',
  unit: 'MPa',
  meaning: 'crushing strength of the dry piece at the age asked for; an estimate, not for structural use',
  restsOn: 'plaster: exponential law in water to plaster; portland: gel/space ratio; others and mixtures: wide, ours',
  models: [
    'plaster-strength',
    'plaster-wet-strength',
    'gel-space',
    'gel-space-strength',
    'aci-table',
    'mixed-strength',
    'soft-strength-effects',
  ],
  digits: 2,
  needed: true,
  missing: (world, state) =>
    hardens(world, state.grams) ? withoutWater(state.amounts) : 'nothing in the blend hardens',
  form: (_world, state) => ({
    numerator: state.strength.numerator,
    denominator: state.strength.denominator,
    link: EXPONENTIAL,
  }),
};

/** Least share of the setting binder that one family must make up for its early strength to be told. Ours. */
const ALONE = 0.95;

type EarlyFamily = 'portland' | 'gypsum';

function earlyFamily({ amounts: { families } }: BlendState): EarlyFamily | null {
  const setting = Object.values(families).reduce((s, grams) => s + grams, 0);
  if (setting <= 0) return null;
  if (families.portland >= ALONE * setting) return 'portland';
  return families.gypsum >= ALONE * setting ? 'gypsum' : null;
}

/** ln of the strength at demoulding over the strength that is told for later. */
function earlyShift(world: World, state: BlendState, family: EarlyFamily): number {
  const spread = Math.log(world.model('early-strength-spread'));
  if (family === 'gypsum') {
    // It leaves the mould wet; in damp service the later strength is a wet one already.
    const { service } = world.conditions;
    const damp = service === 'damp' || service === 'wet';
    return spread + (damp ? 0 : Math.log(world.model('plaster-wet-share')));
  }
  const { water } = state;
  const degree = water.degreeAt(water.demouldHours);
  const late = water.degreeAt(24 * world.conditions.strengthAge);
  const share = strengthShare(degree, late, withinGelSpace(water.waterToCement ?? 0.5));
  return spread + Math.log(Math.max(1e-6, share));
}

export const strengthAtDemould: Property = {
  id: 'strength-at-demould',
  name: 'strength at demoulding, an estimate',
  quantity: 'strength',
  unit: 'MPa',
  meaning: 'crushing strength when the piece leaves the mould; about 1 MPa (150 psi) bears careful hands (ours)',
  restsOn: 'plaster: wet strength; portland: gel/space ratio at the degree of hydration of that hour; rough',
  models: ['strength-by-age', 'plaster-wet-strength', 'plaster-strength', 'gel-space-strength', 'hydration-growth'],
  digits: 2,
  needed: true,
  missing: (world, state) => {
    if (!hardens(world, state.grams)) return 'nothing in the blend hardens';
    if (earlyFamily(state) === null) return 'no law for the first hours of this binder or mixture';
    return withoutWater(state.amounts);
  },
  form: (world, state) => {
    const family = earlyFamily(state);
    const shift = family === null ? 0 : earlyShift(world, state, family);
    const { numerator, denominator } = state.strength;
    return { numerator: numerator.map((n, i) => n + shift * denominator[i]!), denominator, link: EXPONENTIAL };
  },
};
