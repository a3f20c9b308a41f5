import { assess } from '../blend/assess.js';
import type { World } from '../blend/world.js';
import { leastDose } from './least-dose.js';
import type { Sought } from './objective.js';
import { portions } from './portions.js';
import type { Question } from './question.js';
import { type RoundingOptions, roundToScale, type Weighable } from './rounding.js';
import { settle } from './settle.js';
import type { Bound, Settled } from './settled.js';
import { limitsIn } from './standing-limits.js';
import type { BinderSystem } from './systems.js';

const MOST_TRIES = 4;

/**
 * Rounds; where no neighbouring rounding meets everything, settles again with every limit held back by what rounding
 * cost it, and rounds that; a few times over, each adding to what is held back.
 */
export function weighedBlend(
  question: Question,
  world: World,
  system: BinderSystem,
  answer: Settled,
  aim: Sought,
  options: RoundingOptions = {},
): Weighable {
  const limits = limitsIn(question, system);
  const rounded = (grams: readonly number[]): Weighable => roundToScale(question, world, system, grams, aim, options);
  let best = rounded(answer.grams);
  if (!answer.feasible) return best;
  const bounds = keptTo(question, answer.grams);
  const tighten = new Map<string, number>();
  let last = best;
  for (let tries = 0; tries < MOST_TRIES && best.miss > 0; tries++) {
    const { verdicts } = assess(question, last.pieceGrams, limits, { draws: 0 });
    for (const verdict of verdicts) {
      if (verdict.met || verdict.margin === null || verdict.value === null) continue;
      const side = `${verdict.property} ${verdict.max !== null && verdict.value > verdict.max ? 'max' : 'min'}`;
      tighten.set(side, (tighten.get(side) ?? 0) + 1.5 * -verdict.margin);
    }
    const again = settle(question, world, system, { aim, tighten, start: answer.grams, bounds });
    if (again === null) break;
    last = rounded(again.grams);
    if (last.miss < best.miss) best = last;
  }
  return best;
}

/** The ingredients a blend has, each at its least dose or what it holds already. */
function keptTo(question: Question, grams: readonly number[]): Bound[] {
  const least = leastDose(question) / portions(question.batch, question.conditions.waste);
  return question.materials.map((m, i) => {
    if (m.kind === 'water') return { lower: 0, upper: Number.POSITIVE_INFINITY };
    return grams[i]! > 0
      ? { lower: Math.min(grams[i]!, least), upper: Number.POSITIVE_INFINITY }
      : { lower: 0, upper: 0 };
  });
}
