import type { World } from '../blend/world.js';
import { isDry, leastDose } from './least-dose.js';
import { better } from './miss.js';
import type { Sought } from './objective.js';
import { portions } from './portions.js';
import type { Question } from './question.js';
import { settleNear } from './settle.js';
import type { Bound, Settled } from './settled.js';
import type { BinderSystem } from './systems.js';

/** Below this share of the mass an ingredient is dust of arithmetic. */
const DUST = 1e-9;
const ROUNDS = 3;

/**
 * Keeps a settled blend to the least dose and the most ingredients, quickly, for one of a row of blends: what it has too
 * little of is left out, or raised to the least, whichever is better. Null where that leaves no blend; `supported` looks
 * harder, at a hundred times the price. Of a blend that misses a limit, what misses least.
 */
export function weighable(
  question: Question,
  world: World,
  system: BinderSystem,
  free: Settled,
  aim: Sought,
): Settled | null {
  const least = leastDose(question) / portions(question.batch, question.conditions.waste);
  const asked = new Set(question.doses.map((d) => d.material));
  const total = (grams: readonly number[]) => grams.reduce((s, g) => s + g, 0);
  const tooLittle = ({ grams }: Settled): number[] =>
    world.materials.flatMap((m, i) => {
      const dust = DUST * total(grams);
      const little = grams[i]! > dust && grams[i]! < least * (1 - 1e-6);
      return little && m.kind !== 'water' && !asked.has(m.id) ? [i] : [];
    });
  const most = question.limits?.ingredients ?? null;
  const few = ({ grams }: Settled): boolean =>
    most === null || grams.filter((g, i) => g > DUST * total(grams) && isDry(question, i)).length <= most;

  const bounds: Bound[] = world.materials.map(() => ({ lower: 0, upper: Number.POSITIVE_INFINITY }));
  let at = free;
  for (let round = 0; round < ROUNDS && few(at); round++) {
    const little = tooLittle(at);
    if (little.length === 0) return at;
    const tried = [
      { lower: 0, upper: 0 },
      { lower: least, upper: Number.POSITIVE_INFINITY },
    ].flatMap((bound) => {
      const held = bounds.map((b, i) => (little.includes(i) ? bound : b));
      const settled = settleNear(question, world, system, { aim, start: at.grams, bounds: held });
      return settled.feasible || !free.feasible ? [{ settled, held }] : [];
    });
    const [one, two] = tried;
    if (one === undefined) break;
    const chosen = two !== undefined && better(two.settled, one.settled, aim) ? two : one;
    chosen.held.forEach((b, i) => {
      bounds[i] = b;
    });
    at = chosen.settled;
  }
  return null;
}
