import type { Property } from '../property.js';
import { pigmentShare, polymerShare, pozzolanToCement, sulfate } from './chemistry.js';
import { cost } from './cost.js';
import { dryingDays } from './drying.js';
import { likelyPeak, peakTemperature } from './heat.js';
import { demouldTime, finalSet, initialSet, workingTime } from './setting.js';
import { strength, strengthAtDemould } from './strength.js';
import { capillaryPores, carbonatedWeight, dryingShrinkage } from './structure.js';
import { demouldWeight, dryWeight, freshDensity, freshVolume, freshWeight, weightOnDay } from './volume-and-weight.js';
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

/** Days after pouring whose weight is told of every blend. */
export const USUAL_DAYS = [1, 3, 7, 28] as const;

/** Any other whole day up to this one has a property too, told where it is asked for. */
export const LAST_DAY = 365;

/** Every property that is always told, in the order it is printed. Adding one here is all that assess, propose and the page need. */
export const PROPERTIES: readonly Property[] = [
  freshVolume,
  freshDensity,
  freshWeight,
  demouldWeight,
  ...USUAL_DAYS.map(weightOnDay),
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

/** Id of the weight on a whole day from 1 to LAST_DAY. */
export const WEIGHT_ON_DAY = /^weight-day-([1-9]|[1-9]\d|[12]\d\d|3[0-5]\d|36[0-5])$/;

/** What stands for them all, to be told. */
export const WEIGHT_DAYS = `a whole day: weight-day-1 to weight-day-${LAST_DAY}`;

const byId = new Map(PROPERTIES.map((p) => [p.id, p]));

/** The property with this id, the weight on any whole day among them, or undefined. Always the same object for an id. */
export function propertyById(id: string): Property | undefined {
  const day = byId.has(id) ? null : WEIGHT_ON_DAY.exec(id);
  if (day !== null) byId.set(id, weightOnDay(Number(day[1])));
  return byId.get(id);
}

const dayOf = (id: string): number => Number(WEIGHT_ON_DAY.exec(id)?.[1] ?? 0);

/** PROPERTIES and, in their place by day, the weights on other days that are asked for by id or by day. */
export function propertiesWith(ids: readonly string[], days: readonly number[]): readonly Property[] {
  const asked = new Set([...ids.map(dayOf), ...days].filter((day) => day > 0));
  for (const day of USUAL_DAYS) asked.delete(day);
  if (asked.size === 0) return PROPERTIES;
  const first = PROPERTIES.findIndex((p) => dayOf(p.id) > 0);
  const weights = [...USUAL_DAYS, ...asked].sort((a, b) => a - b).map((day) => propertyById(`weight-day-${day}`)!);
  return [...PROPERTIES.slice(0, first), ...weights, ...PROPERTIES.slice(first + USUAL_DAYS.length)];
}
