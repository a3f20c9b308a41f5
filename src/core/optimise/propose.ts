import { type Assessment, assess } from '../blend/assess.js';
import type { Target } from '../blend/target.js';
import { worldOf } from '../blend/world.js';
import { refuse } from '../problems/problem.js';
import { type Conflict, conflictOf } from './conflict.js';
import { AIMS, type Aim } from './objective.js';
import type { Question } from './question.js';
import { portions, roundToScale, type Weighable } from './rounding.js';
import { type Bound, type Settled, settle } from './settle.js';
import { type SystemReport, settleSystems } from './settle-systems.js';
import { standingTargets } from './standing-limits.js';
import { leastDose } from './support.js';
import type { BinderSystem } from './systems.js';

export interface Ingredient {
  readonly material: string;
  readonly pieceGrams: number;
  readonly batchGrams: number;
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
  const { ranked, reports } = settleSystems(question, world, aim);
  const limits = [...question.targets, ...standingTargets(question.targets)];
  const first = ranked[0];
  if (first === undefined) {
    const barred = reports.filter((r) => r.outcome !== 'absent').map((r) => `${r.name}: ${r.why}`);
    refuse({
      code: 'brief-contradicts',
      where: { path: 'materials' },
      found: 'no binder that may be used here',
      expected: 'at least one cement, gypsum or lime, and water',
      ...(barred.length === 0 ? {} : { hint: barred.join('; ') }),
    });
  }
  const weighed = weighedBlend(question, first.system, first.answer, limits, aim);
  return {
    ...proposalOf(question, first.system, first.answer, weighed, aim, options),
    standing: standingTargets(question.targets),
    systems: reports,
    conflict: first.answer.feasible || weighed.miss === 0 ? null : conflictOf(world, ranked),
  };
}

const MOST_TRIES = 4;

/**
 * Rounds; where no neighbouring rounding meets everything, settles again with every limit held back by what rounding
 * cost it, and rounds that; a few times over, each adding to what is held back.
 */
function weighedBlend(
  question: Question,
  system: BinderSystem,
  answer: Settled,
  limits: readonly Target[],
  aim: Aim,
): Weighable {
  const world = worldOf(question);
  const asked = new Set(question.doses.map((d) => question.materials.findIndex((m) => m.id === d.material)));
  const rounded = (grams: readonly number[]): Weighable =>
    roundToScale(world, grams, limits, question.batch, aim, asked);
  let best = rounded(answer.grams);
  if (!answer.feasible) return best;
  const bounds = keptTo(question, answer.grams);
  const tighten = new Map<string, number>();
  let last = best;
  for (let tries = 0; tries < MOST_TRIES && best.miss > 0; tries++) {
    const { verdicts } = assess(question, last.pieceGrams, limits, { draws: 0 });
    for (const verdict of verdicts) {
      if (verdict.met || verdict.margin === null || verdict.value === null) continue;
      const side = `${verdict.property} ${verdict.max !== null && verdict.value > verdict.max ? 'max' : 'min'}`;
      tighten.set(side, (tighten.get(side) ?? 0) + 1.5 * -verdict.margin);
    }
    const again = settle(question, world, system, { aim, tighten, start: answer.grams, bounds });
    if (again === null) break;
    last = rounded(again.grams);
    if (last.miss < best.miss) best = last;
  }
  return best;
}

/** The ingredients a blend has, each at its least dose or what it holds already. */
function keptTo(question: Question, grams: readonly number[]): Bound[] {
  const least = leastDose(question) / portions(question.batch, question.conditions.waste);
  return question.materials.map((m, i) => {
    if (m.kind === 'water') return { lower: 0, upper: Number.POSITIVE_INFINITY };
    return grams[i]! > 0
      ? { lower: Math.min(grams[i]!, least), upper: Number.POSITIVE_INFINITY }
      : { lower: 0, upper: 0 };
  });
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
