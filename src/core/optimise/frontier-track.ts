import { propertyById } from '../blend/properties/index.js';
import { propertyValue } from '../blend/property.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import { better } from './miss.js';
import type { Aim } from './objective.js';
import type { Question } from './question.js';
import { settle, settleNear } from './settle.js';
import type { Settled } from './settled.js';
import { limitsIn } from './standing-limits.js';
import { supported } from './support.js';
import type { BinderSystem } from './systems.js';
import { weighable } from './weighable.js';

/** Two properties of the blends of one binder system. */
export interface Track {
  readonly question: Question;
  readonly world: World;
  readonly system: BinderSystem;
  readonly of: Aim;
  readonly against: Aim;
}

/** A blend with its place on the frontier. */
export interface Place {
  readonly track: Track;
  readonly of: number;
  readonly against: number;
  readonly settled: Settled;
}

/** An end is held to this share of its optimum while the other property is improved. */
const AT_END = 1e-6;
/** Tries to come back to that where a curved limit carried the blend past it. */
const RETURNS = 3;

/** The best of either property, each made as good in the other as it can be; null where nothing meets the brief. */
export function trackEnds(track: Track): readonly [Place, Place] | null {
  const { question, world, system, of, against } = track;
  const best = (aim: Aim): Settled | null => {
    const free = settle(question, world, system, { aim, fine: true });
    const kept = free?.feasible === true ? supported(question, world, system, free, aim)?.answer : undefined;
    return kept?.feasible === true && kept.value !== null ? kept : null;
  };
  const [a, b] = [best(of), best(against)];
  if (a === null || b === null) return null;
  // The search is local: from the other end it may find a valley that it did not see from its own start.
  const ends = [
    endOf(track, of, against, bettered(track, of, a, b)),
    endOf(track, against, of, bettered(track, against, b, a)),
  ] as const;
  return ends[0] === null || ends[1] === null ? null : [ends[0], ends[1]];
}

/** A blend, or the one that the search comes to from another blend, whichever is the better. */
function bettered({ question, world, system }: Track, aim: Aim, own: Settled, other: Settled): Settled {
  const near = settleNear(question, world, system, { aim, fine: true, start: other.grams });
  const kept = near.feasible ? weighable(question, world, system, near, aim) : null;
  return kept !== null && better(kept, own, aim) ? kept : own;
}

function endOf(track: Track, best: Aim, other: Aim, end: Settled): Place | null {
  const { question, world, system } = track;
  const first = placeOf(track, end);
  const [sign, size] = [best.sense === 'min' ? 1 : -1, Math.abs(end.value!)];
  const limit = end.value! + sign * AT_END * size;
  let bound = limit;
  let start = end.grams;
  for (let tries = 0; tries < RETURNS; tries++) {
    const held = withBound(question, best, bound);
    const moved = settleNear(held, world, system, { aim: other, fine: true, start });
    const kept = moved.feasible ? weighable(held, world, system, moved, other) : null;
    const second = kept === null ? null : placeOf(track, kept);
    if (kept === null || second === null || !isBetter(track, other, second, first)) return first;
    const past = sign * (sideOf(track, best, second) - limit);
    if (past <= 0.01 * AT_END * size) return second;
    bound -= sign * past;
    start = kept.grams;
  }
  return first;
}

const sideOf = (track: Track, aim: Aim, place: Place): number => (aim === track.of ? place.of : place.against);

function isBetter(track: Track, aim: Aim, place: Place, than: Place | null): boolean {
  if (than === null) return true;
  const [x, y] = [sideOf(track, aim, place), sideOf(track, aim, than)];
  return aim.sense === 'min' ? x < y : x > y;
}

/** The best `of` with `against` held to a bound, from places close by or as found `before`; null where none was found. */
export function placeAt(
  track: Track,
  from: readonly Place[],
  bound: number,
  before: Place | null = null,
): Place | null {
  const { question, world, system, of, against } = track;
  const held = withBound(question, against, bound);
  let best = before;
  const consider = (answer: Settled | null): void => {
    const kept = answer?.feasible === true ? weighable(held, world, system, answer, of) : null;
    const place = kept === null ? null : placeOf(track, kept);
    if (place !== null && isBetter(track, of, place, best)) best = place;
  };
  for (const { settled } of from)
    consider(settleNear(held, world, system, { aim: of, fine: true, start: settled.grams }));
  if (best === null) consider(settle(held, world, system, { aim: of, fine: true }));
  return best;
}

function placeOf(track: Track, settled: Settled): Place | null {
  const value = (aim: Aim) => propertyValue(propertyById(aim.property.id)!, track.world, settled.state).value;
  const [of, against] = [value(track.of), value(track.against)];
  return of === null || against === null ? null : { track, of, against, settled };
}

/** The question with a property held to a bound besides all that it is held to already. */
function withBound(question: Question, { property, sense }: Aim, bound: number): Question {
  const { min, max } = limitsIn(question, { holds: [] }).find((t) => t.property === property.id) ?? {
    min: undefined,
    max: undefined,
  };
  const high = sense === 'min' ? Math.min(bound, max ?? bound) : max;
  const low = sense === 'max' ? Math.max(bound, min ?? bound) : min;
  const held: Target = {
    property: property.id,
    ...(low === undefined ? {} : { min: low }),
    ...(high === undefined ? {} : { max: high }),
  };
  return { ...question, targets: [...question.targets.filter((t) => t.property !== property.id), held] };
}
