import { atLeast, clamp } from './guard.js';

/** Linear setting expansion of plasters [percent]. Sources: plaster-trade-page, dental-lecture (looked up). */
export const SETTING_EXPANSION = {
  beta: { value: 0.2, low: 0.19, high: 0.22 },
  alpha: { value: 0.25, low: 0.08, high: 0.39 },
  dental: { value: 0.25, low: 0.2, high: 0.3 },
} as const;

/** Growth of a length on setting [mm]. length [mm] x percent / 100. Source: definition. */
export const settingGrowth = (length: number, percent: number): number =>
  (atLeast(0, length, 'length') * percent) / 100;

/** Exponent on the share of paste in a mortar's shrinkage (1.2-1.7). Source: pickett-1956 (from memory). */
export const RESTRAINT_POWER = 1.7;

/**
 * Drying shrinkage of a mortar from that of its paste [microstrain]. S = S_paste (1 - g)^n.
 *
 * paste S_paste [microstrain]; aggregate g [0..1, share of the volume that is stiff grains; light aggregate restrains
 * little: leave it out]; n 1.7 (1.2-1.7). Source: pickett-1956 (from memory).
 */
export const restrainedShrinkage = (paste: number, aggregate: number, n: number = RESTRAINT_POWER): number =>
  atLeast(0, paste, 'paste') * (1 - clamp(aggregate, 0, 1)) ** n;

/**
 * Class of a drying shrinkage: `low` under 600, `medium` under 1200, `high` from there [microstrain]. Ours; concretes
 * lie at 400-800, casting mortars at 800-1500 (from memory).
 */
export const shrinkageClass = (microstrain: number): 'low' | 'medium' | 'high' =>
  microstrain < 600 ? 'low' : microstrain < 1200 ? 'medium' : 'high';

export interface CrackCase {
  /** Share of the solids' volume that is grains. */
  readonly aggregate: number;
  readonly waterToBinder: number;
  /** Thickest wall over thinnest wall, >= 1. */
  readonly wallRatio: number;
  /** Days kept covered. */
  readonly coverDays: number;
  /** Share of the binder that is portland or lime: plaster does not shrink on drying. */
  readonly shrinkingShare: number;
}

export type CrackReason = 'rich' | 'wet' | 'uneven-walls' | 'dried-early';

/**
 * Why a piece may crack, worst first; empty when nothing speaks for it.
 *
 *   rich: under 35 % of the solids' volume is grains;  wet: w/b over 0.55;  uneven-walls: over 3:1;  dried-early: under
 *   a day covered.  Only where at least a quarter of the binder is portland or lime.
 *
 * Ours; the directions are common practice (needs.md row 3). Source: none.
 */
export function crackReasons(mix: CrackCase): readonly CrackReason[] {
  if (mix.shrinkingShare < 0.25) return [];
  const reasons: CrackReason[] = [];
  if (mix.aggregate < 0.35) reasons.push('rich');
  if (mix.waterToBinder > 0.55) reasons.push('wet');
  if (mix.wallRatio > 3) reasons.push('uneven-walls');
  if (mix.coverDays < 1) reasons.push('dried-early');
  return reasons;
}

/** Microstrain from which a piece shrinks like neat cement paste, which does so by 2000 to 4000 (from memory). */
export const PASTE_LIKE = 2000;

/**
 * How likely cracks are [low, some, high].
 *
 *   high: it shrinks like neat paste (2000 microstrain or more), or two reasons speak for it
 *   some: it shrinks much for a mortar (class `high`), or one reason does;  low: neither
 *
 * microstrain [1e-6, as dried]; reasons as from crackReasons. Ours: the shrinkage counts whatever the reasons, for it is what cracks.
 */
export function crackLevel(microstrain: number, reasons: readonly CrackReason[]): 'low' | 'some' | 'high' {
  if (microstrain >= PASTE_LIKE || reasons.length > 1) return 'high';
  return reasons.length === 1 || shrinkageClass(microstrain) === 'high' ? 'some' : 'low';
}
