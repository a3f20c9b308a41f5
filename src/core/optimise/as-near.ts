import { propertyById } from '../blend/properties/index.js';
import { propertyValue } from '../blend/property.js';
import type { BlendState } from '../blend/state/state.js';
import type { World } from '../blend/world.js';
import { missOfOne } from './miss.js';
import type { Question } from './question.js';
import { type Limit, limitsIn } from './standing-limits.js';

/** A nearest blend may miss so many shares more and be as near. */
export const AS_NEAR = 0.01;

/** Share of a limit by which a rounding may miss it by more than the blend does. */
const GIVE = 5e-3;

/**
 * The question with each limit that a blend misses put where the blend stands: what comes as near as the blend, and misses
 * nothing that it keeps, keeps all of these. What a binder system holds by itself stays as it is.
 *
 * give: how much farther, as a share of each limit; what rounding takes when left out.
 */
export function asNear(question: Question, world: World, blend: BlendState, give = GIVE): Question {
  const limits = limitsIn(question, { holds: [] });
  return { ...question, targets: limits.map((limit) => reached(limit, world, blend, give)) };
}

function reached(limit: Limit, world: World, blend: BlendState, share: number): Limit {
  if (missOfOne(limit, world, blend) === 0) return limit;
  const { property, min, max, ...priced } = limit;
  const { value } = propertyValue(propertyById(property)!, world, blend);
  // What a blend has nothing of it misses as a whole, and can miss no more.
  if (value === null) return { property };
  // Of a limit of nothing there is no share.
  const give = share * (Math.max(Math.abs(max ?? 0), Math.abs(min ?? 0)) || Math.abs(value));
  return {
    ...priced,
    property,
    ...(min === undefined ? {} : { min: Math.min(min, value - give) }),
    ...(max === undefined ? {} : { max: Math.max(max, value + give) }),
  };
}
