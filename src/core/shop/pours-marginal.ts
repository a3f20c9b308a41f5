import { figureAt } from '../blend/sampling.js';
import type { Figure } from '../materials/figure.js';

/** z of the 95th percentile. */
const Z95 = 1.6448536;
const FURTHEST = 4;
const POINTS = 400;

/**
 * The middle nine tenths of a figure after the pours, in z, when its best value is z and its spread there is `spread`
 * by the curvature over `reach` either side.
 *
 * The measurements speak of the figure itself, not of z, and a two-piece figure has another width on each side of its
 * median. What they say is taken as normal in the figure, of the same information as at z, and is joined with the
 * standard normal prior of z point by point. For a figure with equal sides this is z -+ 1.645 spread.
 */
export function middleOf(figure: Figure, z: number, spread: number, reach: number): { low: number; high: number } {
  const plain = { low: z - Z95 * spread, high: z + Z95 * spread };
  const slope = (figureAt(figure, z + reach) - figureAt(figure, z - reach)) / (2 * reach);
  const learned = 1 / spread ** 2 - 1;
  if (!(slope > 0) || !(learned > 1e-6)) return plain;
  const information = learned / slope ** 2;
  // Where the measurements alone would put it: there the pulls of prior and measurements at z are equal.
  const seen = figureAt(figure, z) + z / (information * slope);
  const from = Math.max(-FURTHEST, z - 6 * spread);
  const step = (Math.min(FURTHEST, z + 6 * spread) - from) / POINTS;
  const weights: number[] = [];
  for (let i = 0; i <= POINTS; i++) {
    const at = from + i * step;
    weights.push(Math.exp(-0.5 * (at * at - z * z + information * (figureAt(figure, at) - seen) ** 2)));
  }
  const all = weights.reduce((sum, w) => sum + w, 0);
  if (!(all > 0) || !Number.isFinite(all)) return plain;
  const quantile = (q: number): number => {
    let sum = 0;
    for (let i = 0; i <= POINTS; i++) {
      sum += weights[i]!;
      if (sum >= q * all) return from + (i - (sum - q * all) / weights[i]! + 0.5) * step;
    }
    return from + POINTS * step;
  };
  return { low: Math.min(z, quantile(0.05)), high: Math.max(z, quantile(0.95)) };
}
