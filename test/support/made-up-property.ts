import type { Property } from '../../src/core/blend/property.js';

/** A property of which only the form matters. */
export const madeUp = (form: Property['form'], more: Partial<Property> = {}): Property => ({
  id: 'made-up',
  name: 'made up',
  quantity: 'ratio',
  unit: '-',
  meaning: '',
  restsOn: '',
  models: [],
  digits: 3,
  form,
  ...more,
});
