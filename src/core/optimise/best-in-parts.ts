import type { World } from '../blend/world.js';
import { better } from './miss.js';
import { merit, type Sought, soughtValue } from './objective.js';
import { blendsInParts, type PartsBlend } from './parts.js';
import type { PartsAsked, Question } from './question.js';
import type { Weighable } from './rounding.js';
import type { SystemAnswer } from './settle-systems.js';
import { supported } from './support.js';
import { weighedBlend } from './weighed.js';

/** A blend in parts, and what is weighed of it. */
export interface WeighedParts {
  readonly parts: PartsBlend;
  readonly weighed: Weighable;
}

/** Blends of so few dry ingredients are counted out too: a best blend with little of a light filler is in no small parts. */
const FEW = [3, 2, 1] as const;
/** Whole numbers that cost a smaller share of the objective are not looked for among few ingredients as well. */
const LITTLE = 0.03;
/** Blends in parts that are weighed out from one without, at most. */
const MOST_WEIGHED = 3;

/**
 * The best blend in whole-number parts as it is weighed out, over all systems: it need not come from the best blend
 * without, and a size of the part that can be told may cost a limit. `ranked`: best first; no blend in parts is better
 * than the one that it was made from.
 */
export function bestInParts(
  question: Question,
  world: World,
  ranked: readonly SystemAnswer[],
  aim: Sought,
  asked: PartsAsked,
): WeighedParts | null {
  let best: (WeighedParts & { readonly miss: number; readonly value: number | null }) | null = null;
  const looked = (): boolean =>
    best?.miss === 0 && merit(aim, best.value) - merit(aim, ranked[0]!.answer.value) < LITTLE;
  for (const from of basesOf(question, world, ranked, aim, looked)) {
    const outdone = (answer: { readonly miss: number; readonly value: number | null }): boolean =>
      best !== null && !better(answer, best, aim);
    if (outdone(from.answer)) continue;
    const blends = blendsInParts(question, world, from.system, from.answer, aim, asked).slice(0, MOST_WEIGHED);
    for (const parts of blends) {
      if (outdone(parts.answer)) continue;
      const weighed = weighedBlend(question, world, parts.system, parts.answer, aim, { knobs: parts.knobs });
      const one = { parts, weighed, miss: weighed.miss, value: soughtValue(aim, world, weighed.state) };
      if (best === null || better(one, best, aim)) best = one;
    }
  }
  return best;
}

/** Each system's blend, and its blends of few ingredients, worked out as they are asked for, until enough are looked at. */
function* basesOf(
  question: Question,
  world: World,
  ranked: readonly SystemAnswer[],
  aim: Sought,
  looked: () => boolean,
): Generator<Pick<SystemAnswer, 'system' | 'answer'>> {
  yield* ranked;
  const allowed = question.limits?.ingredients ?? Number.POSITIVE_INFINITY;
  for (const { system, answer, free } of ranked) {
    for (const ingredients of FEW) {
      if (ingredients >= allowed || looked()) continue;
      const limits = { ingredients, leastDose: question.limits?.leastDose ?? null };
      const kept = supported({ ...question, limits }, world, system, free ?? answer, aim, false);
      if (kept?.answer.feasible === true) yield { system, answer: kept.answer };
    }
  }
}
