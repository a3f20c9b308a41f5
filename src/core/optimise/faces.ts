import { ratioOf } from '../blend/property.js';
import { dot, type World } from '../blend/world.js';
import type { BlendProgram } from './blend-program.js';
import { closeBy } from './close-by.js';
import type { Candidate, Face } from './ground.js';
import { type LinearProgram, type Row, rowWith } from './lp/types.js';
import { lessDust, objectiveForm, type Sought, soughtProgram } from './objective.js';
import { frozenAt, type Neighbourhood } from './tangent.js';

/**
 * The objective's ratio N/D as it looks from a blend; null where it looks the same from everywhere, and for closeness, which
 * is made of straight pieces.
 */
export function faceOf(aim: Sought, world: World, hood: Neighbourhood): Face | null {
  if ('wanted' in aim || aim.property.stateless === true) return null;
  const { form } = objectiveForm(aim, world, hood);
  const { grams } = hood.base;
  const ratio = ratioOf(form, grams);
  if (!Number.isFinite(ratio)) return null;
  const { numerator, denominator } = form;
  // A sum is homogeneous in the grams: it is its own slope.
  if (denominator === null) return { ratio: form.constant ?? 0, slope: numerator };
  const held = dot(denominator, grams);
  return { ratio, slope: numerator.map((n, i) => lessDust(n, ratio * denominator[i]!) / held) };
}

/** A face this far short of what the blend has, in shares of it, still reaches. */
const REACHES = 1e-9;

/** Whether a face promises a blend no less than it has. */
export function reaches(aim: Sought, world: World, { ratio, slope }: Face, at: Candidate): boolean {
  if ('wanted' in aim) return false;
  const { form, sense } = objectiveForm(aim, world, frozenAt(at.state));
  const here = ratioOf(form, at.grams);
  const told = ratio + dot(slope, at.grams);
  return (sense === 'max' ? told - here : here - told) >= -REACHES * Math.abs(here);
}

/** Slopes closer than this, in shares of themselves, are one. */
const ALIKE = 1e-3;

/**
 * The rows with what is sought as it looks from the blend, and no better than it looked from others: the least of
 * several faces is a ridge, and along it no step runs over (Kelley's cutting planes 1960 again, from memory). One more
 * column comes last: by how much the least of the faces falls short of the blend's own, in shares of what that adds up.
 */
export function facedProgram(
  aim: Sought,
  program: BlendProgram,
  world: World,
  hood: Neighbourhood,
  faces: readonly Face[],
): LinearProgram {
  const own = faces.length === 0 ? null : faceOf(aim, world, hood);
  if (own === null || 'wanted' in aim) return soughtProgram(aim, program, world, hood);
  const others = faces.filter((f) => !closeBy(f.slope, own.slope, ALIKE));
  const size = own.slope.reduce((s, c, i) => s + Math.abs(c * hood.base.grams[i]!), 0);
  // A blend that sees no slope has nothing to run over.
  if (others.length === 0 || size === 0) return soughtProgram(aim, program, world, hood);
  // Which way is better needs no slopes.
  const { sense } = objectiveForm(aim, world, frozenAt(hood.base));
  const up = sense === 'max' ? 1 : -1;
  const rows = others.map(
    ({ ratio, slope }, k): Row => ({
      name: `face ${k}`,
      coefficients: [...slope.map((c, i) => up * (own.slope[i]! - c)), -size],
      high: up * (ratio - own.ratio),
      scale: size,
    }),
  );
  return {
    columns: [...program.columns, { name: 'short of its own face' }],
    rows: [...program.rows.map((row) => rowWith(row, [...row.coefficients, 0])), ...rows],
    sense,
    objective: [...own.slope, -up * size],
  };
}
