import { AIMS } from './objective.js';
import type { Objective } from './question.js';

/** Which way a property is better, other things being equal. Those not named here are neither: they have to fit. */
const BETTER: Readonly<Record<string, 'min' | 'max'>> = {
  cost: 'min',
  'fresh-weight': 'min',
  'fresh-density': 'min',
  'demould-weight': 'min',
  'dry-weight': 'min',
  'working-time': 'max',
  'demould-time': 'min',
  'drying-days': 'min',
  strength: 'max',
  'strength-at-demould': 'max',
  'peak-temperature': 'min',
  'likely-peak': 'min',
  'capillary-pores': 'min',
  'drying-shrinkage': 'min',
};

/** Which way a property is better for a maker with this objective; null where it has to fit rather than be much. */
export function betterWay(property: string, objective: Objective): 'min' | 'max' | null {
  const aim = AIMS[objective];
  return aim.property.id === property ? aim.sense : (BETTER[property] ?? null);
}
