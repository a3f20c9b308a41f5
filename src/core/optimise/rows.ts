import { type Form, type Property, ratioOf } from '../blend/property.js';
import type { Target } from '../blend/target.js';
import type { Grams, World } from '../blend/world.js';
import type { Row } from './lp/types.js';
import { type Neighbourhood, tangentForm } from './tangent.js';

/** Size of a row whose property the blend has nothing of: no size to measure a miss in. */
export const NO_SIZE = 1e-6;

/**
 * The rows of lo <= value <= hi for a property value = link(N/D): N - inverse(hi) D <= 0 and N - inverse(lo) D >= 0.
 * Exact at the blend they are derived at, and everywhere for stateless properties. A side that always holds gives no row.
 */
export function rowsOf(property: Property, target: Target, world: World, hood: Neighbourhood): Row[] {
  const form = tangentForm(property, world, hood);
  const { grams } = hood.base;
  const rows: Row[] = [];
  if (target.max !== undefined) push(rows, form, grams, `${property.id} max`, target.max, form.link.rising);
  if (target.min !== undefined) push(rows, form, grams, `${property.id} min`, target.min, !form.link.rising);
  return rows;
}

function push(rows: Row[], form: Form, grams: Grams, name: string, limit: number, atMost: boolean): void {
  const ratio = form.link.inverse(limit);
  if (!Number.isFinite(ratio)) {
    // Beyond what the link can give: either always true, or never (a strength of 0 at most, say).
    const always = atMost ? ratio > 0 : ratio < 0;
    if (!always) rows.push({ name, coefficients: form.numerator.map(() => 0), low: 1, scale: 1 });
    return;
  }
  const d = form.denominator;
  const coefficients = lessShare(form, ratio);
  const side = (d === null ? ratio : 0) - (form.constant ?? 0);
  // A ratio row has no size of its own: it is weighed by what its denominator holds in this blend.
  const denominator = d === null ? 1 : d.reduce((s, x, i) => s + x * grams[i]!, 0);
  const scale = Math.max(
    NO_SIZE,
    Math.abs(ratio) * denominator,
    Math.abs(ratioOf(form, grams)) * denominator * 0.1 || 0,
  );
  rows.push(atMost ? { name, coefficients, high: side, scale } : { name, coefficients, low: side, scale });
}

/** What is left of a difference of two equal numbers, as a share of them: dust that a pivot must not be made on. */
const CANCELLED = 1e-8;

/** Coefficients of N - ratio D; of N alone where there is no D. */
export const lessShare = (
  { numerator, denominator }: Pick<Form, 'numerator' | 'denominator'>,
  ratio: number,
): number[] =>
  numerator.map((n, i) => {
    if (denominator === null) return n;
    const share = ratio * denominator[i]!;
    return Math.abs(n - share) <= CANCELLED * (Math.abs(n) + Math.abs(share)) ? 0 : n - share;
  });
