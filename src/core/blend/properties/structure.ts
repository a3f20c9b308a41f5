import { capillaryPorosity } from '../../science/paste-structure.js';
import { RESTRAINT_POWER, restrainedShrinkage } from '../../science/shrinkage.js';
import type { Property } from '../property.js';
import { mostlyLime, shrinkingShare, withoutWater } from '../state/amounts.js';
import { linear } from './linear.js';
import { carbonationGain, dryGrams } from './volume-and-weight.js';

/** Share of the setting binder that portland must make up for its pores to be told by Powers' model alone. Ours. */
const PORTLAND_ALONE = 0.95;

export const capillaryPores: Property = {
  id: 'capillary-pores',
  name: 'open pores of the cement paste',
  quantity: 'percent',
  unit: '%',
  meaning: 'capillary pores in the cement paste; below about 20 % they no longer join and it hardly leaks',
  restsOn: 'water left for the cement and its hydration at the age of the strength',
  models: ['capillary-porosity', 'ultimate-degree', 'hydration-growth', 'equivalent-age', 'paste-volumes'],
  digits: 2,
  missing: (_w, { amounts }) => {
    const { families } = amounts;
    const setting = Object.values(families).reduce((s, grams) => s + grams, 0);
    if (families.portland === 0) return 'no portland cement';
    if (families.portland < PORTLAND_ALONE * setting) return 'told for portland without another binder only';
    return withoutWater(amounts);
  },
  form: (world, state) => {
    const degree = state.water.degreeAt(24 * world.conditions.strengthAge);
    return {
      numerator: world.materials.map((m) => m.freeWater),
      denominator: world.materials.map((m) => (m.family === 'portland' ? m.solids : 0)),
      link: {
        of: (ratio) => 100 * capillaryPorosity(degree, Math.max(ratio, 1e-9)),
        // The porosity rests at 0 below some water; any such blend meets "at least 0".
        inverse: (percent) =>
          percent <= 0
            ? Number.NEGATIVE_INFINITY
            : percent >= 100
              ? Number.POSITIVE_INFINITY
              : ((1 + 1.15 * degree) / (1 - percent / 100) - 1) / 3.15,
        rising: true,
      },
    };
  },
};

export const dryingShrinkage: Property = {
  id: 'drying-shrinkage',
  name: 'shrinkage on drying',
  quantity: 'percent',
  unit: '%',
  meaning: 'how much shorter the piece gets while it dries; 0.1 % is a thousandth of its length. Sand holds it back',
  restsOn: 'shrinkage of neat cement paste at 50 % humidity, held back by the sand; a class rather than a measurement',
  models: ['drying-shrinkage'],
  digits: 2,
  missing: (_w, { amounts }) => {
    if (mostlyLime(amounts)) return 'lime shrinks more than the cement that this is known of';
    return shrinkingShare(amounts) >= 0.25 ? withoutWater(amounts) : 'plaster, CSA and aluminate cement hardly shrink';
  },
  form: (world, state) => {
    const paste = world.model('paste-shrinkage') * shrinkingShare(state.amounts);
    return {
      numerator: world.materials.map((m) => (m.kind === 'sand' ? m.grainVolume : 0)),
      denominator: world.materials.map((m) => m.volume / (1 - state.air)),
      link: {
        of: (grains) => restrainedShrinkage(paste, grains),
        inverse: (percent) =>
          percent <= 0 ? Number.POSITIVE_INFINITY : 1 - (percent / paste) ** (1 / RESTRAINT_POWER),
        rising: false,
      },
    };
  },
};

export const carbonatedWeight: Property = {
  id: 'carbonated-weight',
  name: 'weight once its lime is stone',
  quantity: 'mass',
  unit: 'g',
  meaning: 'dry weight plus what slaked lime takes up from the air over months to years',
  restsOn: 'stoichiometry, as if all slaked lime were reached; how long that takes is not told',
  models: ['stoichiometry', 'mass-balance'],
  digits: 3,
  missing: (world, s) =>
    world.materials.some((m, i) => m.calciumHydroxide > 0 && s.grams[i]! > 0) ? null : 'no slaked lime',
  form: (world, state) => {
    const gain = carbonationGain(world);
    return linear(dryGrams(world, state).map((dry, i) => dry + gain[i]!));
  },
};
