import { latinHypercube } from '../blend/sampling.js';
import { stateOf } from '../blend/state/state.js';
import { type World, worldOf } from '../blend/world.js';
import { sidesOf } from './back-off.js';
import {
  ahead,
  type Cleared,
  cleared,
  FURTHER,
  judged,
  keptClear,
  type Search,
  tilted,
  withoutSuspects,
} from './keeping-clear.js';
import { better, missOf } from './miss.js';
import { AIMS } from './objective.js';
import { type Proposal, type ProposeOptions, proposeFrom } from './propose.js';
import type { Question } from './question.js';
import { type SettledSystems, type SystemAnswer, settleSystems, worthwhile } from './settle-systems.js';
import { limitsIn } from './standing-limits.js';
import type { BinderSystem } from './systems.js';

/** How sure a proposal is, and what that took. */
export interface Sureness {
  /** Chance asked for that all targets hold at once. */
  readonly wanted: number;
  readonly reached: boolean;
  /** Of what will be weighed out, on draws that the search did not see; null without targets. */
  readonly chance: number | null;
  /** The limits that the blend was held to, in place of the brief's, and lies at. */
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
const TRIES = 4;
/** Where rounding cost too much, this share of a standard deviation clearer besides. */
const BESIDES = 0.02;
const NONE_BARRED: ReadonlySet<string> = new Set();

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
  const plain = settleSystems(question, world, aim);
  const sides = sidesOf(question.targets);
  const first = plain.ranked[0];
  if (sides.length === 0 || first === undefined) {
    const proposal = proposeFrom(question, world, plain, drawn);
    const value = proposal.objective.exact;
    return { proposal, sureness: { wanted, reached: true, chance: null, held: [], unsure: value, sure: value } };
  }
  const draws = latinHypercube(SEARCH_DRAWS, seed + 1, question.together);
  const search: Search = { question, world, aim, sides, draws };
  const ample = wanted + AMPLE;
  const near = surest(search, plain.ranked, null, ample)!;
  // Who is far behind as long as nobody has to be sure may be ahead once the others have paid for it, or cannot be.
  const dear = near.chance < ample || !worthwhile(near.answer, first.answer, aim);
  const settled = dear && first.answer.feasible ? withThoseBehind(search, plain) : plain;
  const behind = settled.ranked.filter((r) => !plain.ranked.some((known) => known.system === r.system));
  const leader = surest(search, behind, near, ample)!;
  const fewer = withoutSuspects(search, leader, ample);
  return lastWord(search, settled, tilted(search, fewer, ample), wanted, drawn);
}

/** The settled systems and those that were left far behind. */
const withThoseBehind = ({ question, world, aim }: Search, plain: SettledSystems): SettledSystems =>
  plain.reports.some((r) => r.outcome === 'behind') ? settleSystems(question, world, aim, true) : plain;

/** The best of some systems' blends once they are kept clear, or the one known before where none is better. */
function surest(
  search: Search,
  ranked: readonly SystemAnswer[],
  before: Cleared | null,
  ample: number,
): Cleared | null {
  const nothing = search.sides.map(() => 0);
  let leader = before;
  for (const from of ranked) {
    // Keeping clear never improves on the blend that need not.
    if (leader !== null && leader.chance >= ample && !better(from.answer, leader.answer, search.aim)) continue;
    const start = judged(search, from, NONE_BARRED, from.answer, search.question.targets, nothing);
    const found = cleared(search, start, ample);
    if (leader === null || ahead(found, leader, ample, search.aim)) leader = found;
  }
  return leader;
}

/** A limit with more to spare than this share of how far it was moved holds nothing back. */
const IDLE = 0.5;

/** Rounds to the scale and judges on draws that the search has not seen; where rounding cost too much, keeps clearer. */
export function lastWord(
  search: Search,
  settled: SettledSystems,
  leader: Cleared,
  wanted: number,
  options: { readonly draws: number; readonly seed: number },
): SureProposal {
  const { question, world } = search;
  const weighed = (c: Cleared): Proposal => {
    // What few ingredients or least doses cost is told of the blend that need not be sure; of another nobody knows it.
    const asItWas = c.answer === c.from.answer && c.from.system === settled.ranked[0]!.system;
    const ranked = asItWas
      ? settled.ranked
      : [{ ...c.from, answer: c.answer, free: c.answer.feasible ? null : c.from.free }];
    const reports = settled.reports.map((r) => {
      if (r.system === c.from.system.id) return { ...r, outcome: 'chosen' as const, value: c.answer.value };
      return r.outcome === 'chosen' ? { ...r, outcome: 'possible' as const } : r;
    });
    const clear = onItsOwnLimits(
      question,
      c.from.system,
      proposeFrom(question, world, { ranked, reports }, options, c.targets),
      world,
    );
    if (clear.status === 'met') return clear;
    // No rounding keeps clear; then at least the brief itself is kept to, where that can be.
    const close = proposeFrom(question, world, { ranked, reports }, options);
    return close.status === 'met' ? close : clear;
  };
  const chanceOf = (p: Proposal): number => (p.status === 'met' ? (p.assessment.jointChance ?? 0) : 0);
  let best = leader;
  let proposal = weighed(leader);
  let near = leader;
  for (let tries = 0; tries < TRIES && leader.chance >= wanted && chanceOf(proposal) < wanted; tries++) {
    const further = near.spreads.map((s, i) => FURTHER * near.clear[i]! + BESIDES * s.size);
    const lacking = wanted - chanceOf(proposal);
    const next = keptClear(search, near, further) ?? tilted(search, near, near.chance + lacking);
    if (next === near) break;
    near = next;
    const again = weighed(next);
    if (chanceOf(again) > chanceOf(proposal)) [best, proposal] = [next, again];
  }
  const chance = proposal.assessment.jointChance;
  const held = search.sides.flatMap(({ target, side, limit }) => {
    const to = best.targets.find((t) => t.property === target.property)![side]!;
    const value = proposal.assessment.properties.find((p) => p.property === target.property)?.value ?? to;
    // A blend that lies far inside of what it was held to is not what it is for that.
    const spare = side === 'max' ? to - value : value - to;
    return to === limit || spare > IDLE * Math.abs(to - limit) ? [] : [{ property: target.property, side, limit, to }];
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
export function onItsOwnLimits(question: Question, system: BinderSystem, proposal: Proposal, world: World): Proposal {
  if (proposal.status === 'met') return proposal;
  const grams = new Map(proposal.ingredients.map((i) => [i.material, i.pieceGrams]));
  const pieceGrams = question.materials.map((m) => grams.get(m.id) ?? 0);
  const miss = missOf(limitsIn(question, system), world, stateOf(world, pieceGrams), 1e-9);
  if (miss > 0) return proposal;
  // What told why the tighter limits were missed is of no matter then.
  const { coarse: _, ...rest } = proposal;
  return { ...rest, status: 'met', conflict: null };
}
