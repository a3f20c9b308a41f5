import { IDENTITY, type Property } from '../property.js';

export const cost: Property = {
  id: 'cost',
  stateless: true,
  name: 'materials cost',
  quantity: 'money',
  unit: 'currency',
  meaning: 'materials in one piece, waste included',
  restsOn: 'your price list',
  models: ['materials-cost'],
  digits: 3,
  needed: true,
  missing: (world, state) => {
    const lacking = world.materials.filter((_m, i) => state.grams[i]! > 0 && world.prices[i] === null);
    if (lacking.length === 0) return null;
    return `no price for ${lacking.map((m) => m.name).join(', ')}`;
  },
  form: (world) => ({
    numerator: world.prices.map((p) => (p ?? 0) / (1 - world.conditions.waste)),
    denominator: null,
    link: IDENTITY,
  }),
};
