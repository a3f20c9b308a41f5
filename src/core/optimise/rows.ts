import { type Form, type Property, ratioOf } from '../blend/property.js';
import type { BlendState } from '../blend/state/state.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import type { Row } from './lp/types.js';

/**
 * The rows of lo <= value <= hi for a property value = link(N/D): N - inverse(hi) D <= 0 and N - inverse(lo) D >= 0.
 * Exact for the state they are derived in. A side the property can never reach the wrong way gives no row.
 */
export function rowsOf(property: Property, target: Target, world: World, state: BlendState): Row[] {
  const form = property.form(world, state);
  const rows: Row[] = [];
  if (target.max !== undefined) push(rows, form, state, `${property.id} max`, target.max, form.link.rising);
  if (target.min !== undefined) push(rows, form, state, `${property.id} min`, target.min, !form.link.rising);
  return rows;
}

function push(rows: Row[], form: Form, state: BlendState, name: string, limit: number, atMost: boolean): void {
  const ratio = form.link.inverse(limit);
  if (!Number.isFinite(ratio)) {
    // Beyond what the link can give: either always true, or never (a strength of 0 at most, say).
    const always = atMost ? ratio > 0 : ratio < 0;
    if (!always) rows.push({ name, coefficients: form.numerator.map(() => 0), low: 1, scale: 1 });
    return;
  }
  const d = form.denominator;
  const coefficients = form.numerator.map((n, i) => (d === null ? n : n - ratio * d[i]!));
  const side = (d === null ? ratio : 0) - (form.constant ?? 0);
  // A ratio row has no size of its own: it is weighed by what its denominator holds in this blend.
  const denominator = d === null ? 1 : d.reduce((s, x, i) => s + x * state.grams[i]!, 0);
  const scale = Math.max(1e-6, Math.abs(ratio) * denominator, Math.abs(ratioOf(form, state.grams)) * denominator * 0.1 || 0);
  rows.push(atMost ? { name, coefficients, high: side, scale } : { name, coefficients, low: side, scale });
}
