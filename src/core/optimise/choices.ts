import { propertyById } from '../blend/properties/index.js';
import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { propertyValue } from '../blend/property.js';
import { marginOf, type Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import { isDry, leastDose } from './least-dose.js';
import { better } from './miss.js';
import type { Sought } from './objective.js';
import type { PartsBlend } from './parts.js';
import { portions } from './portions.js';
import type { Question } from './question.js';
import { roundToScale, type Weighable } from './rounding.js';
import type { Settled } from './settled.js';
import { limitsIn } from './standing-limits.js';
import type { Supported } from './support.js';
import type { BinderSystem } from './systems.js';

/** What the most ingredients and the least dose made of the blend. */
export interface LimitsReport {
  /** Most dry ingredients asked for; null: as many as it takes. */
  readonly ingredients: number | null;
  /** Dry ingredients the blend has. */
  readonly used: number;
  /** g in the batch that an ingredient is used at, if at all. */
  readonly leastDose: number;
  /** The objective without these limits, where they changed the blend and something fits without them. */
  readonly without: number | null;
  /** Fewest dry ingredients that keep everything, where those allowed do not and more do; null: not so, or not known. */
  readonly enough: number | null;
}

/** The blend in whole-number parts. */
export interface PartsReport {
  readonly by: PartsBlend['by'];
  readonly parts: readonly { readonly material: string; readonly parts: number }[];
  /** What one part of the batch holds: g by mass, cm³ by scoop. */
  readonly part: number;
  /** Materials that are weighed beside the parts. */
  readonly apart: readonly string[];
  /** The objective without whole numbers, before rounding. */
  readonly without: number | null;
  /** False: parts were asked for, but the blend has nothing to count out in parts. */
  readonly found: boolean;
}

/** A side of a limit that no rounding near the blend keeps. */
export interface CoarseSide {
  readonly property: string;
  readonly side: 'min' | 'max';
  readonly limit: number;
  /** What the best rounding has. */
  readonly value: number;
  readonly missedBy: number;
}

/** A blend exists, but the scale's step is too coarse for these limits. */
export interface CoarseReport {
  readonly step: number;
  readonly sides: readonly CoarseSide[];
  /** The coarsest step that weighs the blend out with all limits kept; null: none of those tried. */
  readonly stepThatWould: number | null;
}

/** `others`: what else was settled without these limits, such as another binder system's blend. */
export function limitsReport(
  question: Question,
  { answer, free }: Supported,
  enough: () => number | null,
  aim: Sought,
  others: readonly Supported[] = [],
): LimitsReport {
  const unlimited = others
    .map((o) => o.free ?? o.answer)
    .filter((o) => o.feasible && better(o, answer, aim))
    .reduce((a: Settled | null, b) => (a === null || better(b, a, aim) ? b : a), free?.feasible === true ? free : null);
  const used = answer.grams.filter((g, i) => g > 0 && isDry(question, i)).length;
  return {
    ingredients: question.limits?.ingredients ?? null,
    used,
    leastDose: leastDose(question),
    without: unlimited?.value ?? null,
    enough: free?.feasible === true && !answer.feasible ? enough() : null,
  };
}

export function partsReport(
  question: Question,
  blend: PartsBlend | null,
  exact: Settled,
  weighed: Weighable,
): PartsReport {
  const { materials, parts } = question;
  const ids = blend?.parts.map((p) => ({ material: materials[p.material]!.id, parts: p.parts })) ?? [];
  const apart = materials.filter((m, i) => weighed.batchGrams[i]! > 0 && !ids.some((p) => p.material === m.id));
  return {
    by: parts!.by,
    parts: ids,
    part: blend === null ? 0 : Number(blend.partOf(weighed.batchGrams).toFixed(6)),
    apart: apart.map((m) => m.id),
    without: exact.value,
    found: blend !== null,
  };
}

/** Shares of the scale's step that are tried as a finer one. */
const FINER = [0.5, 0.2, 0.1, 0.05, 0.02, 0.01];

/** Which limits the best rounding misses although the blend keeps them all, and which step would do. */
export function coarseReport(
  question: Question,
  world: World,
  system: BinderSystem,
  exact: Settled,
  weighed: Weighable,
  aim: Sought,
): CoarseReport {
  const { batch } = question;
  const limits = limitsIn(question, system);
  const holdsAt = (step: number): boolean => {
    const fine = batch.fine !== null && batch.fine.step < step ? batch.fine : null;
    return roundToScale({ ...question, batch: { ...batch, step, fine } }, world, system, exact.grams, aim).miss === 0;
  };
  const step = FINER.map((share) => Number((share * batch.step).toPrecision(2))).find(holdsAt);
  const missed = limits.flatMap((limit) => missedSides(limit, world, weighed));
  return {
    step: batch.step,
    // Where a rounding keeps every limit but does not fill the mould, that is what the scale is too coarse for.
    sides: missed.length > 0 ? missed : [portionSide(question, weighed)],
    stepThatWould: step ?? null,
  };
}

/** By how much a portion of what is weighed is short of the mould, or over. */
function portionSide({ batch, conditions: { volume, waste } }: Question, { fills }: Weighable): CoarseSide {
  const value = (volume * fills) / portions(batch, waste);
  const missedBy = Math.abs(value - volume);
  return { property: freshVolume.id, side: value < volume ? 'min' : 'max', limit: volume, value, missedBy };
}

function missedSides(limit: Target, world: World, { state }: Weighable): CoarseSide[] {
  const { property, path: _path, ...sides } = limit;
  const { value } = propertyValue(propertyById(property)!, world, state);
  if (value === null) return [];
  return (['min', 'max'] as const).flatMap((side): CoarseSide[] => {
    const at = sides[side];
    if (at === undefined) return [];
    const missedBy = -marginOf(side === 'min' ? { property, min: at } : { property, max: at }, value);
    return missedBy > 1e-9 * Math.abs(at) ? [{ property, side, limit: at, value, missedBy }] : [];
  });
}
