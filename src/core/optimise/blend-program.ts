import { propertyById } from '../blend/properties/index.js';
import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { propertyValue } from '../blend/property.js';
import type { BlendState } from '../blend/state/state.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import { barredBy } from './barred.js';
import type { Column, Row } from './lp/types.js';
import type { Question } from './question.js';
import { rowsOf } from './rows.js';
import { doseRows, type StandingLimit, standingTargets } from './standing-limits.js';
import type { BinderSystem } from './systems.js';
import { type Neighbourhood, tangentForm } from './tangent.js';

/** What a row stands for, so that conflicts can be told in the maker's words. */
export type RowOrigin =
  | { readonly kind: 'target' | 'standing'; readonly target: Target; readonly side: 'min' | 'max' }
  | { readonly kind: 'fixed' };

export interface BlendProgram {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** One a row. */
  readonly origins: readonly RowOrigin[];
}

/** The linear rows of a question in one binder system, at the present state of the blend. */
export function blendProgram(
  question: Question,
  world: World,
  hood: Neighbourhood,
  system: BinderSystem,
  columns: readonly Column[],
  tighten: ReadonlyMap<string, number> = new Map(),
  steady: SteadyRows = steadyRows(question, world, system),
): BlendProgram {
  const rows: Row[] = [];
  const origins: RowOrigin[] = [];
  const fixed = (row: Row) => {
    rows.push(row);
    origins.push({ kind: 'fixed' });
  };
  const heldTo = (target: Target, side: 'min' | 'max'): Row[] => {
    const limit = target[side];
    if (limit === undefined) return [];
    const give = tighten.get(`${target.property} ${side}`) ?? 0;
    const held = side === 'max' ? { max: limit - give } : { min: limit + give };
    return rowsOf(propertyById(target.property)!, { property: target.property, ...held }, world, hood);
  };
  const limited = (kind: 'target' | 'standing', target: Target) => {
    for (const side of ['min', 'max'] as const) {
      for (const row of heldTo(target, side)) {
        rows.push(row);
        origins.push({ kind, target, side });
      }
    }
  };

  const [binder, ...others] = steady;
  fixed(volumeRow(question, world, hood));
  fixed(binder);
  for (const target of question.targets) limited('target', target);
  for (const limit of standingTargets(question.targets)) if (!idle(limit, world, hood.base)) limited('standing', limit);
  for (const limit of system.holds) {
    for (const side of ['min', 'max'] as const) {
      // In grams, as the other rows of the system are.
      for (const row of heldTo(limit, side)) fixed({ ...row, name: limit.name, scale: 1 });
    }
  }
  for (const row of others) fixed(row);
  return { columns, rows, origins };
}

function idle({ property, min, idleFrom }: StandingLimit, world: World, state: BlendState): boolean {
  if (min === undefined || idleFrom === undefined) return false;
  const { value } = propertyValue(propertyById(property)!, world, state);
  return value !== null && value > idleFrom * min;
}

export type SteadyRows = readonly [Row, ...Row[]];

/** Rows that look the same from every blend: something that sets, the doses, and what makes the binder system. */
export const steadyRows = (question: Question, world: World, system: BinderSystem): SteadyRows => [
  binderRow(world),
  ...doseRows(question, world),
  ...system.rows(world),
];

/** Name of the row of the mould's volume. */
export const MOULD = 'fills the mould';

/** The blend fills the mould: sum of m/density over (1 - air) equals the volume. */
function volumeRow(question: Question, world: World, hood: Neighbourhood): Row {
  const volume = question.conditions.volume;
  return {
    name: MOULD,
    coefficients: tangentForm(freshVolume, world, hood).numerator,
    low: volume,
    high: volume,
    scale: volume,
  };
}

/** Least share of the wet mix that sets; lean lime mortars hold about 0.08. Ours. */
const LEAST_BINDER = 0.05;

/** Something has to set: without it a mould full of wet grains would meet many a brief. */
function binderRow(world: World): Row {
  const coefficients = world.materials.map((m) => (m.family === null ? 0 : m.solids) - LEAST_BINDER);
  return { name: 'binder in the blend', coefficients, low: 0, scale: 1 };
}

/** Least water in g for each cm³ of the mould: without any, a mix has neither a set nor a strength to look for. Ours. */
const LEAST_WATER = 0.02;

/** Whether the brief's own limit on the flow bears a mix without water; what every blend keeps does not. */
const bearsNone = ({ targets }: Question): boolean => targets.some((t) => t.property === 'flow' && t.min === undefined);

/** One column a material: barred by the binder system or the service, or up to what is on hand. */
export function columnsOf(question: Question, world: World, system: BinderSystem): Column[] {
  const { batch, conditions, stock } = question;
  const water = bearsNone(question) ? LEAST_WATER * conditions.volume : 0;
  return world.materials.map(({ id, kind }, i) => {
    const onHand = stock.get(id);
    const share = onHand === undefined ? Number.POSITIVE_INFINITY : (onHand * (1 - conditions.waste)) / batch.pieces;
    const upper = barredBy(question, system, question.materials[i]!) === null ? share : 0;
    return { name: id, lower: kind === 'water' ? Math.min(upper, water) : 0, upper };
  });
}
