import type { Material } from '../materials/schema.js';
import type { Problem } from '../problems/problem.js';
import type { Bowls } from '../shop/card-bowls.js';

/** Rounding that moves a part by more than this is told. */
const MOST_OFF = 0.05;

/** Parts of a bowl that the scale cannot tell finely enough; `bowls` has them in the same order. */
export function tooFineToWeigh(parts: readonly { readonly material: Material }[], bowls: Bowls): Problem[] {
  return parts.flatMap(({ material }, i): Problem[] => {
    const off = bowls.off[i]!;
    if (Math.abs(off) <= MOST_OFF) return [];
    const exact = Number(bowls.exact[i]!.toPrecision(3));
    return [
      {
        code: 'too-fine-to-weigh',
        severity: 'warning',
        found: `${material.name}: ⟦${exact} g⟧ a bowl, weighed as ⟦${bowls.grams[i]} g⟧`,
        hint: 'use a finer scale, or weigh it for all bowls at once and share it out',
      },
    ];
  });
}
