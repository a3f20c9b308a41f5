import { type Assessment, assess } from '../blend/assess.js';
import type { Target } from '../blend/target.js';
import { worldOf } from '../blend/world.js';
import { refuse } from '../problems/problem.js';
import { type Conflict, conflictOf } from './conflict.js';
import { AIMS, type Aim } from './objective.js';
import type { Question } from './question.js';
import { roundToScale, type Weighable } from './rounding.js';
import { better, type Candidate, explore, type Settled, settle, type Trail } from './settle.js';
import { standingTargets } from './standing-limits.js';
import { BINDER_SYSTEMS, type BinderSystem } from './systems.js';

export interface Ingredient {
  readonly material: string;
  readonly pieceGrams: number;
  readonly batchGrams: number;
}

/** What became of each binder system: proposed from, beaten, far behind, missing something, or closed. */
export interface SystemReport {
  readonly system: string;
  readonly name: string;
  readonly outcome: 'chosen' | 'possible' | 'behind' | 'misses' | 'closed' | 'absent';
  /** The objective's property where the system can meet the brief. */
  readonly value: number | null;
  readonly why: string | null;
}

export interface Proposal {
  readonly status: 'met' | 'nearest';
  readonly system: string;
  readonly ingredients: readonly Ingredient[];
  /** Forward model on what will really be weighed, per piece. */
  readonly assessment: Assessment;
  /** All limits the blend was held to: the brief's targets and the standing limits. */
  readonly standing: readonly Target[];
  readonly systems: readonly SystemReport[];
  /** The objective before rounding and after. */
  readonly objective: { readonly property: string; readonly exact: number | null; readonly weighed: number | null };
  /** False when re-solving still moved the blend; it holds by the forward model all the same. */
  readonly still: boolean;
  readonly solves: number;
  /** Only when nothing fits: which targets cannot hold together. */
  readonly conflict: Conflict | null;
}

export interface ProposeOptions {
  readonly draws?: number;
  readonly seed?: number;
}

/**
 * Proposes a blend: every binder system open to the brief is settled by itself, the best is rounded to the scale and
 * assessed again by the forward model. A brief that nothing can meet gives the nearest blend with its conflict.
 *
 * @throws InputProblems `material-unknown` when no binder at all is in play.
 */
export function propose(question: Question, options: ProposeOptions = {}): Proposal {
  const aim = AIMS[question.objective];
  const world = worldOf(question);
  const trails: { system: BinderSystem; trail: Trail }[] = [];
  const reports: SystemReport[] = [];
  for (const system of BINDER_SYSTEMS) {
    const report = { system: system.id, name: system.name };
    const closed = system.closed(question.conditions);
    const present = system.families.some((f) => world.materials.some((m) => m.family === f));
    if (!present || closed !== null) {
      const outcome = present ? 'closed' : 'absent';
      reports.push({ ...report, outcome, value: null, why: present ? closed : 'none of its binders is in play' });
      continue;
    }
    const trail = explore(question, world, system, { aim });
    if (trail === null) {
      reports.push({ ...report, outcome: 'misses', value: null, why: 'no blend keeps its doses and fills the mould' });
      continue;
    }
    trails.push({ system, trail });
  }
  const settled = refineWorthwhile(trails, aim);
  const limits = [...question.targets, ...standingTargets(question.targets)];
  const ranked = settled.sort((a, b) =>
    better(a.answer, b.answer, aim) ? -1 : better(b.answer, a.answer, aim) ? 1 : 0,
  );
  const first = ranked[0];
  if (first === undefined) {
    refuse({
      code: 'brief-contradicts',
      where: { path: 'materials' },
      found: 'no binder that may be used here',
      expected: 'at least one cement, gypsum or lime, and water',
    });
  }
  for (const { system } of trails) {
    if (settled.some((s) => s.system === system)) continue;
    reports.push({
      system: system.id,
      name: system.name,
      outcome: 'behind',
      value: null,
      why: 'far from the chosen blend',
    });
  }
  for (const { system, answer } of settled) {
    const outcome = system === first.system ? 'chosen' : answer.feasible ? 'possible' : 'misses';
    reports.push({
      system: system.id,
      name: system.name,
      outcome,
      value: answer.feasible ? answer.value : null,
      why: answer.feasible ? null : 'misses a target',
    });
  }
  const weighed = weighedBlend(question, first.system, first.answer, limits, aim);
  return {
    ...proposalOf(question, first.system, first.answer, weighed, aim, options),
    standing: standingTargets(question.targets),
    systems: reports,
    conflict: first.answer.feasible ? null : conflictOf(world, ranked),
  };
}

