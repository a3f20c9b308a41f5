import { type Assessment, assess } from '../blend/assess.js';
import type { Target } from '../blend/target.js';
import { worldOf } from '../blend/world.js';
import { type LimitsReport, limitsReport } from './choices.js';
import { type Ingredient, refuseWithoutBlend } from './propose.js';
import type { Question } from './question.js';
import { type SystemReport, settleSystems } from './settle-systems.js';
import { standingTargets } from './standing-limits.js';
import { type Closeness, type Distance, distances, farness, type Wanted } from './wanted.js';
import { weighedBlend } from './weighed.js';

/** A blend from the shelf that comes close to the medium. */
export interface StandIn {
  readonly system: string;
  readonly name: string;
  readonly ingredients: readonly Ingredient[];
  /** As in a proposal. */
  readonly fills: number;
  /** Weighted sum of the distances of what is weighed out, in tolerances; 0: all as wanted. */
  readonly farness: number;
  /** One for each thing wanted. */
  readonly distances: readonly Distance[];
  /** By the forward model; its verdicts are the tolerances wanted, in their order, then the file's own targets. */
  readonly assessment: Assessment;
  /** The file's targets and the standing limits hold. */
  readonly holds: boolean;
  readonly still: boolean;
  readonly limits: LimitsReport;
}

export interface StandIns {
  /** Closest first, of those alike the surest; at most one a binder system. */
  readonly ranked: readonly StandIn[];
  readonly systems: readonly SystemReport[];
  readonly standing: readonly Target[];
}

/**
 * How far off a blend is for its rank and for print: whole tenths of a tolerance. Blends that are alike to the tenth are
 * ranked by how sure they are, so nothing finer is told of them.
 */
export const tenthsOff = (far: number): number => Math.round(10 * far);

type Ranked = Pick<StandIn, 'holds' | 'farness'> & { readonly assessment: Pick<Assessment, 'jointChance'> };

/** Order of stand-ins: those that keep the targets, then the closer, and of those alike to the tenth the surer. */
export const closestFirst = (a: Ranked, b: Ranked): number =>
  Number(b.holds) - Number(a.holds) ||
  tenthsOff(a.farness) - tenthsOff(b.farness) ||
  (b.assessment.jointChance ?? 0) - (a.assessment.jointChance ?? 0);

/** The order of what is alike in closeness hangs on chances: they are to be within some hundredths. */
const DRAWS = 500;

/** A thing wanted as a window with its tolerance on either side. */
export const toleranceWindow = ({ property, low, high, tolerance }: Wanted): Target => ({
  property,
  ...(low === undefined ? {} : { min: low - tolerance }),
  ...(high === undefined ? {} : { max: high + tolerance }),
});

/**
 * The blends of the shelf that come closest to a medium that cannot be had, one for each binder system: the least
 * weighted sum of normalised distances, each property in its own tolerance, as a linear program inside the successive
 * loop (settle.ts, wanted.ts); rounded to the scale and judged by the forward model.
 *
 * @throws InputProblems `brief-contradicts` when no binder at all is in play.
 */
export function standIn(
  question: Question,
  closeness: Closeness,
  options: { readonly draws?: number; readonly seed?: number } = {},
): StandIns {
  const drawn = { draws: DRAWS, ...options };
  const world = worldOf(question);
  const { ranked, reports } = settleSystems(question, world, closeness);
  if (ranked.length === 0) refuseWithoutBlend(question, reports);
  const windows = closeness.wanted.map(toleranceWindow);
  const found = ranked.map((entry): StandIn => {
    const { system, answer } = entry;
    const weighed = weighedBlend(question, world, system, answer, closeness);
    const list = distances(closeness.wanted, world, weighed.state);
    return {
      system: system.id,
      name: system.name,
      ingredients: question.materials.flatMap((m, i) =>
        weighed.batchGrams[i]! > 0
          ? [{ material: m.id, pieceGrams: weighed.pieceGrams[i]!, batchGrams: weighed.batchGrams[i]! }]
          : [],
      ),
      fills: weighed.fills,
      farness: farness(list),
      distances: list,
      assessment: assess(question, weighed.pieceGrams, [...windows, ...question.targets], drawn),
      holds: weighed.miss === 0,
      still: answer.still,
      limits: limitsReport(question, entry, () => null, closeness),
    };
  });
  return { ranked: found.sort(closestFirst), systems: reports, standing: standingTargets(question.targets) };
}
