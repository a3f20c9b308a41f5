import { isBinder } from '../blend/numbers.js';
import { inBase } from '../blend/state/amounts.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import type { Material } from '../materials/schema.js';
import { C979_MOST } from '../science/pigment.js';
import type { Row } from './lp/types.js';
import type { AskedDose, Question } from './question.js';
import type { BinderSystem } from './systems.js';

/** A limit that a blend is judged by. */
export interface Limit extends Target {
  /** What a miss counts for beside the others; 1 where left out. */
  readonly price?: number;
}

/** A limit every proposal keeps unless the brief sets its own on the same property. */
export interface StandingLimit extends Target {
  readonly because: string;
  /**
   * A least that a blend has this many times over is left out of its rows: it holds nothing there, and costs a gradient.
   * The blend that a step leads to is held to it all the same.
   */
  readonly idleFrom?: number;
}

/**
 * Least minutes from water to the last moment a mix still pours: what it takes to sift plaster in, let it soak and stir
 * it, as the card has it. Common practice, no source.
 */
export const LEAST_WORKING_TIME = 5;

export const STANDING_LIMITS: readonly StandingLimit[] = [
  { property: 'flow', min: 0.95, max: 1.12, because: 'so that it pours and does not bleed (ours)' },
  { property: 'paste-to-voids', min: 1.1, because: 'so that paste fills the holes between the grains (excess paste)' },
  { property: 'sand-to-binder', max: 3, because: 'leaner than mortar is not modelled (mortar test: 2.75, ASTM C109)' },
  { property: 'strength', min: 2, because: 'so that the piece bears handling (ours)' },
  {
    property: 'working-time',
    min: LEAST_WORKING_TIME,
    idleFrom: 4,
    because: 'so that there is time to mix and pour (common practice, no source)',
  },
];

/** Standing limits that the maker's own targets do not replace. */
export function standingTargets(targets: readonly Target[]): StandingLimit[] {
  return STANDING_LIMITS.filter((limit) => !targets.some((t) => t.property === limit.property));
}

/** Where nothing keeps every limit, standing ones (it pours, holds together) count so many times a target: they go last. */
export const STANDING_PRICE = 10;

/** All that a blend in a binder system is judged by: the brief's targets, standing limits, and what the system must hold. */
export function limitsIn(
  { targets, unmet = false }: Pick<Question, 'targets' | 'unmet'>,
  { holds }: Pick<BinderSystem, 'holds'>,
): Limit[] {
  const standing = [...standingTargets(targets), ...holds];
  return [...targets, ...(unmet ? standing.map((limit) => ({ ...limit, price: STANDING_PRICE })) : standing)];
}

/** Most pigment of the binder in percent: ASTM C979. */
export const MOST_PIGMENT = C979_MOST;

/** Most of all pozzolans together in percent of the binder, whatever each may be by its dose window. Ours. */
export const MOST_POZZOLAN = 40;

/** Dose windows of the table, doses that were asked for, pigment ceiling, stock. None depends on the blend's state. */
export function doseRows(question: Question, world: World): Row[] {
  const asked = new Map(question.doses.map((d) => [d.material, d]));
  const rows: Row[] = [];
  question.materials.forEach((material, column) => {
    const dose = asked.get(material.id);
    if (dose) rows.push(askedRow(dose, world, column));
    else if (material.dose) rows.push(windowRow(material, world, column));
  });
  rows.push(...sharedRows(question, world));
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
      (m, i) => (m.kind === 'pozzolan' ? m.solids : 0) - (MOST_POZZOLAN / 100) * binder[i]!,
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

/** What the table warns of has a figure or two: a dose past that by no more than this share is a step of the scale. Ours. */
export const DOSE_FIGURES = 0.005;

/** A proposal stays below the dose [percent] that would raise a warning. */
const mostProposed = ({ most, warn }: NonNullable<Material['dose']>): number =>
  Math.min(most.value, warn?.value ?? Number.POSITIVE_INFINITY);

/**
 * Materials in which the same works share one window: what they fill of their own adds up to one at most. What the maker
 * asked for is taken off it.
 */
function sharedRows({ materials, doses }: Question, world: World): Row[] {
  const asked = new Map(doses.map((d) => [d.material, d.percent]));
  const dosed = materials.flatMap(({ id, active, dose }, column) =>
    active && dose ? [{ id, active, dose, column }] : [],
  );
  const rows: Row[] = [];
  for (const first of dosed) {
    const alike = dosed.filter((d) => d.active === first.active && d.dose.of === first.dose.of);
    if (alike[0] !== first || alike.length < 2) continue;
    const most = mostProposed(first.dose);
    const taken = alike.reduce((sum, d) => sum + (asked.get(d.id) ?? 0) / mostProposed(d.dose), 0);
    const room = (Math.max(0, 1 - taken) * most) / 100;
    const coefficients = world.materials.map((m) => -room * inBase(m, first.dose.of));
    for (const { id, dose, column } of alike) {
      if (!asked.has(id)) coefficients[column]! += (world.materials[column]!.solids * most) / mostProposed(dose);
    }
    rows.push({ name: `${first.active} together max`, coefficients, high: 0, scale: 1 });
  }
  return rows;
}

function windowRow(material: Material, world: World, column: number): Row {
  const coefficients = share(world, material.dose!.of, column, mostProposed(material.dose!));
  return { name: `${material.id} dose max`, coefficients, high: 0, scale: 1 };
}
