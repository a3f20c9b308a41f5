import type { Assessment } from '../blend/assess.js';
import { LEAST_WORKING_TIME } from '../optimise/standing-limits.js';
import type { Problem } from '../problems/problem.js';
import { printMinutes } from './print.js';

/** A blend that stiffens before anyone has mixed and poured it. */
export function hurried({ properties }: Pick<Assessment, 'properties'>): Problem[] {
  const minutes = properties.find((p) => p.property === 'working-time')?.value ?? null;
  // By what is printed: “5 min is less than 5 min” would help nobody.
  if (minutes === null || Number(minutes.toPrecision(2)) >= LEAST_WORKING_TIME) return [];
  return [
    {
      code: 'recipe-hurried',
      severity: 'warning',
      found: `${printMinutes(minutes)} from water to the last moment it pours`,
      hint: `too short to mix and pour, which take ${LEAST_WORKING_TIME} min or so: slow the set down`,
    },
  ];
}
