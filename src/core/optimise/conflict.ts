import { propertyById } from '../blend/properties/index.js';
import { propertyValue } from '../blend/property.js';
import type { BlendState } from '../blend/state/state.js';
import { holdsWithout, marginOf, type Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import { conflictSet } from './lp/conflict-set.js';
import { AGREE } from './miss.js';
import { AIMS } from './objective.js';
import type { Question } from './question.js';
import { settle } from './settle.js';
import type { Settled } from './settled.js';
import { limitsIn } from './standing-limits.js';
import type { BinderSystem } from './systems.js';

/** A side of a target that takes part in a conflict, and how far the nearest blend misses it. */
export interface Collision {
  readonly property: string;
  readonly side: 'min' | 'max';
  readonly limit: number;
  /** `standing`: a limit every blend keeps, not one of the brief. */
  readonly kind: 'target' | 'standing';
  /** What the nearest blend has instead. */
  readonly nearest: number | null;
  /** In the property's unit; 0 when the nearest blend meets this side, all of the limit where it lacks the property. */
  readonly missedBy: number;
}

export interface Conflict {
  /** The binder system of the nearest blend. */
  readonly system: string;
  /** Sides that cannot hold together: irreducible for the rows of the nearest blend, or else for the search itself. */
  readonly collisions: readonly Collision[];
  /** Every side the nearest blend misses as it is weighed out. */
  readonly missed: readonly Collision[];
}

/**
 * Which targets collide and by how much the nearest blend misses them.
 *
 * The rows at the nearest blend name the colliding sides. Where limits curve, these rows may rule out what is possible
 * elsewhere; so the sides are settled by themselves, and if a blend keeps them all, one side after the other is given up
 * that is not needed for nothing to fit. `weighed`: the nearest blend as it is weighed out, which is told of.
 */
export function conflictOf(
  question: Question,
  world: World,
  ranked: readonly { system: BinderSystem; answer: Settled }[],
  weighed?: BlendState,
): Conflict | null {
  const nearest = ranked[0];
  if (nearest === undefined) return null;
  const { program, state } = nearest.answer;
  const shown = weighed ?? state;
  const missing = (property: string, side: 'min' | 'max', limit: number, at: BlendState) => {
    const one: Target = side === 'max' ? { property, max: limit } : { property, min: limit };
    const { value } = propertyValue(propertyById(property)!, world, at);
    const lacking = holdsWithout(propertyById(property)!, one, world, at) ? 0 : Math.abs(limit);
    return { nearest: value, missedBy: value === null ? lacking : Math.max(0, -marginOf(one, value)) };
  };
  const collisionAt = (r: number): Collision[] => {
    const origin = program.origins[r]!;
    if (origin.kind === 'fixed') return [];
    const { kind, side, target } = origin;
    const limit = target[side]!;
    return [{ property: target.property, side, limit, kind, ...missing(target.property, side, limit, shown) }];
  };
  const misses = (at: BlendState, slack: number) => (c: Collision) =>
    missing(c.property, c.side, c.limit, at).missedBy > slack * Math.abs(c.limit);
  const set = conflictSet(
    { columns: program.columns, rows: program.rows, sense: 'min', objective: program.columns.map(() => 0) },
    (r) => program.origins[r]!.kind !== 'fixed',
  );
  const all = unique(program.rows.flatMap((_row, r) => collisionAt(r)));
  // Never given up for a target, so no party to a collision; but what is weighed may miss it.
  const held = nearest.system.holds.flatMap((target) =>
    (['min', 'max'] as const).flatMap((side): Collision[] => {
      const limit = target[side];
      if (limit === undefined) return [];
      const { property } = target;
      return [{ property, side, limit, kind: 'standing', ...missing(property, side, limit, shown) }];
    }),
  );
  const byRows = unique(set === null ? [] : set.flatMap(collisionAt));
  // A standing limit that a blend keeps many times over has no row, and is given up all the same.
  const properties = limitsIn(question, { holds: [] }).map((t) => t.property);
  const fits = (kept: readonly Collision[]): boolean => {
    const asked = { ...question, targets: onlySides(properties, kept) };
    return settle(asked, world, nearest.system, { aim: AIMS[question.objective] })?.feasible === true;
  };
  return {
    system: nearest.system.id,
    collisions: colliding(byRows, all.filter(misses(state, AGREE)), all, fits),
    missed: unique([...all, ...held].filter(misses(shown, 1e-6))),
  };
}

function colliding(
  byRows: readonly Collision[],
  missed: readonly Collision[],
  all: readonly Collision[],
  fits: (kept: readonly Collision[]) => boolean,
): readonly Collision[] {
  // By rows none can be spared, but rows are straight: what every blend keeps is named only where it is in the way.
  if (byRows.length > 0 && !fits(byRows)) return without(byRows, (c) => c.kind === 'standing', fits);
  const left = [unique([...byRows, ...missed]), all].find((some) => some.length > 0 && !fits(some));
  return left === undefined ? byRows : without(left, () => true, fits);
}

/** Sides of a set that nothing fits, less those that it takes none of: one after the other is given up. */
function without(
  set: readonly Collision[],
  may: (side: Collision) => boolean,
  fits: (kept: readonly Collision[]) => boolean,
): readonly Collision[] {
  let left = set;
  for (const side of set.filter(may)) {
    const rest = left.filter((c) => c !== side);
    if (rest.length > 0 && !fits(rest)) left = rest;
  }
  return left;
}

/** These sides as targets; every other limit is given up, standing ones too. */
const onlySides = (properties: readonly string[], kept: readonly Collision[]): Target[] =>
  [...new Set(properties)].map((property) => ({
    property,
    ...Object.fromEntries(kept.filter((c) => c.property === property).map((c) => [c.side, c.limit])),
  }));

const unique = (list: readonly Collision[]): Collision[] =>
  list.filter((c, i) => list.findIndex((o) => o.property === c.property && o.side === c.side) === i);
