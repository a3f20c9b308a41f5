import { refuse, type Where } from '../problems/problem.js';
import { parseQuantity } from '../units/quantity.js';

export interface Weighing {
  /** h from the moment the water went in. */
  readonly hours: number;
  /** g of one piece. */
  readonly grams: number;
}

const WEIGHING = /^([-−]?\d[\d.,]*\s*[a-zA-Z]*)\s*[:=@ ]\s*([-−]?\d.*)$/;

/**
 * Weighings as a maker writes them: "1 h: 285; 3 d: 249". The time is counted from the moment the water went in, hours
 * when no unit stands there; the weight is of one piece, grams when no unit stands there.
 */
export function readWeights(text: string, where?: Where): Weighing[] {
  return text
    .split(/[;|\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map((part) => {
      const found = WEIGHING.exec(part);
      if (found === null) {
        refuse({
          code: 'quantity-unreadable',
          ...(where && { where }),
          found: part,
          expected: 'a time and a weight such as “3 d: 249 g”, several with semicolons between them',
        });
      }
      return {
        hours: parseQuantity(found[1]!.trim(), 'time', where, { assume: 'h' }),
        grams: parseQuantity(found[2]!.trim(), 'mass', where, { assume: 'g', positive: true }),
      };
    });
}

/** "1 h: 285; 72 h: 249", read back by readWeights. */
export const weightsText = (weights: readonly Weighing[]): string =>
  weights.map((w) => `${Number(w.hours.toFixed(3))} h: ${Number(w.grams.toFixed(3))}`).join('; ');

const PART = /^(.+?)\s*[:=]?\s+([-−]?\d[\d.,/]*\s*[a-zA-Z]*(?:\s[a-zA-Z]+)?)$/;

/** The parts of a blend cell, "silica-sand-fine 150; water 75 g", as a recipe has them. Bare numbers are grams. */
export function readBlend(text: string, where?: Where): Record<string, string> {
  const parts: Record<string, string> = {};
  for (const part of text.split(/[;|\n]/)) {
    if (part.trim() === '') continue;
    const found = PART.exec(part.trim());
    if (found === null) {
      refuse({
        code: 'quantity-unreadable',
        ...(where && { where }),
        found: part.trim(),
        expected: 'a material and its weight such as “casting-plaster 300”, several with semicolons between them',
      });
    }
    const amount = found[2]!;
    parts[found[1]!] = /[a-zA-Z]/.test(amount) ? amount : `${amount} g`;
  }
  return parts;
}

/** A blend as a cell: ids and grams, read back by readBlend. */
export const blendText = (parts: readonly { readonly material: { readonly id: string }; readonly grams: number }[]) =>
  parts
    .filter((p) => p.grams > 0)
    .map((p) => `${p.material.id} ${Number(p.grams.toPrecision(6))}`)
    .join('; ');
