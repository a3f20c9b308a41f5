import { C33_ENVELOPE, type Grading, passingAt } from '../science/grading.js';
import type { SieveResult } from './sieve-schema.js';

/** A line of the plot. */
export interface Curve {
  readonly name: string;
  /** One sign, to mark it in text. */
  readonly sign: string;
  readonly passing: (size: number) => number;
  /** Sieves that were really weighed [mm]; empty for a computed curve. */
  readonly points: Grading;
}

export interface PlotRange {
  readonly finest: number;
  readonly coarsest: number;
}

const SIGNS = ['o', 'x', '+', '*', 'v', '^'] as const;

/** All that is plotted: sands, then the mix and its target. */
export function curvesOf(result: SieveResult): Curve[] {
  const sands = result.sands.map(
    (sand, i): Curve => ({
      name: sand.name,
      sign: SIGNS[i % SIGNS.length]!,
      passing: (size) => passingAt(sand.grading, size),
      points: sand.grading,
    }),
  );
  const { mix } = result;
  if (mix === null) return sands;
  return [
    ...sands,
    { name: 'mix', sign: '#', passing: (size) => passingAt(mix.grading, size), points: [] },
    { name: 'target', sign: '=', passing: (size) => passingAt(mix.targetGrading, size), points: [] },
  ];
}

/** Sizes that hold every sieve of the sands and of C33 [mm]. */
export function plotRange(result: SieveResult): PlotRange {
  const sizes = [...result.sands.flatMap((s) => s.grading.map((p) => p.sieve)), ...C33_ENVELOPE.map(([s]) => s)];
  return { finest: Math.min(...sizes) / 1.2, coarsest: Math.max(...sizes) * 1.2 };
}

/** Where a size stands on a logarithmic axis, 0 at the finest, 1 at the coarsest. */
export const place = (size: number, { finest, coarsest }: PlotRange): number =>
  Math.log(size / finest) / Math.log(coarsest / finest);

/** C33's limits at a size [percent], straight in the logarithm between its sieves; null outside them. */
export function envelopeAt(size: number): { readonly low: number; readonly high: number } | null {
  const low = C33_ENVELOPE.map(([sieve, least]) => ({ sieve, passing: least }));
  const high = C33_ENVELOPE.map(([sieve, , most]) => ({ sieve, passing: most }));
  if (size > low[0]!.sieve || size < low.at(-1)!.sieve) return null;
  return { low: passingAt(low, size), high: passingAt(high, size) };
}
