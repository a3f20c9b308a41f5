import { contributorsIn } from '../blend/contributors.js';
import { materialKey } from '../blend/figure-keys.js';
import type { Draws } from '../blend/sampling.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import { backedOff, breaks, clearance, jointChance, type Side, type SideSpread, sideSpreads } from './back-off.js';
import { better } from './miss.js';
import type { Aim } from './objective.js';
import type { Question } from './question.js';
import { settle, settleNear } from './settle.js';
import type { SystemAnswer } from './settle-systems.js';
import type { Settled } from './settled.js';
import { supported } from './support.js';

const ROUNDS = 8;
const HALVINGS = 6;
/** A blend surer than this beyond what was asked has paid too much for it. */
const TOO_SURE = 0.03;
/** First share by which one side is kept clearer and the others less, and how often such a change is tried. */
const TILT = 0.3;
const LEAST_TILT = 0.04;
const MOST_TILTS = 24;
/** Standard deviations that a side counts as kept clear by, when it is not at all. */
const A_LITTLE = 0.3;
/** How many materials are tried to be done without, and how many of a blend's are looked at. */
const MOST_BARRED = 2;
const MOST_SUSPECTS = 3;
/** Share of broken draws times share of the spread, below which a material is not to blame. */
const WORTH_BLAMING = 0.01;
/** Where the sample quantile asks for no more, the next try still keeps this much clearer. */
export const FURTHER = 1.1;

/** What a blend is kept clear for, and the draws it is judged on. */
export interface Search {
  readonly question: Question;
  readonly world: World;
  readonly aim: Aim;
  readonly sides: readonly Side[];
  readonly draws: Draws;
}

/** A blend kept clear of its limits. */
export interface Cleared {
  readonly from: SystemAnswer;
  /** Materials it was made to do without. */
  readonly barred: ReadonlySet<string>;
  readonly answer: Settled;
  readonly targets: readonly Target[];
  /** How far it was kept clear of each side, on the scale of the side's ratio. */
  readonly clear: readonly number[];
  readonly spreads: readonly SideSpread[];
  readonly chance: number;
}

/** Whether a is the better one: what was asked first, then the objective; else the chance. */
export function ahead(a: Cleared, b: Cleared, wanted: number, aim: Aim): boolean {
  const [enoughA, enoughB] = [a.chance >= wanted, b.chance >= wanted];
  if (enoughA !== enoughB) return enoughA;
  return enoughA ? better(a.answer, b.answer, aim) : a.chance > b.chance;
}

export function judged(
  search: Search,
  from: SystemAnswer,
  barred: ReadonlySet<string>,
  answer: Settled,
  targets: readonly Target[],
  clear: readonly number[],
): Cleared {
  const spreads = sideSpreads(search.question, answer.grams, search.sides, search.draws);
  return { from, barred, answer, targets, clear, spreads, chance: jointChance(spreads, search.draws.count) };
}

/** The blend of one system that is kept clear just enough, or its surest; from one that is kept clear of nothing. */
export function cleared(search: Search, start: Cleared, wanted: number): Cleared {
  let best = start;
  let below = start;
  let above: readonly number[] | null = null;
  for (let round = 0; round < ROUNDS && below.chance < wanted && above === null; round++) {
    const deviations = clearance(below.spreads, search.draws.count, wanted);
    if (!Number.isFinite(deviations)) break;
    const clear = below.spreads.map((s, i) => Math.max(deviations * s.size, FURTHER * below.clear[i]!));
    const next = keptClear(search, below, clear);
    if (next !== null && ahead(next, best, wanted, search.aim)) best = next;
    if (next === null || next.chance >= wanted) above = clear;
    else below = next;
  }
  if (above === null) return best;
  // Between too little and too much: the least that is enough, or the most that any blend keeps.
  let low = below.clear;
  let high = above;
  for (let halving = 0; halving < HALVINGS && !(best.chance >= wanted && best.chance < wanted + TOO_SURE); halving++) {
    const middle = low.map((d, i) => (d + high[i]!) / 2);
    const next = keptClear(search, below, middle);
    if (next !== null && ahead(next, best, wanted, search.aim)) best = next;
    if (next === null || next.chance >= wanted) high = middle;
    else {
      low = middle;
      below = next;
    }
  }
  return best;
}

/**
 * Keeps one side clearer at the price of the others, as long as that makes the blend sure, or surer, or better: equal
 * numbers of standard deviations are the fairest shares only where the sides' spreads are alike and stay as they are.
 */
