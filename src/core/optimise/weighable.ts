import type { World } from '../blend/world.js';
import { columnsOf } from './blend-program.js';
import { DUST, isDry, leastDose } from './least-dose.js';
import { AGREE, better } from './miss.js';
import { merit, type Sought } from './objective.js';
import { portions } from './portions.js';
import type { Question } from './question.js';
import { settleNear } from './settle.js';
import type { Bound, Settled } from './settled.js';
import type { BinderSystem } from './systems.js';

const ROUNDS = 3;
const LEFT_OUT: Bound = { lower: 0, upper: 0 };
/** A blend that loses no more than this share against the blend without limits is good enough; so many tolerances. */
export const CONTENT = 1e-3;
const CONTENT_FAR = 0.03;

/**
 * Keeps a settled blend to the least dose and the most ingredients, quickly, for one of a row of blends: what it has too
 * little of is left out, or raised to the least, whichever is better; left out at once if that costs next to nothing.
 * Null where that leaves no blend; `supported` looks harder, at a hundred times the price. Of a blend that misses a
 * limit, what misses least. `rough`: whatever will do, for a blend that cannot be the answer.
 */
export function weighable(
  question: Question,
  world: World,
  system: BinderSystem,
  free: Settled,
  aim: Sought,
  rough = false,
): Settled | null {
  const least = leastDose(question) / portions(question.batch, question.conditions.waste);
  const asked = new Set(question.doses.map((d) => d.material));
  const total = (grams: readonly number[]) => grams.reduce((s, g) => s + g, 0);
  const tooLittle = ({ grams }: Settled): number[] =>
    world.materials.flatMap((m, i) => {
      const dust = DUST * total(grams);
      const little = grams[i]! > dust && grams[i]! < least * (1 - AGREE);
      return little && m.kind !== 'water' && !asked.has(m.id) ? [i] : [];
    });
  const most = question.limits?.ingredients ?? null;
  const few = ({ grams }: Settled): boolean =>
    most === null || grams.filter((g, i) => g > DUST * total(grams) && isDry(question, i)).length <= most;

  // Of what there is too little of on hand nothing can be raised to the least.
  const columns = columnsOf(question, world, system);
  const raised = (i: number): Bound =>
    columns[i]!.upper! < least ? LEFT_OUT : { lower: least, upper: Number.POSITIVE_INFINITY };

  const bounds: Bound[] = world.materials.map(() => ({ lower: 0, upper: Number.POSITIVE_INFINITY }));
  let at = free;
  for (let round = 0; round < ROUNDS && few(at); round++) {
    const little = tooLittle(at);
    if (little.length === 0) return at;
    let chosen: { readonly settled: Settled; readonly held: readonly Bound[] } | null = null;
    for (const boundOf of [() => LEFT_OUT, raised]) {
      const held = bounds.map((b, i) => (little.includes(i) ? boundOf(i) : b));
      const settled = settleNear(question, world, system, { aim, start: at.grams, bounds: held, rough });
      if (!settled.feasible && free.feasible) continue;
      if (chosen === null || better(settled, chosen.settled, aim)) chosen = { settled, held };
      if (content(aim, settled, free) || (rough && settled.feasible)) break;
    }
    if (chosen === null) break;
    chosen.held.forEach((b, i) => {
      bounds[i] = b;
    });
    at = chosen.settled;
  }
  return null;
}

/** Whether a blend keeps every limit and loses next to nothing against the one without limits of ingredients. */
export const content = (aim: Sought, blend: Settled, free: Settled): boolean =>
  blend.feasible && merit(aim, blend.value) - merit(aim, free.value) < ('wanted' in aim ? CONTENT_FAR : CONTENT);
