import { hardens } from '../blend/state/strength-state.js';
import type { World } from '../blend/world.js';
import { isDosed } from './bulk.js';
import { burden } from './descent.js';
import type { Candidate } from './ground.js';
import { better, byBest } from './miss.js';
import { withNearer } from './nearer.js';
import { merit, type Sought } from './objective.js';
import type { Question } from './question.js';
import { explore, HOPELESS, rested, type Trail } from './settle.js';
import type { Settled } from './settled.js';
import { type Supported, supported } from './support.js';
import { BINDER_SYSTEMS, type BinderSystem, inPlay } from './systems.js';

/** What became of each binder system: proposed from, beaten, far behind, missing something, or closed. */
export interface SystemReport {
  readonly system: string;
  readonly name: string;
  readonly outcome: 'chosen' | 'possible' | 'behind' | 'misses' | 'closed' | 'absent';
  /** The objective's property where the system can meet the brief. */
  readonly value: number | null;
  readonly why: string | null;
  /** Of one far behind: the objective's property of the best blend that it was left at, where that keeps every limit. */
  readonly reached?: number;
}

/** A binder system's own best blend, kept to the limits. */
export interface SystemAnswer extends Supported {
  readonly system: BinderSystem;
}

export interface SettledSystems {
  /** Best first. */
  readonly ranked: readonly SystemAnswer[];
  /** What the systems come to that nothing is left of once the ingredients are few and none of them is too little. */
  readonly unlimited?: readonly Settled[];
  /** One a system. */
  readonly reports: readonly SystemReport[];
}

/**
 * Settles every binder system that is open to the question by itself and ranks them by what is sought. Those that are far
 * behind are left out, unless `every` one is asked for.
 */
export function settleSystems(question: Question, world: World, aim: Sought, every = false): SettledSystems {
  const trails: { system: BinderSystem; trail: Trail }[] = [];
  const reports: SystemReport[] = [];
  const report = (
    system: BinderSystem,
    outcome: SystemReport['outcome'],
    why: string | null,
    value: number | null = null,
    more: Pick<SystemReport, 'reached'> = {},
  ) => reports.push({ system: system.id, name: system.name, outcome, value, why, ...more });
  for (const system of BINDER_SYSTEMS) {
    const closed = system.closed(question.conditions);
    if (!inPlay(system, world)) {
      const several = (system.needs?.length ?? 0) > 1;
      report(system, 'absent', several ? 'not all of its binders are in play' : 'none of its binders is in play');
    } else if (closed !== null) report(system, 'closed', closed);
    else {
      const trail = explore(question, world, system, { aim });
      if (trail === null) report(system, 'misses', 'no blend keeps its doses and fills the mould');
      else trails.push({ system, trail });
    }
  }
  const refined = refineWorthwhile(question, world, trails, aim, every);
  // The nearest to a small mould on a coarse scale may be a mould of water: that is no blend.
  const hard = refined.answers.filter((a) => hardens(world, a.answer.grams));
  const systems = trails.map((t) => t.system);
  const answers = hard.some((a) => a.answer.feasible) ? hard : withNearer(question, world, systems, hard, aim);
  const soft = refined.answers.filter((a) => !hard.includes(a)).map((a) => a.system);
  const cramped = [...refined.cramped, ...soft].filter((system) => !answers.some((a) => a.system === system));
  for (const system of cramped) report(system, 'misses', 'no blend of so few ingredients keeps everything');
  for (const { system, trail } of trails) {
    if (cramped.includes(system) || answers.some((a) => a.system === system)) continue;
    const { miss, value } = trail.best;
    const how = miss > 0 ? 'it still missed a limit' : 'it fell behind';
    const reached = miss > 0 || value === null ? {} : { reached: value };
    report(system, 'behind', `left before it was settled: ${how}`, null, reached);
  }
  const ranked = [...answers].sort(byBest(aim, ({ answer }) => answer));
  ranked.forEach(({ system, answer }, place) => {
    const outcome = place === 0 ? 'chosen' : answer.feasible ? 'possible' : 'misses';
    report(system, outcome, answer.feasible ? null : 'misses a target', answer.feasible ? answer.value : null);
  });
  return { ranked, unlimited: refined.unlimited, reports };
}

/** A system that came within this factor of the best is kept beside it. */
const NEAR = 1.3;
/** A medium is not looked for among blends so many tolerances farther than the closest. */
const FAR = 8;

/** Over so many strides back the pace of a system is taken. */
const PACED = 2;
/** So many strides more, at its pace, do not bring a system up that is left. */
const CATCHING_UP = 10;

/** Nearer than so many shares of the objective none is left behind: in its first strides, and later. */
interface Patience {
  readonly first: number;
  readonly later: number;
}
const PATIENCE: Patience = { first: 2, later: 0.01 };
/** A walk may stand for some strides, a tenth behind, before it finds the ridge. */
const ON_A_RIDGE: Patience = { first: Number.POSITIVE_INFINITY, later: 0.1 };
/** In tolerances, and the straight pieces of closeness meet in ridges too. */
const OF_CLOSENESS: Patience = { first: Number.POSITIVE_INFINITY, later: 0.01 };

/** What is walked with once more from elsewhere is left as soon as it does not catch up. */
const ONCE_MORE: Patience = { first: Number.POSITIVE_INFINITY, later: 0 };

/** While none keeps every limit, one that misses but a quarter of a limit more may yet turn the corner. */
const UNSOUND = 5;

/** A system that has missed so many times as much as another, and hopelessly, after its jumps is not walked with at all. */
const FARTHER = 10;
/** Nor one whose jumps, which promise too much where there is no ridge, tell of a value so many shares worse than what keeps every limit. */
const OUTDONE = 0.5;

