import {
  CONSTANT_WEIGHT,
  type ConstantWeightRule,
  freeWhenDryAfter,
  hoursToConstantWeight,
} from '../../science/drying.js';
import type { Form, Property } from '../property.js';
import type { BlendState } from '../state/state.js';
import type { World } from '../world.js';
import { dryWeight, weightForm } from './volume-and-weight.js';

/**
 * Days after the water went in until the piece is dry by its weight, as a function of the water still to leave over the
 * dry weight. Everything that will leave is counted from the moment drying begins.
 */
export function dryingForm(world: World, state: BlendState, rule: ConstantWeightRule = CONSTANT_WEIGHT): Form {
  const { dryFromHours, dryingHours } = state.water;
  const dry = dryWeight.form(world, state).numerator;
  const start = weightForm(world, state, dryFromHours).numerator;
  return {
    numerator: start.map((g, i) => g - dry[i]!),
    denominator: dry,
    link: {
      of: (ratio) => (dryFromHours + hoursToConstantWeight(Math.max(0, ratio), 1, dryingHours, rule)) / 24,
      inverse: (days) => freeWhenDryAfter(24 * days - dryFromHours, dryingHours, rule),
      rising: true,
    },
  };
}

export const dryingDays: Property = {
  id: 'drying-days',
  name: 'days until dry',
  quantity: 'days',
  unit: 'days',
  meaning:
    'days from pouring until it is dry: under 0.1 % lost between weighings 15 h apart, and under 0.5 % of water left to leave',
  restsOn: 'wall, open faces, room and air movement, days kept covered; wide until your own weighings narrow it',
  models: ['constant-weight', 'drying-first-order', 'evaporation', 'sheet-drying'],
  digits: 2,
  needed: true,
  missing: (_w, { amounts, water }) => {
    if (amounts.allWater <= 0) return 'no water to dry out';
    return Number.isFinite(water.dryingHours) ? null : 'this room is too damp to dry it';
  },
  form: (world, state) => dryingForm(world, state),
};
