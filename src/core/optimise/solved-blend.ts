import type { World } from '../blend/world.js';
import type { BlendProgram } from './blend-program.js';
import { facedProgram } from './faces.js';
import type { Face } from './ground.js';
import { solveFractional } from './lp/fractional.js';
import { openAmong, openColumns } from './lp/open-columns.js';
import { type SolveOptions, solveLp } from './lp/solve.js';
import type { LinearProgram } from './lp/types.js';
import { nearestProgram } from './nearest.js';
import { type Sought, soughtProgram, soughtRatio } from './objective.js';
import type { Neighbourhood } from './tangent.js';

/**
 * The best blend by the rows and by faces seen elsewhere, or the nearest where none keeps the rows; null where neither
 * could be certified. `held`: within reach, no free jump.
 */
export function bestBlend(
  program: BlendProgram,
  aim: Sought,
  world: World,
  hood: Neighbourhood,
  held: boolean,
  faces: readonly Face[],
): number[] | null {
  // Within reach a ratio's own slope is enough; over free jumps the ratio itself is optimised. A best ratio that is only
  // approached, or could not be certified, is still followed by its slope, and a ridge by one side of it.
  const ratio = held ? null : soughtRatio(aim, world, hood);
  const fractional = ratio === null ? null : bestRatio(program, ratio);
  // Nearly alike faces are where the engine loops: no more than two tries for them.
  const faced = faces.length === 0 ? null : facedProgram(aim, program, world, hood, faces);
  const sought = fractional ?? (faced && blendOf(program, faced, { briefly: true }));
  const answer = sought ?? blendOf(program, soughtProgram(aim, program, world, hood));
  const blend = answer === 'infeasible' ? blendOf(program, nearestProgram(program)) : answer;
  return Array.isArray(blend) ? blend : null;
}

/** The blend part of a point. */
const blendIn = ({ columns }: BlendProgram, x: readonly number[]): number[] =>
  x.slice(0, columns.length).map((g) => Math.max(0, g));

/** The blend at the optimum of a program whose first columns are the blend's; null where none is certified. */
export function blendOf(
  of: BlendProgram,
  program: LinearProgram,
  options?: SolveOptions,
): number[] | 'infeasible' | null {
  const open = openColumns(program);
  const answer = solveLp(open.program, options);
  if (answer.status === 'optimal') return blendIn(of, open.widen(answer.x));
  return answer.status === 'infeasible' ? 'infeasible' : null;
}

function bestRatio(
  of: BlendProgram,
  { sense, numerator, denominator }: NonNullable<ReturnType<typeof soughtRatio>>,
): number[] | 'infeasible' | null {
  const open = openAmong(of.columns);
  const answer = solveFractional({
    columns: open.pick(of.columns),
    rows: open.rows(of.rows),
    sense,
    numerator: open.pick(numerator),
    denominator: open.pick(denominator),
  });
  if (answer.status === 'optimal') return blendIn(of, open.widen(answer.x));
  return answer.status === 'infeasible' ? 'infeasible' : null;
}
