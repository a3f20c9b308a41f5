import type { Figure } from '../../src/core/materials/figure.js';

/** A percentage made up for a test, so much to either side. */
export const handFigure = (value: number, half = 0): Figure => ({
  value,
  low: value - half,
  high: value + half,
  unit: 'percent',
  source: 'none',
  status: 'ours',
});
