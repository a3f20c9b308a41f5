import { propertyById } from '../blend/properties/index.js';
import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { propertyValue } from '../blend/property.js';
import { type BlendState, stateOf } from '../blend/state/state.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import type { Aim } from './objective.js';
import type { Batch } from './question.js';
import { missOf } from './settle.js';

/** What will be weighed: grams per batch on the scale's steps, and what that makes of one piece. */
export interface Weighable {
  readonly batchGrams: readonly number[];
  readonly pieceGrams: readonly number[];
  readonly state: BlendState;
  /** Sum of misses in shares of each limit, 0 when all hold. */
  readonly miss: number;
}

/** Step that a batch amount is weighed to: the fine scale where it bears it, else the coarse one. */
export function stepFor(grams: number, batch: Batch): number {
  return batch.fine !== null && grams <= batch.fine.most ? batch.fine.step : batch.step;
}

const snap = (grams: number, step: number): number => {
  // Steps such as 0.1 are not exact in binary: round the quotient, then clear the dust.
  const snapped = Math.round(grams / step) * step;
  return Number(snapped.toFixed(6));
};

/** Pieces' worth of mix in a batch: waste is a share of what is mixed. */
export const portions = (batch: Batch, waste: number): number => batch.pieces / (1 - waste);

const MOST_MOVES = 60;
/** Only the dust of arithmetic is forgiven, as in the verdicts. */
const STRICT = 1e-9;

/**
 * Rounds a blend to what the scale can tell apart, and searches the neighbouring roundings (one ingredient up or down
 * a step, then two against each other) for one that meets every limit where plain rounding misses one.
 * The mould may be over- or underfilled by what rounding makes of it, and by no more: a search that could pour less
 * would meet any limit on weight or cost that way.
 *
 * `held`: columns the search leaves at their plain rounding (doses that were asked for).
 */
export function roundToScale(
  world: World,
  grams: readonly number[],
  limits: readonly Target[],
  batch: Batch,
  aim: Aim,
  held: ReadonlySet<number> = new Set(),
): Weighable {
  const times = portions(batch, world.conditions.waste);
  const used = grams.map((g, i) => ({ i, step: stepFor(g * times, batch) })).filter(({ i }) => grams[i]! > 0);
  const movable = used.filter(({ i }) => !held.has(i));
  const plain = grams.map((g) => (g > 0 ? snap(g * times, stepFor(g * times, batch)) : 0));
  let best = weigh(world, plain, times, limits);
  if (best.miss === 0) return best;
  const fills = fillingWithin(world, best, times, used);

  for (let move = 0; move < MOST_MOVES && best.miss > 0; move++) {
    const from = best;
    for (const changed of neighbours(from.batchGrams, movable)) {
      const candidate = weigh(world, changed, times, limits);
      if (!fills(candidate)) continue;
      if (candidate.miss < best.miss - 1e-12 || (candidate.miss === best.miss && gains(candidate, best, aim, world))) {
        best = candidate;
      }
    }
    if (best === from) break;
  }
  return best;
}

/** Whether a rounding fills the mould as nearly as plain rounding does, or within the volume of the largest step. */
function fillingWithin(
  world: World,
  plain: Weighable,
  times: number,
  used: readonly { i: number; step: number }[],
): (candidate: Weighable) => boolean {
  const { volume } = world.conditions;
  if (volume === null) return () => true;
  const off = (w: Weighable): number => Math.abs(propertyValue(freshVolume, world, w.state).value! - volume);
  const largest = Math.max(0, ...used.map(({ i, step }) => (step * world.materials[i]!.volume) / times));
  const most = Math.max(off(plain), largest);
  return (candidate) => off(candidate) <= most;
}

function gains(a: Weighable, b: Weighable, aim: Aim, world: World): boolean {
  if (b.miss > 0) return false;
  const of = (w: Weighable) => propertyValue(propertyById(aim.property.id)!, world, w.state).value ?? Number.NaN;
  return aim.sense === 'min' ? of(a) < of(b) : of(a) > of(b);
}

function* neighbours(grams: readonly number[], used: readonly { i: number; step: number }[]): Generator<number[]> {
  const moved = (changes: readonly [number, number][]): number[] | null => {
    const next = [...grams];
    for (const [i, by] of changes) {
      next[i] = Number((next[i]! + by).toFixed(6));
      if (next[i]! < 0) return null;
    }
    return next;
  };
  for (const a of used) {
    for (const sign of [1, -1]) {
      const one = moved([[a.i, sign * a.step]]);
      if (one) yield one;
    }
  }
  for (const a of used) {
    for (const b of used) {
      if (a.i === b.i) continue;
      const two = moved([
        [a.i, a.step],
        [b.i, -b.step],
      ]);
      if (two) yield two;
    }
  }
}

function weigh(world: World, batchGrams: readonly number[], times: number, limits: readonly Target[]): Weighable {
  const pieceGrams = batchGrams.map((g) => g / times);
  const state = stateOf(world, pieceGrams);
  return { batchGrams, pieceGrams, state, miss: missOf(limits, world, state, STRICT) };
}