export function tilted(search: Search, from: Cleared, wanted: number): Cleared {
  // What need not be kept clear of anything is as good as can be.
  if (from.chance >= wanted && from.clear.every((c) => c === 0)) return from;
  let best = from;
  let left = MOST_TILTS;
  for (let tilt = TILT; tilt >= LEAST_TILT; tilt /= 2) {
    for (let i = 0; i < search.sides.length; i++) {
      for (const clear of tilts(best, i, tilt, best.chance >= wanted)) {
        if (left-- <= 0) return best;
        const next = keptClear(search, best, clear);
        if (next === null || !ahead(next, best, wanted, search.aim)) continue;
        best = next;
        break;
      }
    }
  }
  return best;
}

/**
 * Distances to try next: of a blend that is sure enough the side kept less clear, by itself or for the others' sake; else
 * the side kept clearer at their price, or by itself, or less.
 */
export function tilts(
  { clear, spreads }: Pick<Cleared, 'clear' | 'spreads'>,
  side: number,
  tilt: number,
  enough: boolean,
): number[][] {
  const now = clear.map((c, i) => Math.max(c, A_LITTLE * spreads[i]!.size));
  const only = (factor: number) => now.map((c, i) => (i === side ? factor * c : c));
  const against = now.map((c, i) => (i === side ? (1 + tilt) * c : (1 - tilt) * c));
  return enough ? [only(1 - tilt), against] : [against, only(1 + tilt), only(1 - tilt)];
}

/**
 * Does without materials whose own figures make the targets unsure, one after the other, as long as that helps: an
 * accelerator and a retarder set against each other gain next to nothing by the middle figures and spoil the chance.
 */
export function withoutSuspects(search: Search, leader: Cleared, wanted: number): Cleared {
  let best = leader;
  for (let round = 0; round < MOST_BARRED; round++) {
    const from = best;
    for (const suspect of suspectsOf(search, from)) {
      const barred = new Set([...from.barred, suspect]);
      const start = settledWith(search, from.from, barred, search.question.targets, from.answer.grams);
      if (start === null) continue;
      const nothing = search.sides.map(() => 0);
      const found = cleared(search, judged(search, from.from, barred, start, search.question.targets, nothing), wanted);
      if (ahead(found, best, wanted, search.aim)) best = found;
    }
    if (best === from) break;
  }
  return best;
}

/** Materials of the blend behind the spread of the sides that break, those of the largest shares first. */
export function suspectsOf(
  search: Pick<Search, 'question' | 'draws'>,
  blend: Pick<Cleared, 'spreads' | 'barred'>,
): string[] {
  const { spreads, barred } = blend;
  const spreadFrom = contributorsIn(search.draws);
  const asked = new Set(search.question.doses.map((d) => d.material));
  const blame = new Map<string, number>();
  for (const s of spreads) {
    const broken = s.moves.filter((_m, j) => breaks(s, j)).length / s.moves.length;
    for (const { figure, share } of spreadFrom(s.moves)) {
      const material = materialKey(figure)?.material;
      if (material === undefined || asked.has(material) || barred.has(material)) continue;
      blame.set(material, (blame.get(material) ?? 0) + broken * share);
    }
  }
  const ranked = [...blame].filter(([, b]) => b > WORTH_BLAMING).sort((a, b) => b[1] - a[1]);
  return ranked.slice(0, MOST_SUSPECTS).map(([material]) => material);
}

/** Settles with every side kept clear, from a blend that was kept clear by less; null where no blend keeps to it. */
export function keptClear(search: Search, near: Cleared, clear: readonly number[]): Cleared | null {
  const targets = backedOff(search.question.targets, near.spreads, clear);
  const answer = settledWith(search, near.from, near.barred, targets, near.answer.grams);
  return answer === null ? null : judged(search, near.from, near.barred, answer, targets, clear);
}

function settledWith(
  { question, world, aim }: Search,
  { system }: SystemAnswer,
  barred: ReadonlySet<string>,
  targets: readonly Target[],
  start: readonly number[],
): Settled | null {
  const held = { ...question, targets };
  const bounds = world.materials.map((m) => ({ lower: 0, upper: barred.has(m.id) ? 0 : Number.POSITIVE_INFINITY }));
  const close = settleNear(held, world, system, { aim, start, bounds });
  const free = close.feasible ? close : settle(held, world, system, { aim, bounds });
  if (free?.feasible !== true) return null;
  const kept = supported(held, world, system, free, aim)?.answer;
  return kept?.feasible === true ? kept : null;
}
