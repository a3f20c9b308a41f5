import { assess } from '../blend/assess.js';
import { worldOf } from '../blend/world.js';
import { AIMS } from './objective.js';
import { portions } from './portions.js';
import type { Proposal } from './propose.js';
import type { Question } from './question.js';
import { settle, settleNear } from './settle.js';
import { standingTargets } from './standing-limits.js';
import { BINDER_SYSTEMS } from './systems.js';

/** A blend that answered a question much like this one. */
export interface Near {
  readonly system: string;
  /** g in one piece by material id. */
  readonly grams: Readonly<Record<string, number>>;
}

/**
 * A quick answer while a brief is being changed: only the binder system of the last blend, settled from that blend, not
 * rounded to the scale and without likely ranges. `propose` has the last word: another system may be better by now, and
 * only it says what collides when nothing fits (`conflict` is null here).
 *
 * Returns null when that system is closed to the question or keeps no blend.
 */
export function proposeNear(question: Question, near: Near): Proposal | null {
  const system = BINDER_SYSTEMS.find((s) => s.id === near.system);
  if (system === undefined || system.closed(question.conditions) !== null) return null;
  const aim = AIMS[question.objective];
  const world = worldOf(question);
  if (!system.families.some((f) => world.materials.some((m) => m.family === f))) return null;
  const start = question.materials.map((m) => near.grams[m.id] ?? 0);
  const known = start.some((g, i) => g > 0 && question.materials[i]!.kind !== 'water');
  const answer = known ? settleNear(question, world, system, { aim, start }) : settle(question, world, system, { aim });
  if (answer === null) return null;
  const times = portions(question.batch, question.conditions.waste);
  const assessment = assess(question, answer.grams, question.targets, { draws: 0 });
  return {
    status: answer.feasible ? 'met' : 'nearest',
    system: system.id,
    ingredients: question.materials.flatMap((m, i) => {
      const grams = answer.grams[i]!;
      return grams > 1e-6 ? [{ material: m.id, pieceGrams: grams, batchGrams: grams * times }] : [];
    }),
    fills: times,
    assessment,
    standing: standingTargets(question.targets),
    systems: [{ system: system.id, name: system.name, outcome: 'chosen', value: answer.value, why: null }],
    objective: { property: aim.property.id, exact: answer.value, weighed: answer.value },
    still: answer.still,
    solves: answer.solves,
    conflict: null,
  };
}
