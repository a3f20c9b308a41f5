import type { Material } from '../materials/schema.js';
import type { Problem } from '../problems/problem.js';
import type { Bowls } from '../shop/card-bowls.js';

/** Rounding that moves a part by more than this is told. */
const MOST_OFF = 0.05;

/** What the scale cannot tell finely enough; `each`: of what the grams are. None where none are wanted. */
export function coarselyWeighed(name: string, exact: number, grams: number, each: string, hint: string): Problem[] {
  if (exact <= 0 || Math.abs(grams / exact - 1) <= MOST_OFF) return [];
  return [
    {
      code: 'too-fine-to-weigh',
      severity: 'warning',
      found: `${name}: ⟦${Number(exact.toPrecision(3))} g⟧${each}, weighed as ⟦${grams} g⟧`,
      hint,
    },
  ];
}

/** Parts of a bowl that the scale cannot tell finely enough; `bowls` has them in the same order. */
export const tooFineToWeigh = (parts: readonly { readonly material: Material }[], bowls: Bowls): Problem[] =>
  parts.flatMap(({ material }, i) =>
    coarselyWeighed(
      material.name,
      bowls.exact[i]!,
      bowls.grams[i]!,
      ' a bowl',
      'use a finer scale, or weigh it for all bowls at once and share it out',
    ),
  );
