import { CONSTANT_WEIGHT, type ConstantWeightRule, hoursToConstantWeight } from '../../science/drying.js';
import type { Form, Property } from '../property.js';
import type { BlendState } from '../state/state.js';
import type { World } from '../world.js';
import { dryWeight, weightForm } from './volume-and-weight.js';

/**
 * Days after the water went in until two weighings call the piece dry, as a function of the water still to leave over the
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
      inverse: (days) => freeToBeDryAt(24 * days - dryFromHours, dryingHours, rule),
      rising: true,
    },
  };
}

/** hoursToConstantWeight turned round: free water over dry weight that is just dry after these hours. */
function freeToBeDryAt(hours: number, tau: number, rule: ConstantWeightRule): number {
  if (hours < rule.apart) return Number.NEGATIVE_INFINITY;
  const step = Math.exp(-rule.apart / tau);
  const left = rule.change / (1 - step - rule.change * step);
  return left <= 0 ? Number.POSITIVE_INFINITY : left * Math.exp((hours - rule.apart) / tau);
}

export const dryingDays: Property = {
  id: 'drying-days',
  name: 'days until dry',
  quantity: 'days',
  unit: 'days',
  meaning: 'days from pouring to constant weight: under 0.1 % lost between weighings 15 h apart',
  restsOn: 'wall, open faces, room and air movement, days kept covered; wide until your own weighings narrow it',
  models: ['constant-weight', 'drying-first-order', 'evaporation', 'sheet-drying'],
  digits: 2,
  needed: true,
  missing: (_w, s) => (Number.isFinite(s.water.dryingHours) ? null : 'this room is too damp to dry it'),
  form: (world, state) => dryingForm(world, state),
};
