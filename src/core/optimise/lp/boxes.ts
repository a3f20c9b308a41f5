import type { Optimum } from './certify.js';
import { type CheckedProgram, unsigned } from './checked-program.js';
import type { OpenNode } from './node-queue.js';

/** Boxes of column bounds, as branch and bound cuts them up. */
export interface Box {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

/** A bound this close to a whole number (relative) is that whole number blurred by rounding. */
const BLUR = 1e-9;

/** The program's box with the bounds of integer columns moved inwards to whole numbers, or a column that holds none. */
export function wholeBox(program: CheckedProgram, integers: readonly number[]): Box | { emptyColumn: number } {
  const lower = program.lower.slice();
  const upper = program.upper.slice();
  for (const j of integers) {
    lower[j] = unsigned(Math.ceil(lower[j]! - BLUR * Math.max(1, Math.abs(lower[j]!))));
    upper[j] = unsigned(Math.floor(upper[j]! + BLUR * Math.max(1, Math.abs(upper[j]!))));
    if (lower[j]! > upper[j]!) return { emptyColumn: j };
  }
  return { lower, upper };
}

/** The halves column <= below and column >= below + 1. */
export function halves(node: OpenNode, column: number, below: number): [OpenNode, OpenNode] {
  const upper = node.upper.slice();
  const lower = node.lower.slice();
  upper[column] = below;
  lower[column] = below + 1;
  const depth = node.depth + 1;
  const { bound, prices } = node;
  return [
    { lower: node.lower, upper, bound, prices, depth },
    { lower, upper: node.upper, bound, prices, depth },
  ];
}

/** Where to cut a range of whole numbers of which nothing is known: open ends are approached by doubling. */
export function middleOf(lower: number, upper: number): number {
  if (Number.isFinite(lower) && Number.isFinite(upper)) return Math.floor((lower + upper) / 2);
  if (Number.isFinite(lower)) return lower + Math.max(8, Math.abs(lower));
  if (Number.isFinite(upper)) return upper - Math.max(8, Math.abs(upper)) - 1;
  return 0;
}

/**
 * Where moving an integer column off the bound it stands at costs more than `room`, the slab beyond is given to
 * `close`, and the rest of the box is returned. The optimum's prices prove the cost of each slab.
 */
export function tightenByReducedCost(
  box: Box,
  integers: readonly number[],
  { x, reducedCosts }: Optimum,
  room: number,
  close: (slab: Box) => void,
): Box {
  if (!Number.isFinite(room)) return box;
  let { lower, upper } = box;
  for (const j of integers) {
    const d = reducedCosts[j]!;
    const from = lower[j]!;
    const to = upper[j]!;
    const steps = Math.floor(room / Math.abs(d) + BLUR) + 1;
    const atLower = d > 0 && x[j] === from && from + steps <= to;
    const atUpper = d < 0 && x[j] === to && to - steps >= from;
    if (!atLower && !atUpper) continue;
    if (atLower) {
      const cut = replaced(lower, j, from + steps);
      close({ lower: cut, upper });
      upper = replaced(upper, j, from + steps - 1);
    } else {
      const cut = replaced(upper, j, to - steps);
      close({ lower, upper: cut });
      lower = replaced(lower, j, to - steps + 1);
    }
  }
  return { lower, upper };
}

function replaced(values: Float64Array, index: number, value: number): Float64Array {
  const copy = values.slice();
  copy[index] = value;
  return copy;
}
