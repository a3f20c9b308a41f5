import { propertyById } from '../blend/properties/index.js';
import type { BlendState } from '../blend/state/state.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import type { Column, Row } from './lp/types.js';
import type { Question } from './question.js';
import { rowsOf } from './rows.js';
import { doseRows, standingTargets } from './standing-limits.js';
import type { BinderSystem } from './systems.js';

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
  state: BlendState,
  system: BinderSystem,
  tighten: ReadonlyMap<string, number> = new Map(),
): BlendProgram {
  const rows: Row[] = [];
  const origins: RowOrigin[] = [];
  const fixed = (row: Row) => {
    rows.push(row);
    origins.push({ kind: 'fixed' });
  };
  const limited = (kind: 'target' | 'standing', target: Target) => {
    for (const side of ['min', 'max'] as const) {
      const limit = target[side];
      if (limit === undefined) continue;
      const give = tighten.get(`${target.property} ${side}`) ?? 0;
      const held = side === 'max' ? { max: limit - give } : { min: limit + give };
      for (const row of rowsOf(propertyById(target.property)!, { property: target.property, ...held }, world, state)) {
        rows.push(row);
        origins.push({ kind, target, side });
      }
    }
  };

  fixed(volumeRow(question, world, state));
  for (const target of question.targets) limited('target', target);
  for (const limit of standingTargets(question.targets)) limited('standing', limit);
  for (const row of doseRows(question, world)) fixed(row);
  for (const row of system.rows(world)) fixed(row);
  return { columns: columnsOf(question, world, system), rows, origins };
}

/** The blend fills the mould: sum of m/density over (1 - air) equals the volume. */
function volumeRow(question: Question, world: World, state: BlendState): Row {
  const volume = question.conditions.volume;
  return {
    name: 'fills the mould',
    coefficients: world.materials.map((m) => m.volume / (1 - state.air)),
    low: volume,
    high: volume,
    scale: volume,
  };
}

function columnsOf(question: Question, world: World, system: BinderSystem): Column[] {
  const { batch, conditions, stock } = question;
  return world.materials.map((m, i) => {
    const barred =
      (m.family !== null && !system.families.includes(m.family)) ||
      (question.materials[i]!.notFor ?? []).includes(conditions.service);
    const onHand = stock.get(m.id);
    const share = onHand === undefined ? Number.POSITIVE_INFINITY : (onHand * (1 - conditions.waste)) / batch.pieces;
    return { name: m.id, upper: barred ? 0 : share };
  });
}
