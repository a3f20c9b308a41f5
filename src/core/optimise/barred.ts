import type { Material } from '../materials/schema.js';
import { addedSo3 } from '../materials/sulfate.js';
import type { Service } from '../materials/words.js';
import type { Question } from './question.js';
import type { BinderSystem } from './systems.js';

/**
 * Why a binder system holds nothing of a material that is in play: something else sets in it, it brings sulfate to a cement
 * that did not ask for it (a caution may stop that), or its row bans it from the service. Null where nothing bars it.
 */
export function barredBy(
  { doses, conditions }: Pick<Question, 'doses' | 'conditions'>,
  { families }: Pick<BinderSystem, 'families'>,
  material: Material,
): 'binder' | 'sulfate' | 'service' | null {
  const family = material.binder?.family;
  if (family !== undefined && !families.includes(family)) return 'binder';
  if (material.notFor?.includes(conditions.service)) return 'service';
  const beside = family === undefined && !families.includes('gypsum') && addedSo3(material) > 0;
  return beside && !doses.some((d) => d.material === material.id) ? 'sulfate' : null;
}

/** Why a material that its row bans from a service is not used there. */
export const bannedWords = (service: Service): string => `its row in the table bans it from ${service} service`;
