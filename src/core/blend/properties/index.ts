import type { Property } from '../property.js';
import { pigmentShare, polymerShare, pozzolanToCement, sulfate } from './chemistry.js';
import { cost } from './cost.js';
import { dryingDays } from './drying.js';
import { likelyPeak, peakTemperature } from './heat.js';
import { demouldTime, finalSet, initialSet, workingTime } from './setting.js';
import { strength, strengthAtDemould } from './strength.js';
import { capillaryPores, carbonatedWeight, dryingShrinkage } from './structure.js';
import { demouldWeight, dryWeight, freshDensity, freshVolume, freshWeight, weightOnDays } from './volume-and-weight.js';
import {
  flow,
  pasteToVoids,
  sandToBinder,
  waterToBinder,
  waterToBinderK,
  waterToCement,
  waterToPlaster,
  waterToPowder,
} from './water.js';

/** Every property, in the order it is printed. Adding one here is all that assess, propose and the page need. */
export const PROPERTIES: readonly Property[] = [
  freshVolume,
  freshDensity,
  freshWeight,
  demouldWeight,
  ...weightOnDays,
  dryWeight,
  carbonatedWeight,
  waterToBinder,
  waterToBinderK,
  waterToPlaster,
  waterToCement,
  waterToPowder,
  flow,
  pasteToVoids,
  sandToBinder,
  workingTime,
  initialSet,
  finalSet,
  demouldTime,
  dryingDays,
  strengthAtDemould,
  strength,
  capillaryPores,
  dryingShrinkage,
  likelyPeak,
  peakTemperature,
  sulfate,
  pozzolanToCement,
  pigmentShare,
  polymerShare,
  cost,
];

const byId = new Map(PROPERTIES.map((p) => [p.id, p]));

/** The property with this id, or undefined. */
export const propertyById = (id: string): Property | undefined => byId.get(id);
