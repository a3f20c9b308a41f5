import { EXPONENTIAL, IDENTITY, type Property } from '../property.js';
import { hardens } from '../state/strength-state.js';

export const strength: Property = {
  id: 'strength',
  name: 'strength, an estimate',
  quantity: 'strength',
  unit: 'MPa',
  meaning: 'crushing strength of the dry piece at the age asked for; an estimate, not for structural use',
  restsOn: 'plaster: exponential law in water to plaster; portland: gel/space ratio; others and mixtures: wide, ours',
  models: ['plaster-strength', 'gel-space-strength', 'mixed-strength'],
  digits: 2,
  needed: true,
  missing: (world, state) => (hardens(world, state.grams) ? null : 'nothing in the blend hardens'),
  form: (_world, state) => ({
    numerator: state.strength.numerator,
    denominator: state.strength.denominator,
    link: EXPONENTIAL,
  }),
};

/** J/(g K). Water 4.18; dry powders and grains about 0.84 (quartz and clinker, from memory); gypsum 1.08 (thermoddem). */
const WATER_HEAT_CAPACITY = 4.18;
const SOLID_HEAT_CAPACITY = 0.84;

export const peakTemperature: Property = {
  id: 'peak-temperature',
  name: 'hottest it can get',
  quantity: 'temperature',
  unit: '°C',
  meaning: 'upper bound: as if no heat left the mould',
  restsOn: 'heat of hydration of the binders (portland: its first day) over the heat the mix can hold',
  models: ['adiabatic-rise'],
  digits: 2,
  form: (world, state) => {
    const dayOne = world.model('heat-day-one');
    const start = world.conditions.temperature;
    const capacity = world.materials.map((m) => WATER_HEAT_CAPACITY * (1 - m.solids) + SOLID_HEAT_CAPACITY * m.solids);
    const heat = world.materials.map((m) => {
      if (m.family === null) return 0;
      if (m.family === 'portland') return m.heat * dayOne;
      // Binders short of water give off only the heat of what reacts.
      if (m.family === 'gypsum') return m.heat * state.water.gypsumDegree;
      return m.heat * state.water.quickDegreeAt(24);
    });
    return {
      numerator: capacity.map((c, i) => c * start + heat[i]!),
      denominator: capacity,
      link: IDENTITY,
    };
  },
};
