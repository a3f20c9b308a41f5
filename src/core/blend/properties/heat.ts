import { IDENTITY, type Property } from '../property.js';

export const peakTemperature: Property = {
  id: 'peak-temperature',
  name: 'hottest it can get',
  quantity: 'temperature',
  unit: '°C',
  meaning: 'upper bound: as if no heat left the mould',
  restsOn: 'heat of hydration of the binders (portland: its first day) over the heat the mix can hold',
  models: ['adiabatic-bound', 'plaster-heat', 'cement-heat'],
  digits: 2,
  form: (world, { heat }) => {
    const start = world.conditions.temperature;
    return {
      numerator: heat.capacity.map((c, i) => c * start + heat.heat[i]!),
      denominator: heat.capacity,
      link: IDENTITY,
    };
  },
};

export const likelyPeak: Property = {
  id: 'likely-peak',
  name: 'how hot it may get',
  quantity: 'temperature',
  unit: '°C',
  meaning: 'likely peak in a silicone mould of usual thickness, inside the piece; wrapping or crowding makes it hotter',
  restsOn:
    'the upper bound, less what leaves through the faces of the piece (its shape, or its wall) by the time it sets; rough',
  models: ['semi-adiabatic', 'adiabatic-bound', 'plaster-heat', 'cement-heat'],
  digits: 2,
  form: (world, { heat }) => {
    const start = world.conditions.temperature;
    const reached = heat.reached();
    return {
      numerator: heat.capacity.map((c, i) => c * start + reached * heat.heat[i]!),
      denominator: heat.capacity,
      link: IDENTITY,
    };
  },
};
