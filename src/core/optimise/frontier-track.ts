import { propertyById } from '../blend/properties/index.js';
import { propertyValue } from '../blend/property.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import type { Aim } from './objective.js';
import type { Question } from './question.js';
import { type Settled, settle, settleNear } from './settle.js';
import { standingTargets } from './standing-limits.js';
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

/** The best of either property, each made as good in the other as it can be; null where nothing meets the brief. */
export function trackEnds(track: Track): readonly [Place, Place] | null {
  const [a, b] = [endOf(track, track.of, track.against), endOf(track, track.against, track.of)];
  return a === null || b === null ? null : [a, b];
}

function endOf(track: Track, best: Aim, other: Aim): Place | null {
  const { question, world, system } = track;
  const free = settle(question, world, system, { aim: best });
  const end = free?.feasible === true ? supported(question, world, system, free, best)?.answer : undefined;
  if (end?.feasible !== true || end.value === null) return null;
  const give = AT_END * Math.abs(end.value) * (best.sense === 'min' ? 1 : -1);
  const held = withBound(question, best, end.value + give);
  const better = settleNear(held, world, system, { aim: other, start: end.grams });
  const kept = better.feasible ? weighable(held, world, system, better, other) : null;
  const [first, second] = [placeOf(track, end), kept === null ? null : placeOf(track, kept)];
  const isBetter = (a: Place, b: Place): boolean => {
    const [x, y] = other === track.of ? [a.of, b.of] : [a.against, b.against];
    return other.sense === 'min' ? x < y : x > y;
  };
  return first !== null && second !== null && isBetter(second, first) ? second : first;
}

/** The best `of` with `against` held to a bound, from a place close by; null where none was found. */
export function placeAt(track: Track, from: Place, bound: number): Place | null {
  const { question, world, system, of, against } = track;
  const held = withBound(question, against, bound);
  const near = settleNear(held, world, system, { aim: of, start: from.settled.grams });
  const free = near.feasible ? near : settle(held, world, system, { aim: of });
  const kept = free?.feasible === true ? weighable(held, world, system, free, of) : null;
  return kept === null ? null : placeOf(track, kept);
}

function placeOf(track: Track, settled: Settled): Place | null {
  const value = (aim: Aim) => propertyValue(propertyById(aim.property.id)!, track.world, settled.state).value;
  const [of, against] = [value(track.of), value(track.against)];
  return of === null || against === null ? null : { track, of, against, settled };
}

/** The question with a property held to a bound besides all that it is held to already. */
function withBound(question: Question, { property, sense }: Aim, bound: number): Question {
  const all: readonly Target[] = [...question.targets, ...standingTargets(question.targets)];
  const { min, max } = all.find((t) => t.property === property.id) ?? { min: undefined, max: undefined };
  const high = sense === 'min' ? Math.min(bound, max ?? bound) : max;
  const low = sense === 'max' ? Math.max(bound, min ?? bound) : min;
  const held: Target = {
    property: property.id,
    ...(low === undefined ? {} : { min: low }),
    ...(high === undefined ? {} : { max: high }),
  };
  return { ...question, targets: [...question.targets.filter((t) => t.property !== property.id), held] };
}
