import { isBinder } from '../blend/numbers.js';
import { inBase } from '../blend/state/amounts.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import type { Material } from '../materials/schema.js';
import type { Row } from './lp/types.js';
import type { AskedDose, Question } from './question.js';

/** A limit every proposal keeps unless the brief sets its own on the same property. */
export interface StandingLimit extends Target {
  readonly because: string;
  /** Whether a target on another property is a wish that this limit would make void. */
  readonly givesWayTo?: (target: Target) => boolean;
}

/**
 * Least minutes from water to the last moment a mix still pours: what it takes to sift plaster in, let it soak and stir
 * it, as the card has it. Common practice, no source.
 */
export const LEAST_WORKING_TIME = 5;

/** What comes after the last moment a mix pours. */
const LATER_TIMES = ['initial-set', 'final-set', 'demould-time'];

export const STANDING_LIMITS: readonly StandingLimit[] = [
  { property: 'flow', min: 0.95, max: 1.12, because: 'so that it pours and does not bleed (ours)' },
  { property: 'paste-to-voids', min: 1.1, because: 'so that paste fills the holes between the grains (excess paste)' },
  { property: 'sand-to-binder', max: 3, because: 'leaner than mortar is not modelled (mortar test: 2.75, ASTM C109)' },
  { property: 'strength', min: 2, because: 'so that the piece bears handling (ours)' },
  {
    property: 'working-time',
    min: LEAST_WORKING_TIME,
    because: 'so that there is time to mix and pour (common practice, no source)',
    givesWayTo: ({ property, max }) => LATER_TIMES.includes(property) && max !== undefined && max <= LEAST_WORKING_TIME,
  },
];

/** Standing limits that the maker's own targets neither replace nor rule out, side by side. */
export function standingTargets(targets: readonly Target[]): StandingLimit[] {
  return STANDING_LIMITS.filter(
    (limit) => !targets.some((t) => t.property === limit.property || limit.givesWayTo?.(t) === true),
  );
}

/** Most pigment of the binder in percent: ASTM C979. */
const MOST_PIGMENT = 10;

/** All pozzolans together: at most this share of the binder, whatever each may be by its dose window. Ours. */
const MOST_POZZOLAN_SHARE = 0.4;

/** Dose windows of the table, doses that were asked for, pigment ceiling, stock. None depends on the blend's state. */
export function doseRows(question: Question, world: World): Row[] {
  const asked = new Map(question.doses.map((d) => [d.material, d]));
  const rows: Row[] = [];
  question.materials.forEach((material, column) => {
    const dose = asked.get(material.id);
    if (dose) rows.push(askedRow(dose, world, column));
    else if (material.dose) rows.push(windowRow(material, world, column));
  });
  const binder = world.materials.map((m) => (isBinder(m) ? m.solids : 0));
  rows.push({
    name: 'pigment of the binder max',
    coefficients: world.materials.map(
      (m, i) => (m.kind === 'pigment' ? m.solids : 0) - (MOST_PIGMENT / 100) * binder[i]!,
    ),
    high: 0,
    scale: 1,
  });
  rows.push({
    name: 'pozzolan of the binder max',
    coefficients: world.materials.map(
      (m, i) => (m.kind === 'pozzolan' ? m.solids : 0) - MOST_POZZOLAN_SHARE * binder[i]!,
    ),
    high: 0,
    scale: 1,
  });
  return rows;
}

const share = (world: World, of: AskedDose['of'], column: number, percent: number): number[] =>
  world.materials.map((m, i) => (i === column ? m.solids : 0) - (percent / 100) * inBase(m, of));

function askedRow(dose: AskedDose, world: World, column: number): Row {
  const coefficients = share(world, dose.of, column, dose.percent);
  return { name: `${dose.material} as asked`, coefficients, low: 0, high: 0, scale: 1 };
}

function windowRow(material: Material, world: World, column: number): Row {
  const window = material.dose!;
  // A proposal stays below the dose that would raise a warning.
  const most = Math.min(window.most.value, window.warn?.value ?? Number.POSITIVE_INFINITY);
  const coefficients = share(world, window.of, column, most);
  return { name: `${material.id} dose max`, coefficients, high: 0, scale: 1 };
}
