import { contributorsIn } from '../blend/contributors.js';
import { materialKey } from '../blend/figure-keys.js';
import { type Draws, latinHypercube } from '../blend/sampling.js';
import { stateOf } from '../blend/state/state.js';
import type { Target } from '../blend/target.js';
import { type World, worldOf } from '../blend/world.js';
import {
  backedOff,
  breaks,
  clearance,
  jointChance,
  type Side,
  type SideSpread,
  sideSpreads,
  sidesOf,
} from './back-off.js';
import { AIMS, type Aim } from './objective.js';
import { type Proposal, type ProposeOptions, proposeFrom } from './propose.js';
import type { Question } from './question.js';
import { better, missOf, type Settled, settle, settleNear } from './settle.js';
import { type SettledSystems, type SystemAnswer, settleSystems } from './settle-systems.js';
import { standingTargets } from './standing-limits.js';
import { supported } from './support.js';

/** How sure a proposal is, and what that took. */
export interface Sureness {
  /** Chance asked for that all targets hold at once. */
  readonly wanted: number;
  readonly reached: boolean;
  /** Of what will be weighed out, on draws that the search did not see; null without targets. */
  readonly chance: number | null;
  /** The limits that the blend was held to, in place of the brief's. */
  readonly held: readonly {
    readonly property: string;
    readonly side: 'min' | 'max';
    readonly limit: number;
    readonly to: number;
  }[];
  /** The objective of the blend that only just meets the brief, and of this one: what being sure costs. */
  readonly unsure: number | null;
  readonly sure: number | null;
}

export interface SureProposal {
  readonly proposal: Proposal;
  readonly sureness: Sureness;
}

/** Draws in the search, and in the last word on other draws. */
const SEARCH_DRAWS = 400;
const DRAWS = 2000;
/** Beyond what was asked, so that the last word on other draws agrees. */
const AMPLE = 0.01;
const ROUNDS = 8;
const HALVINGS = 6;
/** A blend surer than this beyond what was asked has paid too much for it. */
const TOO_SURE = 0.03;
const TRIES = 4;
const NONE_BARRED: ReadonlySet<string> = new Set();
/** How many materials are tried to be done without, and how many of a blend's are looked at. */
const MOST_BARRED = 2;
const MOST_SUSPECTS = 3;
/** Share of broken draws times share of the spread, below which a material is not to blame. */
const WORTH_BLAMING = 0.01;
/** Where the sample quantile asks for no more, the next try still keeps this much clearer. */
const FURTHER = 1.1;

/**
 * Proposes a blend of which all targets hold at once with the wanted chance: every side is kept clear of its limit by a
 * number of standard deviations of its own spread, found by sample quantiles and settled anew until the joint chance
 * holds. Where no blend gives that, the surest one found.
 *
 * The chance is that of the brief's targets; standing limits are kept by the central prediction only.
 *
 * @throws InputProblems as `propose`.
 */
export function proposeSurely(question: Question, wanted: number, options: ProposeOptions = {}): SureProposal {
  const aim = AIMS[question.objective];
  const world = worldOf(question);
  const seed = options.seed ?? 1;
  const drawn = { draws: options.draws ?? DRAWS, seed };
  const settled = settleSystems(question, world, aim);
  const sides = sidesOf(question.targets);
  const first = settled.ranked[0];
  if (sides.length === 0 || first === undefined) {
    const proposal = proposeFrom(question, world, settled, drawn);
    const value = proposal.objective.exact;
    return { proposal, sureness: { wanted, reached: true, chance: null, held: [], unsure: value, sure: value } };
  }
  const draws = latinHypercube(SEARCH_DRAWS, seed + 1, question.together);
  const search: Search = { question, world, aim, sides, draws };
  const ample = wanted + AMPLE;
  let leader: Cleared | null = null;
  for (const from of settled.ranked) {
    // Keeping clear never improves on the blend that need not.
    if (leader !== null && leader.chance >= ample && !better(from.answer, leader.answer, aim)) continue;
    const start = judged(
      search,
      from,
      NONE_BARRED,
      from.answer,
      question.targets,
      search.sides.map(() => 0),
    );
    const found = cleared(search, start, ample);
    if (leader === null || ahead(found, leader, ample, aim)) leader = found;
  }
  return lastWord(search, settled, withoutSuspects(search, leader!, ample), wanted, drawn);
}