/** A system whose free jumps came within this factor of the best is looked at closely. */
const NEAR = 1.3;

/** Refines the systems best first, and leaves those that their free jumps show to be far behind. */
function refineWorthwhile(
  trails: readonly { system: BinderSystem; trail: Trail }[],
  aim: Aim,
): { system: BinderSystem; answer: Settled }[] {
  const order = [...trails].sort((a, b) => (better(a.trail.best, b.trail.best, aim) ? -1 : 1));
  const settled: { system: BinderSystem; answer: Settled }[] = [];
  let leader: Settled | null = null;
  for (const { system, trail } of order) {
    if (leader !== null && !worthwhile(trail.best, leader, aim)) continue;
    const answer: Settled = trail.refine();
    settled.push({ system, answer });
    if (leader === null || better(answer, leader, aim)) leader = answer;
  }
  return settled;
}

function worthwhile(candidate: Candidate, leader: Settled, aim: Aim): boolean {
  if (candidate.miss > 0.5 && candidate.miss > 3 * leader.miss) return false;
  if (!leader.feasible || candidate.value === null || leader.value === null) return true;
  const [low, high] = aim.sense === 'min' ? [candidate.value, leader.value] : [leader.value, candidate.value];
  return low <= NEAR * high;
}

/**
 * Rounds; where no neighbouring rounding meets everything, settles once more with every limit held back by what
 * rounding cost it, and rounds that.
 */
function weighedBlend(
  question: Question,
  system: BinderSystem,
  answer: Settled,
  limits: readonly Target[],
  aim: Aim,
): Weighable {
  const world = worldOf(question);
  const plain = roundToScale(world, answer.grams, limits, question.batch, aim);
  if (plain.miss === 0 || !answer.feasible) return plain;
  const tighten = new Map<string, number>();
  const { verdicts } = assess(question, plain.pieceGrams, limits, { draws: 0 });
  for (const verdict of verdicts) {
    if (verdict.met || verdict.margin === null || verdict.value === null) continue;
    const side = verdict.max !== null && verdict.value > verdict.max ? 'max' : 'min';
    tighten.set(`${verdict.property} ${side}`, 1.5 * -verdict.margin);
  }
  const again = settle(question, world, system, { aim, tighten, start: answer.grams });
  if (again === null) return plain;
  const second = roundToScale(world, again.grams, limits, question.batch, aim);
  return second.miss < plain.miss ? second : plain;
}

function proposalOf(
  question: Question,
  system: BinderSystem,
  answer: Settled,
  weighed: Weighable,
  aim: Aim,
  options: ProposeOptions,
): Omit<Proposal, 'standing' | 'systems' | 'conflict'> {
  const assessment = assess(question, weighed.pieceGrams, question.targets, options);
  const ingredients = question.materials
    .map(
      (m, i): Ingredient => ({
        material: m.id,
        pieceGrams: weighed.pieceGrams[i]!,
        batchGrams: weighed.batchGrams[i]!,
      }),
    )
    .filter((ingredient) => ingredient.batchGrams > 0);
  return {
    status: weighed.miss === 0 ? 'met' : 'nearest',
    system: system.id,
    ingredients,
    assessment,
    objective: {
      property: aim.property.id,
      exact: answer.value,
      weighed: assessment.properties.find((p) => p.property === aim.property.id)?.value ?? null,
    },
    still: answer.still,
    solves: answer.solves,
  };
}
