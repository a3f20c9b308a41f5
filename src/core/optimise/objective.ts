import { propertyById } from '../blend/properties/index.js';
import type { Form, Property } from '../blend/property.js';
import type { World } from '../blend/world.js';
import type { Objective } from './question.js';
import { type Neighbourhood, tangentForm } from './tangent.js';

interface Aim {
  readonly property: Property;
  readonly sense: 'min' | 'max';
}

const aim = (id: string, sense: 'min' | 'max'): Aim => ({ property: propertyById(id)!, sense });

/** Each objective is a property and a direction. */
export const AIMS: Readonly<Record<Objective, Aim>> = {
  cheapest: aim('cost', 'min'),
  lightest: aim('dry-weight', 'min'),
  heaviest: aim('dry-weight', 'max'),
  strongest: aim('strength', 'max'),
  quickest: aim('demould-time', 'min'),
};

/** The ratio to optimise and in which sense; links are monotone, so the ratio's optimum is the property's. */
export function objectiveForm(objective: Aim, world: World, hood: Neighbourhood): { form: Form; sense: 'min' | 'max' } {
  const form = tangentForm(objective.property, world, hood);
  const flipped = objective.sense === 'min' ? 'max' : 'min';
  return { form, sense: form.link.rising ? objective.sense : flipped };
}

export type { Aim };