interface Search {
  readonly question: Question;
  readonly world: World;
  readonly aim: Aim;
  readonly sides: readonly Side[];
  readonly draws: Draws;
}

/** A blend kept clear of its limits. */
interface Cleared {
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
function ahead(a: Cleared, b: Cleared, wanted: number, aim: Aim): boolean {
  const [enoughA, enoughB] = [a.chance >= wanted, b.chance >= wanted];
  if (enoughA !== enoughB) return enoughA;
  return enoughA ? better(a.answer, b.answer, aim) : a.chance > b.chance;
}

function judged(
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
function cleared(search: Search, start: Cleared, wanted: number): Cleared {
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
 * Does without materials whose own figures make the targets unsure, one after the other, as long as that helps: an
 * accelerator and a retarder set against each other gain next to nothing by the middle figures and spoil the chance.
 */
function withoutSuspects(search: Search, leader: Cleared, wanted: number): Cleared {
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
function suspectsOf(search: Search, { spreads, barred }: Cleared): string[] {
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
function keptClear(search: Search, near: Cleared, clear: readonly number[]): Cleared | null {
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
  if (free === null || !free.feasible) return null;
  const kept = supported(held, world, system, free, aim);
  return kept === null || !kept.answer.feasible ? null : kept.answer;
}

/** Rounds to the scale and judges on draws that the search has not seen; where rounding cost too much, keeps clearer. */
function lastWord(
  search: Search,
  settled: SettledSystems,
  leader: Cleared,
  wanted: number,
  options: { readonly draws: number; readonly seed: number },
): SureProposal {
  const { question, world } = search;
  const weighed = (c: Cleared): Proposal => {
    const others = settled.ranked.filter((r) => r.system !== c.from.system);
    const ranked = [{ ...c.from, answer: c.answer }, ...others];
    const reports = settled.reports.map((r) => {
      if (r.system === c.from.system.id) return { ...r, outcome: 'chosen' as const, value: c.answer.value };
      return r.outcome === 'chosen' ? { ...r, outcome: 'possible' as const } : r;
    });
    return onItsOwnLimits(question, proposeFrom(question, world, { ranked, reports }, options, c.targets), world);
  };
  const chanceOf = (p: Proposal): number => (p.status === 'met' ? (p.assessment.jointChance ?? 0) : 0);
  let best = leader;
  let proposal = weighed(leader);
  let near = leader;
  for (let tries = 0; tries < TRIES && leader.chance >= wanted && chanceOf(proposal) < wanted; tries++) {
    const next = keptClear(
      search,
      near,
      near.spreads.map((s, i) => FURTHER * near.clear[i]! + 0.02 * s.size),
    );
    if (next === null) break;
    near = next;
    const again = weighed(next);
    if (chanceOf(again) > chanceOf(proposal)) [best, proposal] = [next, again];
  }
  const chance = proposal.assessment.jointChance;
  const held = search.sides.flatMap(({ target, side, limit }) => {
    const to = best.targets.find((t) => t.property === target.property)?.[side];
    return to === undefined || to === limit ? [] : [{ property: target.property, side, limit, to }];
  });
  return {
    proposal,
    sureness: {
      wanted,
      reached: chance !== null && chance >= wanted && proposal.status === 'met',
      chance,
      held,
      unsure: settled.ranked[0]!.answer.feasible ? settled.ranked[0]!.answer.value : null,
      sure: proposal.objective.weighed,
    },
  };
}

/** Rounding was held to tighter limits; whether the brief is met is judged by its own. */
function onItsOwnLimits(question: Question, proposal: Proposal, world: World): Proposal {
  if (proposal.status === 'met') return proposal;
  const grams = new Map(proposal.ingredients.map((i) => [i.material, i.pieceGrams]));
  const pieceGrams = question.materials.map((m) => grams.get(m.id) ?? 0);
  const limits = [...question.targets, ...standingTargets(question.targets)];
  const miss = missOf(limits, world, stateOf(world, pieceGrams), 1e-9);
  return miss === 0 ? { ...proposal, status: 'met' } : proposal;
}
