import { propertyById } from '../blend/properties/index.js';
import type { Verdict } from '../blend/target.js';
import type { Collision } from '../optimise/conflict.js';
import type { SystemReport } from '../optimise/settle-systems.js';
import { isOverAYear, OVER_A_YEAR } from '../units/foretold.js';
import { printProperty, type Wording } from './print.js';
import type { CollisionResult, ProposalResult } from './result-schema.js';

/**
 * What results tell of foretold times. The law of doses runs on for ever, and a mix that never sets has a time of more years
 * than there have been. Beyond a year a figure says no more than that: results have null for it, with the reason beside it.
 * Targets are judged by the model's own number.
 */
export function isBeyondTelling(id: string, value: number): boolean {
  switch (propertyById(id)?.quantity) {
    case 'set-time':
      return isOverAYear(value, 'setTime');
    case 'days':
      return isOverAYear(24 * value, 'time');
    default:
      return false;
  }
}

/** A property's number as results have it; null beyond what is told. */
export const toldNumber = (id: string, value: number | null): number | null =>
  value === null || isBeyondTelling(id, value) ? null : value;

/** Why there is no number, where the model has one that is beyond telling. */
export const toldWhy = (id: string, value: number | null): string | null =>
  value !== null && isBeyondTelling(id, value) ? OVER_A_YEAR : null;

/** Hours that the model foretells, as results have them; `never`: why there is no end to it. */
export function toldHours(
  hours: number,
  never: string,
): { readonly value: number | null; readonly why: string | null } {
  if (!Number.isFinite(hours)) return { value: null, why: never };
  return isOverAYear(hours, 'time') ? { value: null, why: OVER_A_YEAR } : { value: hours, why: null };
}

export const NEVER_DRY = 'never in this room';

/** A verdict as results have it. */
export function toldVerdict(verdict: Verdict): Verdict {
  const { property, value } = verdict;
  return value !== null && isBeyondTelling(property, value) ? { ...verdict, value: null, margin: null } : verdict;
}

/** What became of a binder system, as results have it; `property` is the objective's. */
export const toldSystem = (property: string, report: SystemReport): ProposalResult['systems'][number] => ({
  ...report,
  value: toldNumber(property, report.value),
  why: report.why ?? toldWhy(property, report.value),
  ...(report.reached === undefined ? {} : { reached: toldNumber(property, report.reached) }),
});

/** A side of a target with what the nearest blend has instead, as far as it is told. */
export const toldCollision = (c: Collision): CollisionResult =>
  toldWhy(c.property, c.nearest) === null ? { ...c } : { ...c, nearest: null, missedBy: null };

/** A property of a result. */
interface Told {
  readonly property: string;
  readonly value: number | null;
  readonly why: string | null;
}

interface Ranged extends Told {
  readonly low: number | null;
  readonly high: number | null;
}

/** Whether there is anything to tell of it: a number, or that it is beyond telling. */
export const isTold = ({ value, why }: Pick<Told, 'value' | 'why'>): boolean => value !== null || why === OVER_A_YEAR;

/** Its value in words; "over a year" beyond that, and a dash for what the blend does not have. */
export const printTold = ({ property, value, why }: Told, wording: Wording): string =>
  value === null && why === OVER_A_YEAR ? OVER_A_YEAR : printProperty(property, value, wording);

/** The same of a number that stands elsewhere in a result: the reason stands beside the property. */
export const printToldOf = (
  result: { readonly properties: readonly Told[] },
  property: string,
  value: number | null,
  wording: Wording,
): string => {
  const why = result.properties.find((p) => p.property === property)?.why ?? null;
  return printTold({ property, value, why }, wording);
};

/** "likely 35 min to 2 h"; empty where there is no range, or none that shows. */
export function printLikely({ property, low, high }: Ranged, wording: Wording): string {
  if (low === null) return '';
  const words = [low, high].map((end) => (end === null ? OVER_A_YEAR : printProperty(property, end, wording)));
  return words[0] === words[1] ? '' : `likely ${words.join(' to ')}`;
}
