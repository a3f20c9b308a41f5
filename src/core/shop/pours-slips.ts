import { evaluate } from '../blend/assess.js';
import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { worldOf } from '../blend/world.js';
import type { Problem } from '../problems/problem.js';
import { printQuantity } from '../units/print.js';
import type { Weighing } from './pours-cells.js';
import type { KnownPour } from './pours-measured.js';

/** Shares by which a piece may outweigh what it was poured of (bags and moulds differ), and itself as it dries. Ours. */
const MORE_POURED = 0.1;
const MORE_LATER = 0.02;

/** g that one piece was poured of: a mould full of the blend, else what was mixed for each; null: not known. */
function pouredGrams({ input, grams, batch }: KnownPour): number | null {
  const { volume } = input.conditions;
  if (volume === null) return batch === null ? null : batch.grams / batch.pieces;
  const filled = evaluate(worldOf(input), grams).value(freshVolume);
  return filled === null || filled <= 0 ? null : (volume * grams.reduce((s, g) => s + g, 0)) / filled;
}

const mass = (grams: number): string => `⟦${Number(grams.toPrecision(3))} g⟧`;
const told = ({ grams, hours }: Weighing): string => `${mass(grams)} after ${printQuantity(hours, 'time')}`;

/**
 * Weighings that were just added to a pour and are most likely slips: far more than was poured, or more than the piece
 * weighed before. `pour` has them among all its weighings, in the order of time.
 */
export function weighingSlips(pour: KnownPour, added: readonly Weighing[]): Problem[] {
  const most = pouredGrams(pour);
  const expected = ({ grams, hours }: Weighing): string | null => {
    if (most !== null && grams > (1 + MORE_POURED) * most)
      return `at most the ${mass(most)} that one piece is poured of`;
    // The next in time only: an old slip must not accuse all that comes after.
    const before = pour.weights.filter((w) => w.hours < hours).at(-1);
    if (before !== undefined && grams > (1 + MORE_LATER) * before.grams)
      return `less than before, as a piece only dries: ${told(before)}`;
    const after = pour.weights.find((w) => w.hours > hours);
    if (after === undefined || after.grams <= (1 + MORE_LATER) * grams) return null;
    return `more than later, as a piece only dries: ${told(after)}`;
  };
  return added.flatMap((weighing): Problem[] => {
    const wanted = expected(weighing);
    if (wanted === null) return [];
    return [
      {
        code: 'pour-implausible',
        severity: 'warning',
        found: told(weighing),
        expected: wanted,
        hint: 'it is written all the same; if it was a slip, take it out of the record by hand',
      },
    ];
  });
}
