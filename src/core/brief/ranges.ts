import type { Gather } from '../problems/gather.js';
import { refuse, type Where } from '../problems/problem.js';

/** Rooms that pieces are cast and dried in, °C. */
export const ROOM_CELSIUS = { low: 1, high: 45 } as const;
/** A wetter room dries nothing. */
export const MOST_HUMIDITY = 0.98;
export const MOST_WASTE = 0.9;
/** cm³ that a piece fills: from a drop to a cubic metre, far more than a mould at a bench holds. Ours. */
const MOULD = { low: 0.05, high: 1e6, words: '⟦0.05 mL⟧ to ⟦1000 L⟧' } as const;

/** The same volume [cm³] where a mould can have it. @throws InputProblems `field-out-of-range` with the words for what was found. */
export function mouldWithin(volume: number, found: string, where: Where): number {
  if (volume >= MOULD.low && volume <= MOULD.high) return volume;
  return refuse({ code: 'field-out-of-range', where, found, expected: `a mould of ${MOULD.words}` });
}

/** Checks of values that were read; each notes `field-out-of-range` and gives something to go on with. */
export interface Ranges {
  readonly within: (value: number, path: string, low: number, high: number, unit: string) => number;
  /** A share from 0 to `most`. */
  readonly share: (value: number, path: string, most: number) => number;
}

export function ranges(all: Gather, at: (path: string) => Where): Ranges {
  const outside = (path: string, found: string, expected: string): void =>
    all.add({ code: 'field-out-of-range', severity: 'error', where: at(path), found, expected });
  return {
    within: (value, path, low, high, unit) => {
      if (value < low || value > high) {
        outside(path, `⟦${Number(value.toPrecision(4))} ${unit}⟧`, `⟦${low} to ${high} ${unit}⟧`);
      }
      return Math.min(high, Math.max(low, value));
    },
    share: (value, path, most) => {
      if (value >= 0 && value <= most) return value;
      outside(path, `${Number((value * 100).toPrecision(3))} %`, `0 % to ${most * 100} %`);
      return 0;
    },
  };
}
