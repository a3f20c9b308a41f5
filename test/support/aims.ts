import { propertyById } from '../../src/core/blend/properties/index.js';
import type { Aim } from '../../src/core/optimise/objective.js';

export const aim = (id: string, sense: 'min' | 'max'): Aim => ({ property: propertyById(id)!, sense });

export const CHEAP = aim('cost', 'min');
export const LIGHT = aim('fresh-weight', 'min');
export const HEAVY = aim('fresh-weight', 'max');
