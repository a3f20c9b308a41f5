import { propertyById } from '../blend/properties/index.js';
import { propertyValue } from '../blend/property.js';
import type { BlendState } from '../blend/state/state.js';
import { holdsWithout, marginOf, type Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import type { Sought } from './objective.js';
import { NO_SIZE } from './rows.js';
import type { Limit } from './standing-limits.js';

/** Relative slack of a limit before rounding: far finer than any scale weighs. What is weighed out gets none. */
export const AGREE = 1e-5;

/** Shares by which a most is missed of what never comes, such as a set: farther than by what comes late. Ours. */
const NEVER = 4;

/** How far the forward model misses a limit, in shares of it. */
export function missOfOne(target: Target, world: World, state: BlendState, slack = AGREE): number {
  const property = propertyById(target.property)!;
  const { value } = propertyValue(property, world, state);
  if (value === null) {
    if (holdsWithout(property, target, world, state)) return 0;
    return target.max !== undefined && property.endless?.(world, state) === true ? NEVER : 1;
  }
  const size = Math.max(Math.abs(target.max ?? 0), Math.abs(target.min ?? 0));
  const missed = -marginOf(target, value);
  // Of nothing there are no shares: it is kept, or missed as a whole.
  if (size <= NO_SIZE) return missed > NO_SIZE ? 1 : 0;
  return Math.max(0, missed / size - slack);
}

/** The same of all limits together, each at its price; looks no further once more than `enough` is missed. */
export function missOf(
  limits: readonly Limit[],
  world: World,
  state: BlendState,
  slack = AGREE,
  enough = Number.POSITIVE_INFINITY,
): number {
  let total = 0;
  for (const limit of limits) {
    total += (limit.price ?? 1) * missOfOne(limit, world, state, slack);
    if (total > enough) break;
  }
  return total;
}

/** Whether a is the better answer: less missed first, then the objective. */
export function better(
  a: { readonly miss: number; readonly value: number | null },
  b: { readonly miss: number; readonly value: number | null },
  aim: Sought,
): boolean {
  if ((a.miss === 0) !== (b.miss === 0)) return a.miss === 0;
  if (Math.abs(a.miss - b.miss) > AGREE) return a.miss < b.miss;
  if (a.value === null || b.value === null) return a.value !== null;
  return aim.sense === 'min' ? a.value < b.value : a.value > b.value;
}

/** For a sort, the best first; what is as good stays in its order. `answer`: what is compared of an entry. */
export const byBest =
  <T>(aim: Sought, answer: (entry: T) => Parameters<typeof better>[0]) =>
  (a: T, b: T): number =>
    better(answer(a), answer(b), aim) ? -1 : better(answer(b), answer(a), aim) ? 1 : 0;
