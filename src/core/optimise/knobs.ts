import { MOULD } from './blend-program.js';
import { leastDose } from './least-dose.js';
import { type LinearProgram, type Row, rowWith } from './lp/types.js';
import type { Batch, Question } from './question.js';

/** One thing that is measured out in whole steps: an ingredient on the scale, or several that keep to fixed parts. */
export interface Knob {
  /** g in the batch for one step, by material; only those that are not zero. */
  readonly perStep: readonly (readonly [material: number, grams: number])[];
  /** Steps in the blend before rounding. */
  readonly exact: number;
  readonly least: number;
  readonly most: number;
}

/** g, beyond any batch: what a coarse scale bears and a stock without an end holds. */
const NO_END = 1e9;

/** The scale for a batch amount: the fine one where it bears it, else the coarse one. */
const scaleFor = (grams: number, { step, fine }: Batch): { readonly step: number; readonly most: number } =>
  fine !== null && grams <= fine.most ? fine : { step, most: NO_END };

/** Step that a batch amount is weighed to. */
export const stepFor = (grams: number, batch: Batch): number => scaleFor(grams, batch).step;

/** Share of a mould that is filled more or less by hand. Ours. */
export const FILLED_BY_EYE = 0.0025;

/** Steps such as 0.1 are not exact in binary: clear the dust. */
const clean = (grams: number): number => Number(grams.toFixed(6));

/** One knob for each ingredient of a batch, on the step of the scale that weighs it. */
export function scaleKnobs(question: Question, batchGrams: readonly number[]): Knob[] {
  const { batch } = question;
  const asked = new Set(question.doses.map((d) => d.material));
  const lowest = leastDose(question);
  return batchGrams.flatMap((grams, i): Knob[] => {
    if (grams <= 0) return [];
    const { step, most: borne } = scaleFor(grams, batch);
    const { id, kind } = question.materials[i]!;
    // Water may be as little as it likes; a dose that was asked for stays in the blend however small.
    const least = kind === 'water' ? 0 : asked.has(id) ? 1 : Math.ceil(lowest / step - 1e-9);
    const most = Math.floor(Math.min(question.stock.get(id) ?? NO_END, borne) / step + 1e-9);
    const exact = grams / step;
    return [
      {
        perStep: [[i, step]],
        exact,
        least: Math.min(least, Math.round(exact)),
        most: Math.max(most, Math.round(exact)),
      },
    ];
  });
}

/** Grams in the batch at these steps of the knobs. */
export function gramsAt(knobs: readonly Knob[], steps: readonly number[], materials: number): number[] {
  const grams = new Array<number>(materials).fill(0);
  knobs.forEach(({ perStep }, k) => {
    for (const [material, g] of perStep) grams[material] = clean(grams[material]! + steps[k]! * g);
  });
  return grams;
}

/**
 * By how much an equality gives way: by what plain rounding can make of it, half a step of each knob, or by a whole step of
 * the knob that moves it most; and by a four-hundredth of its side, because nobody fills a mould more exactly. No more
 * than `most`, but half a step of the knob that moves it least has to be had.
 *
 * moves: what a step of each knob does to it [>= 0]; side and most in the same unit.
 */
export function giveOf(moves: readonly number[], side: number, most: number): number {
  const usual = Math.max(
    ...moves,
    moves.reduce((sum, move) => sum + move / 2, 0),
  );
  const finest = Math.min(...moves.filter((move) => move > 0)) / 2;
  return Math.max(FILLED_BY_EYE * side, Math.min(usual, Math.max(most, finest)));
}

/**
 * A program over a blend's grams in one piece (its first columns) as one over the whole steps of the knobs (`times`
 * pieces' worth in the batch), each within `reach` steps of the exact blend. Equalities give way (see `giveOf`), the mould's by
 * no more than a share `filled` of it.
 */
export function inSteps(
  linear: LinearProgram,
  knobs: readonly Knob[],
  materials: number,
  times: number,
  reach: number,
  filled = Number.POSITIVE_INFINITY,
): LinearProgram {
  const along = (coefficients: readonly number[]): number[] =>
    knobs.map(({ perStep }) => perStep.reduce((s, [i, g]) => s + (coefficients[i]! * g) / times, 0));
  const turned = (coefficients: readonly number[]): number[] => [
    ...along(coefficients),
    ...coefficients.slice(materials),
  ];
  const rows = linear.rows.map((row): Row => {
    const coefficients = turned(row.coefficients);
    if (row.low === undefined || row.low !== row.high) return rowWith(row, coefficients);
    const moves = along(row.coefficients).map(Math.abs);
    const side = Math.abs(row.low);
    // Of a dose that was asked for some step is always as near as half of one; more would shave it for the objective.
    const give =
      side === 0
        ? Math.max(...moves) / 2
        : giveOf(moves, side, row.name === MOULD ? filled * side : Number.POSITIVE_INFINITY);
    return { ...row, coefficients, low: row.low - give, high: row.high! + give };
  });
  return {
    columns: [
      ...knobs.map((knob, k) => ({
        name: `steps ${k}`,
        lower: Math.max(knob.least, Math.floor(knob.exact) - reach),
        upper: Math.min(knob.most, Math.ceil(knob.exact) + reach),
        integer: true,
      })),
      ...linear.columns.slice(materials),
    ],
    rows,
    sense: linear.sense,
    objective: turned(linear.objective),
  };
}
