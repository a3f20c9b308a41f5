import type { Knob } from './knobs.js';
import { AGREE, better } from './miss.js';
import type { Sought } from './objective.js';
import type { Weighable } from './rounding.js';

/** A rounding as it was judged: whole steps of each knob, and what they make. */
export interface Weighed extends Weighable {
  readonly steps: readonly number[];
  readonly value: number | null;
  /** True where it keeps all, but a dose window only to half a step. */
  readonly past: boolean;
}

/** Roundings that are tried one by one at most. */
const MOST_TRIED = 4000;
const MOST_MOVES = 60;
/** Sizes of a batch that are tried. */
const MOST_SIZES = 200;
/** What misses by so little is mended by a step or two. */
const HAIR = 2e-3;

/** What judges steps, and how far each knob goes. */
export interface Turning {
  readonly knobs: readonly Knob[];
  /** What misses more than `enough` may be judged in part: it is worse all the same. */
  readonly weigh: (steps: readonly number[], enough?: number) => Weighed;
  readonly aim: Sought;
}

/** The best of a rounding and others, of which those that turn a knob too far do not count. */
function bestOf(from: Weighed, others: Iterable<readonly number[]>, { knobs, weigh, aim }: Turning): Weighed {
  let best = from;
  for (const steps of others) {
    if (!steps.every((s, k) => s >= knobs[k]!.least && s <= knobs[k]!.most)) continue;
    const candidate = weigh(steps, best.miss + AGREE);
    if (better(candidate, best, aim)) best = candidate;
  }
  return best;
}

/** The rounding itself, or where it misses by a hair the best of those a step or two away. */
export const mended = (found: Weighed, turning: Turning): Weighed =>
  found.miss > 0 && found.miss < HAIR ? bestOf(found, moves(found.steps), turning) : found;

/** The best of all roundings about one, as many steps each way as can be tried; else step by step downhill. */
export function neighbouring(from: Weighed, turning: Turning): Weighed {
  const width = Math.floor(MOST_TRIED ** (1 / turning.knobs.length));
  if (width >= 3) return bestOf(from, about(from.steps, Math.floor((width - 1) / 2)), turning);
  let best = from;
  for (let move = 0; move < MOST_MOVES && best.miss > 0; move++) {
    const next = bestOf(best, moves(best.steps), turning);
    if (next === best) break;
    best = next;
  }
  return best;
}

/** The best of a rounding and those of the blend up to such a share larger in all, of which some come nearer to its parts. */
export const resized = (from: Weighed, share: number, turning: Turning): Weighed =>
  bestOf(from, sizes(turning.knobs, share), turning);

/**
 * Roundings of the blend made up to such a share larger, one size for every step of what it has most of: each knob up and
 * down where so many can be tried, else to the nearest step.
 */
function* sizes(knobs: readonly Knob[], share: number): Generator<number[]> {
  const most = Math.max(...knobs.map(({ exact }) => exact));
  const count = Math.min(MOST_SIZES, Math.ceil(share * most));
  const corners = (count + 1) * 2 ** knobs.length <= MOST_TRIED ? 2 ** knobs.length : 0;
  for (let n = 0; n <= count; n++) {
    const size = 1 + (share * n) / count;
    if (corners === 0) yield knobs.map(({ exact }) => Math.round(exact * size));
    for (let up = 0; up < corners; up++) {
      yield knobs.map(({ exact }, k) => Math.floor(exact * size) + ((up >> k) & 1));
    }
  }
}

/** Every rounding up to so many steps each way of every knob. */
function* about(steps: readonly number[], each: number): Generator<number[]> {
  const span = 2 * each + 1;
  for (let n = 0; n < span ** steps.length; n++) {
    let rest = n;
    yield steps.map((s) => {
      const move = (rest % span) - each;
      rest = Math.floor(rest / span);
      return s + move;
    });
  }
}

/** One step more or less of one knob, then one more of one and one less of another. */
function* moves(steps: readonly number[]): Generator<number[]> {
  const moved = (up: number | null, down: number | null) =>
    steps.map((s, k) => s + (k === up ? 1 : 0) - (k === down ? 1 : 0));
  for (let a = 0; a < steps.length; a++) {
    yield moved(a, null);
    yield moved(null, a);
    for (let b = 0; b < steps.length; b++) if (a !== b) yield moved(a, b);
  }
}
