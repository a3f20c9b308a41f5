import { type Assessment, type AssessOptions, assess } from '../blend/assess.js';
import type { Target } from '../blend/target.js';
import { type World, worldOf } from '../blend/world.js';
import { refuse } from '../problems/problem.js';
import { bestInParts } from './best-in-parts.js';
import {
  type CoarseReport,
  coarseReport,
  type LimitsReport,
  limitsReport,
  type PartsReport,
  partsReport,
} from './choices.js';
import { type Conflict, conflictOf } from './conflict.js';
import { AIMS, type Aim } from './objective.js';
import type { PartsBlend } from './parts.js';
import type { Question } from './question.js';
import type { Weighable } from './rounding.js';
import { type SettledSystems, type SystemReport, settleSystems } from './settle-systems.js';
import type { Settled } from './settled.js';
import { standingTargets } from './standing-limits.js';
import { fewestIngredients } from './support.js';
import type { BinderSystem } from './systems.js';
import { weighedBlend } from './weighed.js';

export interface Ingredient {
  readonly material: string;
  /** In one mould full of what is weighed. */
  readonly pieceGrams: number;
  /** What is weighed. */
  readonly batchGrams: number;
}

export interface Proposal {
  readonly status: 'met' | 'nearest';
  readonly system: string;
  readonly ingredients: readonly Ingredient[];
  /** Moulds that the batch fills, waste included: the steps of the scale leave it a little short or over. */
  readonly fills: number;
  /** Forward model on a mould full of what will really be weighed. */
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
  /** The most ingredients and the least dose, and what they cost. */
  readonly limits?: LimitsReport;
  /** Only when whole-number parts were asked for: `ingredients` then are in these parts. */
  readonly parts?: PartsReport;
  /** Only when a blend keeps every limit and no rounding of it does. */
  readonly coarse?: CoarseReport;
}

export type { SystemReport };

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
  return proposeFrom(question, world, settleSystems(question, world, aim), options);
}

/**
 * Rounds the first of the settled systems to the scale and assesses it. `held` are the limits that rounding keeps to,
 * where they are tighter than the question's own.
 *
 * @throws InputProblems as `propose`.
 */
export function proposeFrom(
  question: Question,
  world: World,
  { ranked, unlimited = [], reports }: SettledSystems,
  options: ProposeOptions = {},
  held: readonly Target[] = question.targets,
): Proposal {
  const aim = AIMS[question.objective];
  const first = ranked[0];
  if (first === undefined) refuseWithoutBlend(question, reports);
  const kept = { ...question, targets: held, unmet: !first.answer.feasible };
  const counted = question.parts && bestInParts(kept, world, ranked, aim, question.parts);
  const parts = counted?.parts;
  const { system, answer } = parts ?? first;
  const weighed = counted?.weighed ?? weighedBlend(kept, world, system, answer, aim);
  const coarse = !parts && answer.feasible && weighed.miss > 0;
  return {
    ...proposalOf(
      question,
      system,
      answer,
      weighed,
      aim,
      parts ? { ...options, scooped: scoopedOf(question, parts) } : options,
    ),
    limits: limitsReport(question, first, () => fewestIngredients(kept, world, first.system, first.free!, aim), aim, [
      ...ranked.slice(1),
      ...unlimited.map((answer) => ({ answer, free: null, tried: 0 })),
    ]),
    ...(question.parts === undefined ? {} : { parts: partsReport(question, parts ?? null, first.answer, weighed) }),
    ...(coarse ? { coarse: coarseReport(kept, world, system, answer, weighed, aim) } : {}),
    standing: standingTargets(question.targets),
    systems: parts ? chosenIn(reports, parts) : reports,
    conflict: first.answer.feasible || weighed.miss === 0 ? null : conflictOf(question, world, ranked, weighed.state),
  };
}

/** @throws InputProblems `brief-contradicts`: no system has a blend, not even a nearest one. */
export function refuseWithoutBlend({ placeOf }: Question, reports: readonly SystemReport[]): never {
  const reasons = new Map<string | null, string[]>();
  for (const { outcome, name, why } of reports)
    if (outcome !== 'absent') reasons.set(why, [...(reasons.get(why) ?? []), name]);
  const barred = [...reasons].map(([why, names]) => `${names.join(', ')}: ${why}`);
  const cramped = reports.some((r) => r.outcome === 'misses');
  const path = cramped ? 'batch' : 'materials';
  refuse({
    code: 'brief-contradicts',
    where: placeOf?.(path) ?? { path },
    found: cramped
      ? 'no blend that keeps its doses, fills the mould and can be weighed out'
      : 'no binder that may be used here',
    expected: cramped
      ? 'more pieces at once, a finer scale, or fewer limits on what goes in'
      : 'at least one cement, gypsum or lime, and water',
    ...(barred.length === 0 ? {} : { hint: barred.join('; ') }),
  });
}

/** The systems with that of the blend in parts chosen, which need not be the first without. */
const chosenIn = (
  reports: readonly SystemReport[],
  { system, answer: { feasible, value } }: PartsBlend,
): SystemReport[] =>
  reports.map((report) => {
    if (report.system === system.id) return { ...report, outcome: 'chosen', value: feasible ? value : null };
    return report.outcome === 'chosen' ? { ...report, outcome: report.value === null ? 'misses' : 'possible' } : report;
  });

/** What goes in by the scoop, and so weighs what its loose density makes of it. */
const scoopedOf = (question: Question, { by, parts }: PartsBlend): ReadonlySet<string> =>
  new Set(by === 'scoop' ? parts.map((p) => question.materials[p.material]!.id) : []);

function proposalOf(
  question: Question,
  system: BinderSystem,
  answer: Settled,
  weighed: Weighable,
  aim: Aim,
  options: AssessOptions,
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
    fills: weighed.fills,
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
