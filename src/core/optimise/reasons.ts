import { type World, worldOf } from '../blend/world.js';
import type { Material } from '../materials/schema.js';
import type { DoseBasis } from '../materials/words.js';
import { type BinderEntry, binderEntries } from './binder-entries.js';
import { columnsOf } from './blend-program.js';
import { type EntryPrice, entryPrices } from './entry-prices.js';
import { type HoldsBack, heldBackBy } from './held-back.js';
import { type LocalPrices, localPrices } from './local-prices.js';
import { AIMS, type Aim } from './objective.js';
import type { Question } from './question.js';
import { type SystemAnswer, settleSystems } from './settle-systems.js';
import type { Settled } from './settled.js';

/** A dose that costs the objective something: one that was asked for, or the ceiling of one. */
export interface DoseHolds {
  readonly material: string;
  readonly kind: 'asked' | 'ceiling';
  /** Percent now, and of what. */
  readonly percent: number;
  readonly of: DoseBasis;
  /** Which way the objective would go up. */
  readonly better: 'less' | 'more';
  /** Gain in the objective's property per percent that way. */
  readonly gain: number;
}

/** A material of which all that is on hand is used. */
export interface StockHolds {
  readonly material: string;
  /** Gain in the objective's property per gram more in one piece. */
  readonly gain: number;
}

/** What holds a blend back, and what would bring other materials in. */
export interface Reasons {
  readonly heldBack: readonly HoldsBack[];
  readonly doses: readonly DoseHolds[];
  readonly stock: readonly StockHolds[];
  readonly entries: readonly EntryPrice[];
  /** Binders of other systems, by system. */
  readonly binders: readonly BinderEntry[];
}

/**
 * Why the best blend is no better: gain per unit of each binding limit, dose and stock, by the dual prices at the exact
 * blend (before rounding to the scale), and the price at which each unused material would enter. Null where the blend
 * misses the brief, or where prices could not be certified.
 */
export function reasonsFor(
  question: Question,
  world: World,
  ranked: readonly SystemAnswer[],
  unpriced: readonly Material[] = [],
): Reasons | null {
  const first = ranked[0];
  if (first === undefined || !first.answer.feasible) return null;
  const { system, answer } = first;
  const aim = AIMS[question.objective];
  const prices = localPrices(question, world, system, answer, aim);
  if (prices === null) return null;
  return {
    heldBack: heldBackBy(question, world, system, answer, aim, prices),
    doses: doses(question, answer, aim, prices),
    stock: stock(question, world, first, aim, prices),
    entries: entryPrices(question, system, answer, aim, unpriced),
    binders: binderEntries(question, world, ranked),
  };
}

/** The reasons of a question by itself; see `reasonsFor`. */
export function whatHoldsBack(question: Question, unpriced: readonly Material[] = []): Reasons | null {
  const world = worldOf(question);
  const { ranked } = settleSystems(question, world, AIMS[question.objective]);
  return reasonsFor(question, world, ranked, unpriced);
}

/** Gains below this share of the objective per percent, or per whole stock, are dust. */
const WORTH_TELLING = 1e-4;

const improves = (aim: Aim, change: number): number => (aim.sense === 'min' ? -change : change);

function doses(question: Question, answer: Settled, aim: Aim, prices: LocalPrices): DoseHolds[] {
  const least = WORTH_TELLING * Math.abs(answer.value ?? 0);
  const { base } = answer.state.amounts;
  return question.materials.flatMap((material, i): DoseHolds[] => {
    if (answer.grams[i] === 0) return [];
    const asked = question.doses.find((d) => d.material === material.id);
    const window = material.dose;
    if (asked === undefined && window === undefined) return [];
    const of = asked?.of ?? window!.of;
    const percent = asked?.percent ?? Math.min(window!.most.value, window!.warn?.value ?? Number.POSITIVE_INFINITY);
    const row = asked === undefined ? `${material.id} dose max` : `${material.id} as asked`;
    const more = improves(aim, (prices.perRow(row) * base[of]) / 100);
    if (!(Math.abs(more) > least)) return [];
    const kind = asked === undefined ? 'ceiling' : 'asked';
    return [{ material: material.id, kind, percent, of, better: more > 0 ? 'more' : 'less', gain: Math.abs(more) }];
  });
}

function stock(
  question: Question,
  world: World,
  { system, answer }: SystemAnswer,
  aim: Aim,
  prices: LocalPrices,
): StockHolds[] {
  const least = WORTH_TELLING * Math.abs(answer.value ?? 0);
  return columnsOf(question, world, system).flatMap(({ name, upper = Number.POSITIVE_INFINITY }, i): StockHolds[] => {
    const used = answer.grams[i]!;
    if (used < upper * (1 - 1e-6)) return [];
    const gain = improves(aim, prices.perGram[i]!);
    return gain * upper > least ? [{ material: name, gain }] : [];
  });
}
