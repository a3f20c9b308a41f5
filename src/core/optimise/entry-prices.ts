import { stateOf } from '../blend/state/state.js';
import { type World, worldOf } from '../blend/world.js';
import type { Material } from '../materials/schema.js';
import { columnsOf } from './blend-program.js';
import { localPrices } from './local-prices.js';
import type { Aim } from './objective.js';
import type { Question } from './question.js';
import { settle, settleNear } from './settle.js';
import type { Settled } from './settled.js';
import type { BinderSystem } from './systems.js';

/** A material that the blend does without, and what would bring it in. */
export interface EntryPrice {
  readonly material: string;
  /** Price per gram now; null: not known. */
  readonly price: number | null;
  /** Price per gram below which it would enter; null: it would not enter at any price, or prices play no part. */
  readonly entersAt: number | null;
  /** What the objective's property would lose per gram put in at the price now (0 where it is not known); > 0 is worse. */
  readonly loss: number;
  /** Whether settling anew a little below that price uses it, and a little above does not; null: not checked. */
  readonly checked: boolean | null;
}

/** The check is made this far below and above the price found. */
const BELOW = 0.95;
const ABOVE = 1.05;
/** Prices this close are the same. */
const EVEN = 1e-6;
/** Below this share of the mass a material is not used. */
const DUST = 1e-7;

/**
 * For each material in play that the blend does without, the price at which it would enter, from its reduced cost:
 * through the objective where that is cost, through the cost target where that binds. `unpriced` are materials that are
 * out of play only because the list has no price for them.
 */
export function entryPrices(
  question: Question,
  system: BinderSystem,
  answer: Settled,
  aim: Aim,
  unpriced: readonly Material[],
): EntryPrice[] {
  const wide: Question = { ...question, materials: [...question.materials, ...unpriced] };
  const world = worldOf(wide);
  const wideAnswer: Settled = widened(answer, world);
  const prices = localPrices(wide, world, system, wideAnswer, aim);
  if (prices === null) return [];
  const columns = columnsOf(wide, world, system);
  const perMoney = moneyMatters(aim, prices.perLimit('cost', 'max')) / (1 - question.conditions.waste);
  const worse = aim.sense === 'min' ? 1 : -1;
  return world.materials.flatMap((m, i): EntryPrice[] => {
    const barred = (columns[i]!.upper ?? Number.POSITIVE_INFINITY) <= 0;
    if (wideAnswer.grams[i]! > 0 || m.kind === 'water' || barred) return [];
    const price = world.prices[i]!;
    const perGram = prices.perGram[i]!;
    const found = perMoney === 0 ? null : (price ?? 0) - perGram / perMoney;
    // It would pay already: only the least dose keeps it out, and no price changes that.
    if (price !== null && found !== null && found > price * (1 + EVEN)) return [];
    const entersAt = found !== null && found > 0 ? found : null;
    const checked = entersAt === null ? null : holdsUp(wide, system, wideAnswer, aim, i, entersAt);
    return [{ material: m.id, price, entersAt, loss: Math.max(0, worse * perGram), checked }];
  });
}

/** d(objective's property) / d(money spent on a gram): 1 where it is cost itself, the price of the cost target else. */
const moneyMatters = (aim: Aim, perCostLimit: number): number => (aim.property.id === 'cost' ? 1 : 0) - perCostLimit;

/** An answer in a world of more materials, of which it has none. */
function widened(answer: Settled, world: World): Settled {
  const grams = world.materials.map((_m, i) => answer.grams[i] ?? 0);
  const { value, miss, feasible, still, solves, program } = answer;
  return { grams, value, miss, feasible, still, solves, state: stateOf(world, grams), program };
}

/** Settles anew from the blend with the material's price a little below and a little above; others without a price stay out. */
function holdsUp(
  question: Question,
  system: BinderSystem,
  answer: Settled,
  aim: Aim,
  material: number,
  entersAt: number,
): boolean {
  const { id } = question.materials[material]!;
  const bounds = question.materials.map((m, i) => {
    const out = i !== material && m.kind !== 'water' && !question.prices.has(m.id);
    return { lower: 0, upper: out ? 0 : Number.POSITIVE_INFINITY };
  });
  const uses = ({ grams }: Settled): boolean => grams[material]! > DUST * grams.reduce((sum, g) => sum + g, 0);
  const usedAt = (price: number): boolean => {
    const priced = { ...question, prices: new Map([...question.prices, [id, price]]) };
    const world = worldOf(priced);
    if (uses(settleNear(priced, world, system, { aim, start: answer.grams, bounds }))) return true;
    const anew = settle(priced, world, system, { aim, bounds });
    return anew !== null && uses(anew);
  };
  return usedAt(BELOW * entersAt) && !usedAt(ABOVE * entersAt);
}
