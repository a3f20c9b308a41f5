import type { At } from '../brief/at.js';
import { MOST_WASTE } from '../brief/ranges.js';
import type { FigureUnit } from '../materials/words.js';
import { refuse } from '../problems/problem.js';

/** A figure as a learned file has it. */
interface Written {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: FigureUnit;
}

/** How far a fit can move a figure: as far as its range is drawn (blend/sampling.ts). */
interface Reach {
  readonly unit: FigureUnit;
  readonly least: number;
  readonly most: number;
}

/** Waste has no row in the table: it may be any share that a shop may name. */
export const WASTE_REACH: Reach = { unit: 'fraction', least: 0, most: MOST_WASTE };

/** Above the rounding of what a fit writes. */
const ROUNDING = 1e-5;

/**
 * A learned figure that a fit can have written. What no fit can have written was slipped in by hand: it is refused, as the
 * same slip in a maker's own table is.
 *
 * @throws InputProblems `unit-wrong-kind`; `field-out-of-range` for a range that is upside down, and for the first of its
 * numbers that is out of reach.
 */
export function learnable<W extends Written>(own: W, reach: Reach, path: string, at: At): W {
  const where = (field: string) => ({ ...at(`${path}${field}`), path: `${path}${field}` });
  const { value, low, high, unit } = own;
  if (unit !== reach.unit)
    refuse({ code: 'unit-wrong-kind', where: where('.unit'), found: unit, expected: reach.unit });
  const slack = ROUNDING * Math.max(Math.abs(reach.least), Math.abs(reach.most));
  for (const [field, number] of Object.entries({ value, low, high })) {
    if (number >= reach.least - slack && number <= reach.most + slack) continue;
    const words = [reach.least, reach.most].map((end) => Number(end.toPrecision(4)));
    refuse({
      code: 'field-out-of-range',
      where: where(`.${field}`),
      found: String(number),
      expected: `${words.join(' to ')}${unit === 'fraction' ? '' : ` ${unit}`}, as far as pours can move it`,
      hint: 'run pours fit again, or take the figure out: then the table’s own counts',
    });
  }
  if (low <= value && value <= high) return own;
  const found = `low ${low}, value ${value}, high ${high}`;
  return refuse({ code: 'field-out-of-range', where: where(''), found, expected: 'low <= value <= high' });
}
