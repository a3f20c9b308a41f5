import { propertyById } from '../blend/properties/index.js';
import { type Form, type Property, propertyValue } from '../blend/property.js';
import type { BlendState } from '../blend/state/state.js';
import type { Target } from '../blend/target.js';
import { dot, type World } from '../blend/world.js';
import type { BlendProgram } from './blend-program.js';
import type { LinearProgram } from './lp/types.js';
import type { Objective } from './question.js';
import { type Neighbourhood, tangentForm } from './tangent.js';
import { type Closeness, closenessProgram, closenessValue } from './wanted.js';

interface Aim {
  readonly property: Property;
  readonly sense: 'min' | 'max';
  /** True where a jump may land far below what a walk from there reaches: along a ridge. */
  readonly ridged?: true;
  /** True where doses that help one another make valleys: what came out best is looked for once more without its doses. */
  readonly rugged?: true;
  /** True where many blends are as good: of what they hold, much can be done without. */
  readonly flat?: true;
}

const aim = (id: string, sense: 'min' | 'max'): Aim => ({ property: propertyById(id)!, sense });

/** Each objective is a property and a direction. */
export const AIMS: Readonly<Record<Objective, Aim>> = {
  cheapest: aim('cost', 'min'),
  lightest: { ...aim('dry-weight', 'min'), rugged: true },
  heaviest: aim('dry-weight', 'max'),
  strongest: { ...aim('strength', 'max'), ridged: true, rugged: true },
  quickest: { ...aim('demould-time', 'min'), rugged: true, flat: true },
};

/** The ratio to optimise and in which sense; links are monotone, so the ratio's optimum is the property's. */
export function objectiveForm(objective: Aim, world: World, hood: Neighbourhood): { form: Form; sense: 'min' | 'max' } {
  const form = tangentForm(objective.property, world, hood);
  const flipped = objective.sense === 'min' ? 'max' : 'min';
  return { form, sense: form.link.rising ? objective.sense : flipped };
}

/** What a search is after: the best of one property, or closeness to several. */
export type Sought = Aim | Closeness;

const isAim = (sought: Sought): sought is Aim => 'property' in sought;

/** What is sought, by the forward model; null where the blend does not have it. */
export const soughtValue = (sought: Sought, world: World, state: BlendState): number | null =>
  isAim(sought) ? propertyValue(sought.property, world, state).value : closenessValue(sought, world, state);

/** The value on a scale where equal steps are equal gains: shares of itself for a property, tolerances for closeness. */
export const merit = (sought: Sought, value: number | null): number => {
  if (!isAim(sought)) return value ?? 0;
  const share = value === null || value <= 0 ? 0 : Math.log(value);
  return sought.sense === 'min' ? share : -share;
};

/** The ratio of a free jump, where a ratio is sought; null where the objective is linear. */
export function soughtRatio(sought: Sought, world: World, hood: Neighbourhood) {
  if (!isAim(sought)) return null;
  const { form, sense } = objectiveForm(sought, world, hood);
  return form.denominator === null ? null : { numerator: form.numerator, denominator: form.denominator, sense };
}

/**
 * The rows with what is sought as a linear objective; a ratio N/D goes as N - (N/D at the blend) D, its own slope
 * there. The blend's columns come first, columns of the objective's own may follow.
 */
export function soughtProgram(sought: Sought, program: BlendProgram, world: World, hood: Neighbourhood): LinearProgram {
  if (!isAim(sought)) return closenessProgram(sought, program, world, hood);
  const { form, sense } = objectiveForm(sought, world, hood);
  const { columns, rows } = program;
  const objective =
    form.denominator === null ? form.numerator : slope(form.numerator, form.denominator, hood.base.grams);
  return { columns, rows, sense, objective };
}

/**
 * By how much an optimum of `soughtProgram` is worse than the blend at which that program was made: in shares of what the
 * objective adds up there, or in tolerances for closeness. Negative: better.
 */
export function falls(
  sought: Sought,
  found: { readonly program: LinearProgram; readonly objective: number },
  blend: { readonly grams: readonly number[]; readonly value: number | null },
): number {
  if (!isAim(sought)) return found.objective - (blend.value ?? 0);
  const { objective, sense } = found.program;
  let value = 0;
  let size = 0;
  blend.grams.forEach((g, i) => {
    value += objective[i]! * g;
    size += Math.abs(objective[i]! * g);
  });
  return (sense === 'min' ? found.objective - value : value - found.objective) / Math.max(size, 1e-12);
}

/** Gradient of N/D at a blend, times D: same direction, no division by a tiny D. */
function slope(numerator: readonly number[], denominator: readonly number[], grams: readonly number[]): number[] {
  const d = dot(denominator, grams);
  const ratio = d > 0 ? dot(numerator, grams) / d : 0;
  return numerator.map((n, i) => lessDust(n, ratio * denominator[i]!));
}

/** Share of a term that its difference from an equal one may come to by arithmetic. */
const DUST = 1e-12;

/** The difference of two terms of a slope: what two equal ones leave behind is no slope, and no certificate holds on it. */
export const lessDust = (term: number, less: number): number =>
  Math.abs(term - less) <= DUST * Math.abs(term) ? 0 : term - less;

/** Share of a limit by which a value is still right at it. */
const AT = 1e-4;

/** Whether a target lets the objective come no further than a blend is: then many blends are as good. */
export const atItsLimit = (
  { property, sense }: Aim,
  targets: readonly Target[],
  { value }: { readonly value: number | null },
): boolean =>
  targets.some((target) => {
    const limit = target.property === property.id ? target[sense === 'min' ? 'min' : 'max'] : undefined;
    return value !== null && limit !== undefined && Math.abs(value - limit) <= AT * Math.abs(limit);
  });

export type { Aim };
