import { portions } from '../optimise/portions.js';
import type { Question } from '../optimise/question.js';
import type { Problem } from '../problems/problem.js';
import { mouldCount, wastePercent } from './mould-words.js';

/** A mix this far from what was asked for, as a share of it, is seen; moulds that it leaves this empty are. Ours. */
const SEEN = 0.03;
const EMPTY = 0.01;

/**
 * A batch that steps of the scale leave short of its moulds, or over. Waste makes up for a little; what fills less than
 * the moulds though nothing of it be wasted leaves a piece that is not full.
 *
 * fills: moulds that the batch fills, waste included.
 */
export function unfilledMould(
  { batch, conditions: { waste } }: Pick<Question, 'batch' | 'conditions'>,
  fills: number,
): Problem[] {
  const { pieces } = batch;
  const off = Math.abs(fills / portions(batch, waste) - 1);
  if (off <= SEEN && fills >= (1 - EMPTY) * pieces) return [];
  const wasted = waste > 0 ? ` and ${wastePercent(waste)}` : '';
  return [
    {
      code: 'mould-unfilled',
      severity: off > SEEN ? 'warning' : 'note',
      found: `a mix that fills ${mouldCount(fills)}, for ${mouldCount(pieces)}${wasted}`,
      hint:
        off > SEEN
          ? 'the steps of the scale are too coarse for so small a batch: weigh finer, or more pieces at once'
          : 'what is told here is of a full mould, and the last will not be: weigh finer, or more pieces at once',
    },
  ];
}
