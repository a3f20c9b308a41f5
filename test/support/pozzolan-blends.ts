import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { worldOf } from '../../src/core/blend/world.js';
import { blendProgram, columnsOf } from '../../src/core/optimise/blend-program.js';
import type { Row } from '../../src/core/optimise/lp/types.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { type Proposal, proposeFrom } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { explore } from '../../src/core/optimise/settle.js';
import { refineWorthwhile } from '../../src/core/optimise/settle-systems.js';
import { frozenAt } from '../../src/core/optimise/tangent.js';
import type { SulfateOutcome } from '../../src/core/safety/facts.js';
import { sulfateOutcome } from '../../src/core/safety/sulfate-outcome.js';
import { seededRandom } from './random-programs.js';
import { varied } from './random-shelf.js';
import { material, model } from './shipped-table.js';
import { systemOf } from './small-shelf.js';

/** Blends of plaster, portland and pozzolan, and what the sulfate screen makes of them. */

export const POZZOLAN_SYSTEM = systemOf('gypsum-portland-pozzolan');

/** The system's row of pozzolan as it looks from a blend. */
export function heldRow(question: Question, grams: readonly number[]): Row {
  const world = worldOf(question);
  const hood = frozenAt(stateOf(world, grams));
  const { rows } = blendProgram(question, world, hood, POZZOLAN_SYSTEM, columnsOf(question, world, POZZOLAN_SYSTEM));
  return rows.find((r) => r.name === POZZOLAN_SYSTEM.holds[0]!.name)!;
}

/** What the screen says of so many grams of each material. */
export const screened = (question: Question, grams: readonly number[]): SulfateOutcome | null =>
  sulfateOutcome(
    question.materials.map((m, i) => ({ material: m, grams: grams[i]! })).filter((p) => p.grams > 0),
    question.conditions,
    [],
  );

/** A dry piece of a natural and another pozzolan beside plaster and portland, on a coarse scale. Prices are invented. */
export function pozzolanQuestion(seed: number): Question {
  const random = seededRandom(seed);
  const other = random.pick(['silica-fume', 'metakaolin', 'fly-ash', 'ground-slag']);
  const ids = [
    'water',
    'casting-plaster',
    random.pick(['portland-cement-grey', 'portland-cement-white']),
    'natural-pozzolan',
    other,
    random.pick(['masonry-sand', 'silica-sand-fine']),
  ];
  const materials = ids.map((id) => varied(material(id), random));
  const step = random.pick([1, 5]);
  return {
    objective: random.pick(['cheapest', 'lightest', 'strongest'] as const),
    targets: random.chance(0.6) ? [{ property: 'strength', min: random.between(4, 12) }] : [],
    conditions: { ...DEFAULT_CONDITIONS, volume: random.between(60, 900), service: 'dry-indoor' },
    materials,
    doses: [],
    figures: model,
    prices: new Map(ids.slice(1).map((id) => [id, random.between(0.0003, 0.004)])),
    // Too little of one pozzolan calls for a mixture.
    stock: new Map(random.chance(0.5) ? [[other, random.between(2, 40)]] : []),
    batch: { pieces: 1, step, fine: null },
    limits: { ingredients: null, leastDose: random.chance(0.4) ? 3 * step : null },
  };
}

/** What is proposed where no other system is looked at; null where it has no blend. */
export function proposedOf(question: Question): Proposal | null {
  const world = worldOf(question);
  const aim = AIMS[question.objective];
  const trail = explore(question, world, POZZOLAN_SYSTEM, { aim });
  if (trail === null) return null;
  const { answers } = refineWorthwhile(question, world, [{ system: POZZOLAN_SYSTEM, trail }], aim);
  return answers.length === 0 ? null : proposeFrom(question, world, { ranked: answers, reports: [] }, { draws: 0 });
}