const patienceOf = (aim: Sought): Patience => {
  if ('wanted' in aim) return OF_CLOSENESS;
  return aim.ridged ? ON_A_RIDGE : PATIENCE;
};

/**
 * Walks all trails side by side, and leaves those that at their pace would not catch up with the best; `every`: none.
 * Of 470 briefs that were walked to the end in every system, none that came out first would have been left.
 */
export function race(trails: readonly Trail[], aim: Sought, every = false, patience = patienceOf(aim)): void {
  const runners = trails.map((trail) => ({ trail, burdens: [burden(trail.best, aim)] }));
  type Runner = (typeof runners)[number];
  const straight = !('wanted' in aim || aim.ridged);
  const falls = ({ burdens }: Runner, best: number, sound: boolean): boolean => {
    const strides = burdens.length - 1;
    const paced = Math.min(PACED, strides);
    const now = burdens[strides]!;
    const pace = (burdens[strides - paced]! - now) / paced;
    const patient = strides > PACED ? patience.later : patience.first;
    return now - best > Math.max(sound ? patient : Math.max(patient, UNSOUND), CATCHING_UP * pace);
  };
  // What holds every limit leads, however little the others miss.
  const sound = (): Runner[] => runners.filter(({ trail: { best } }) => best.miss === 0 && best.value !== null);
  const least = Math.min(...trails.map((t) => t.best.miss));
  const lead = Math.min(...sound().map((r) => merit(aim, r.trail.best.value)));
  const outdone = ({ value }: Candidate): boolean => straight && value !== null && merit(aim, value) - lead > OUTDONE;
  let left = runners.filter(
    ({ trail: { best } }) => every || (best.miss <= Math.max(HOPELESS, FARTHER * least) && !outdone(best)),
  );
  while (left.length > 0) {
    for (const { trail, burdens } of left) {
      trail.stride();
      burdens.push(burden(trail.best, aim));
    }
    const leading = sound();
    const best = Math.min(...(leading.length > 0 ? leading : runners).map((r) => r.burdens.at(-1)!));
    left = left.filter((r) => !r.trail.still && (every || !falls(r, best, leading.length > 0)));
  }
}

/**
 * Refines the systems and keeps those that come near the best to their limits, best first; `cramped` are those of which
 * the limits leave nothing, and `unlimited` what those come to without them.
 */
export function refineWorthwhile(
  question: Question,
  world: World,
  trails: readonly { system: BinderSystem; trail: Trail }[],
  aim: Sought,
  every = false,
): { answers: SystemAnswer[]; cramped: BinderSystem[]; unlimited: Settled[] } {
  // With a limit of ingredients, or in whole parts, the blends without say too little of who is ahead.
  const limited = (question.limits?.ingredients ?? null) !== null || question.parts !== undefined;
  const all = every || (limited && !('wanted' in aim));
  race(
    trails.map((t) => t.trail),
    aim,
    all,
  );
  const order = trails
    .map(({ system, trail }) => ({ system, free: trail.settled() }))
    .sort(byBest(aim, ({ free }) => free));
  const [first] = order;
  if (first !== undefined) order[0] = { ...first, free: fromAfresh(question, world, first.system, first.free, aim) };
  const answers: SystemAnswer[] = [];
  const cramped: { readonly system: BinderSystem; readonly free: Settled }[] = [];
  let leader: Settled | null = null;
  for (const { system, free } of order) {
    if (!all && leader !== null && !worthwhile(free, leader, aim)) continue;
    const beaten = leader?.feasible === true && !better(free, leader, aim);
    const kept = supported(question, world, system, free, aim, false, beaten);
    if (kept === null) {
      cramped.push({ system, free });
      continue;
    }
    answers.push({ system, ...kept });
    if (leader === null || better(kept.answer, leader, aim)) leader = kept.answer;
  }
  // What misses a limit never comes before what keeps them all: the nearest sets are looked for only where nothing does.
  const unlimited = cramped.map((c) => c.free);
  if (leader?.feasible === true) return { answers, cramped: cramped.map((c) => c.system), unlimited };
  const nearest = cramped.map(({ system, free }) => ({ system, kept: supported(question, world, system, free, aim) }));
  return {
    answers: [...answers, ...nearest.flatMap(({ system, kept }) => (kept === null ? [] : [{ system, ...kept }]))],
    cramped: nearest.flatMap(({ system, kept }) => (kept === null ? [system] : [])),
    unlimited,
  };
}

/** The better of a blend and of what the search comes to from it without its doses, where those make valleys. */
function fromAfresh(question: Question, world: World, system: BinderSystem, free: Settled, aim: Sought): Settled {
  if ('wanted' in aim || aim.rugged !== true) return free;
  const start = free.grams.map((g, i) => (isDosed(question.materials[i]!) ? 0 : g));
  const trail = explore(question, world, system, { aim, start });
  if (trail === null) return free;
  race([rested(free, free), trail], aim, false, ONCE_MORE);
  return better(trail.best, free, aim) ? trail.settled() : free;
}

/** Whether a system that has come so far is worth a look beside the best. */
export function worthwhile(
  candidate: Pick<Candidate, 'miss' | 'value'>,
  leader: Pick<Settled, 'miss' | 'value' | 'feasible'>,
  aim: Sought,
): boolean {
  if (candidate.miss > 0.5 && candidate.miss > 3 * leader.miss) return false;
  if (!leader.feasible || candidate.value === null || leader.value === null) return true;
  if ('wanted' in aim) return candidate.value <= leader.value + FAR;
  const [low, high] = aim.sense === 'min' ? [candidate.value, leader.value] : [leader.value, candidate.value];
  return low <= NEAR * high;
}
