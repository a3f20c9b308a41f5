import { assess } from '../blend/assess.js';
import type { World } from '../blend/world.js';
import { scaleKnobs } from './knobs.js';
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
  if (best.miss === 0) return best;
  const bounds = keptTo(question, answer.grams);
  if (options.knobs === undefined) {
    for (const held of coarsestHeld(question, answer.grams, bounds)) {
      const again = settle(question, world, system, { aim, start: answer.grams, bounds: held });
      const found = again && rounded(again.grams);
      if (found && found.miss < best.miss) best = found;
    }
  }
  if (!answer.feasible) return best;
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

/** An ingredient of no more steps is coarsely weighed: half a step is some hundredths of it. */
const COARSE = 20;

/** The bounds with the most coarsely weighed ingredient held at the step below what the blend has of it, and at that above. */
function coarsestHeld(question: Question, grams: readonly number[], bounds: readonly Bound[]): Bound[][] {
  const times = portions(question.batch, question.conditions.waste);
  const knobs = scaleKnobs(
    question,
    grams.map((g) => g * times),
  );
  const coarsest = knobs.reduce((a, b) => (b.exact < a.exact ? b : a));
  if (coarsest.exact > COARSE) return [];
  const [[material, step]] = coarsest.perStep as [readonly [number, number]];
  const steps = [Math.floor(coarsest.exact), Math.ceil(coarsest.exact)];
  return steps
    .filter((n) => n >= coarsest.least && n <= coarsest.most)
    .map((n) => bounds.map((b, i) => (i === material ? { lower: (n * step) / times, upper: (n * step) / times } : b)));
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
