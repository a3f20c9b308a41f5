import { evaluate } from '../blend/assess.js';
import { cost } from '../blend/properties/cost.js';
import { worldOf } from '../blend/world.js';
import type { Brief } from '../brief/read-brief.js';
import type { Shelf } from '../brief/shelf.js';
import { refuse, type Where } from '../problems/problem.js';
import type { OrderBlend } from '../shop/order-plan.js';
import { likelyTimes } from '../shop/order-times.js';
import { type Mixed, mixedBrief } from './mixed.js';

/**
 * A blend as an order needs it.
 * @throws InputProblems `field-missing` when there is no mould: pieces cannot be counted without one.
 */
export function orderBlend(mixed: Mixed, where?: Where): OrderBlend {
  const { conditions } = mixed.input;
  const { volume, waste } = conditions;
  if (volume === null) {
    refuse({
      code: 'field-missing',
      ...(where && { where }),
      found: `“${mixed.title}” without a mould`,
      expected: 'mould: … in that recipe, so that pieces can be counted',
    });
  }
  const grams = mixed.parts.map((p) => p.pieceGrams);
  return {
    title: mixed.title,
    parts: mixed.parts.map((p) => ({ material: p.material, grams: p.pieceGrams })),
    volume,
    waste,
    cost: evaluate(worldOf(mixed.input), grams).value(cost),
    times: likelyTimes(mixed.input, grams),
  };
}

/** The blend that meets the same brief and demoulds soonest; null when none does, or none is quicker. */
export function quickerBlend(brief: Brief, shelf: Shelf, now: OrderBlend): OrderBlend | null {
  const quick: Brief = {
    ...brief,
    title: `${brief.title}, quickest to demould`,
    question: { ...brief.question, objective: 'quickest' },
  };
  const mixed = mixedBrief(quick, shelf, false, { draws: 0 });
  if (!('status' in mixed.result) || mixed.result.status !== 'met') return null;
  const blend = orderBlend(mixed);
  const [was, is] = [now.times.demould, blend.times.demould];
  return was !== null && is !== null && is < 0.98 * was ? blend : null;
}
