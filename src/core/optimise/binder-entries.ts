import { type World, worldOf } from '../blend/world.js';
import type { EntryPrice } from './entry-prices.js';
import { AIMS } from './objective.js';
import type { Question } from './question.js';
import { settle, settleNear } from './settle.js';
import type { SystemAnswer } from './settle-systems.js';
import type { Settled } from './settled.js';
import { type BinderSystem, openSystems } from './systems.js';

/** A binder that the cheapest blend does without, because another binder system would have to win first. */
export interface BinderEntry extends EntryPrice {
  readonly system: string;
}

type Settling = { readonly system: BinderSystem; readonly answer: Settled };

const ROUNDS = 5;
/** Costs this close, in shares, are the same. */
const EVEN = 1e-4;

/**
 * For each dearer binder system that meets the brief, the price of its chief binder at which its blend would cost as
 * little as the cheapest: found by settling anew at price after price (secant steps along the binder's own amount).
 * Only where cost is the objective.
 */
export function binderEntries(question: Question, world: World, ranked: readonly SystemAnswer[]): BinderEntry[] {
  const first = ranked[0];
  if (question.objective !== 'cheapest' || first === undefined || first.answer.value === null) return [];
  const best = first.answer.value;
  return openSystems(question, world).flatMap((system): BinderEntry[] => {
    const answer =
      ranked.find((r) => r.system === system)?.answer ?? settle(question, world, system, { aim: AIMS.cheapest });
    if (answer === null || !answer.feasible || answer.value === null) return [];
    const other = { system, answer };
    // Of the first system itself there is none: its blend does without nothing that is in it.
    const material = chiefBinder(question, first.answer, other);
    if (material === null) return [];
    const { id } = question.materials[material]!;
    // A blend that has a cost has a price for everything in it.
    const price = question.prices.get(id)!;
    const entersAt = evenPrice(question, other, material, price, best);
    const loss = (answer.value - best) / answer.grams[material]!;
    return [{ material: id, price, entersAt, loss, checked: entersAt === null ? null : true, system: other.system.id }];
  });
}

/** The binder of the other system that most is spent on, of those the first blend does without. */
function chiefBinder(question: Question, first: Settled, { answer }: Settling): number | null {
  const spent = (i: number) => answer.grams[i]! * question.prices.get(question.materials[i]!.id)!;
  const binders = question.materials.flatMap((m, i) =>
    m.binder !== undefined && first.grams[i] === 0 && answer.grams[i]! > 0 ? [i] : [],
  );
  return binders.sort((a, b) => spent(b) - spent(a))[0] ?? null;
}

/** Price per gram at which the other system's cheapest blend costs `best`; null where it costs more even for nothing. */
function evenPrice(question: Question, other: Settling, material: number, from: number, best: number): number | null {
  const { id } = question.materials[material]!;
  let price = from;
  let answer: Settled = other.answer;
  for (let round = 0; round < ROUNDS; round++) {
    const over = answer.value! - best;
    if (Math.abs(over) <= EVEN * best) return price;
    if (over > 0 && price === 0) return null;
    const grams = answer.grams[material]!;
    if (grams <= 0) return null;
    price = Math.max(0, price - (over * (1 - question.conditions.waste)) / grams);
    const priced = { ...question, prices: new Map([...question.prices, [id, price]]) };
    const aim = AIMS.cheapest;
    const settled = settleNear(priced, worldOf(priced), other.system, { aim, start: answer.grams });
    if (!settled.feasible || settled.value === null) return null;
    answer = settled;
  }
  return Math.abs(answer.value! - best) <= 10 * EVEN * best ? price : null;
}
