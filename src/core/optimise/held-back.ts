import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import type { LocalPrices } from './local-prices.js';
import { better } from './miss.js';
import type { Aim } from './objective.js';
import type { Question } from './question.js';
import { settleNear } from './settle.js';
import type { Settled } from './settled.js';
import { standingTargets } from './standing-limits.js';
import type { BinderSystem } from './systems.js';

/** A limit that holds the objective back, and what giving way would gain. */
export interface HoldsBack {
  readonly property: string;
  readonly side: 'min' | 'max';
  readonly limit: number;
  /** `standing`: a limit every blend keeps, not one of the brief. */
  readonly kind: 'target' | 'standing';
  /** Gain in the objective's property per unit that the limit gives way, by the dual prices; > 0 is better. */
  readonly gain: number;
  /** The check: the limit moved to here and the blend settled anew. */
  readonly movedTo: number;
  /** The objective's property then, and the gain per unit that makes. */
  readonly value: number | null;
  readonly settledGain: number | null;
  /** Whether both gains agree within a fifth; else there is a corner close by, and the settled one is to be believed. */
  readonly agrees: boolean;
}

/** Share of a limit that it is moved by to check a price: beyond the dust of settling, short of the next corner. */
const MOVE = 0.01;
const AGREES = 0.2;
/** Gains below this share of the objective per whole limit are dust. */
const WORTH_TELLING = 1e-4;

/** The limits that hold the objective back, the one that a percent of giving way gains most first. */
export function heldBackBy(
  question: Question,
  world: World,
  system: BinderSystem,
  answer: Settled,
  aim: Aim,
  prices: LocalPrices,
): HoldsBack[] {
  if (answer.value === null) return [];
  const size = Math.abs(answer.value);
  const sides = [
    ...question.targets.map((target) => ({ target, kind: 'target' as const })),
    ...standingTargets(question.targets).map((target) => ({ target, kind: 'standing' as const })),
  ].flatMap(({ target, kind }) =>
    (['min', 'max'] as const).flatMap((side) =>
      target[side] === undefined ? [] : [{ target, kind, side, limit: target[side] }],
    ),
  );
  return sides
    .flatMap(({ target, kind, side, limit }): HoldsBack[] => {
      const upwards = side === 'max' ? 1 : -1;
      const good = aim.sense === 'min' ? -1 : 1;
      const gain = good * upwards * prices.perLimit(target.property, side);
      if (!(gain * Math.abs(limit) > WORTH_TELLING * size)) return [];
      const movedTo = limit + upwards * MOVE * Math.abs(limit);
      const moved = settleNear(withLimit(question, target, side, movedTo), world, system, { aim, start: answer.grams });
      // The old blend keeps the limit that gave way, so it stands where the search found no better one.
      const value = better(moved, answer, aim) ? moved.value : answer.value;
      const settledGain = value === null ? null : (good * (value - answer.value!)) / Math.abs(movedTo - limit);
      const agrees = settledGain !== null && Math.abs(settledGain - gain) <= AGREES * Math.max(gain, settledGain);
      return [{ property: target.property, side, limit, kind, gain, movedTo, value, settledGain, agrees }];
    })
    .sort((a, b) => (b.settledGain ?? 0) * Math.abs(b.limit) - (a.settledGain ?? 0) * Math.abs(a.limit));
}

/** The question with one side of a limit moved; a standing limit becomes one of the question's own. */
export function withLimit(question: Question, target: Target, side: 'min' | 'max', limit: number): Question {
  const others = question.targets.filter((t) => t.property !== target.property);
  const { min, max } = target;
  const kept = { ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) };
  return { ...question, targets: [...others, { property: target.property, ...kept, [side]: limit }] };
}
