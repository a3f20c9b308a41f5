import { clamp } from './guard.js';

export interface BloomCase {
  /** g of portland and slaked lime per g of all binder. */
  readonly limeBearingShare: number;
  readonly waterToBinder: number;
  /** Reactive pozzolan per portland, g/g. */
  readonly pozzolanRatio: number;
  readonly service: 'dry-indoor' | 'damp' | 'wet' | 'warm';
  /** A dark piece shows what a white one hides. */
  readonly dark: boolean;
}

/**
 * Risk of white bloom (lime carried out by water, turned to carbonate) [low, medium, high].
 *
 * Points: damp or wet 2; w/b over 0.45 1, over 0.55 2; pozzolan ratio under 0.1 1; dark 1. High from 4, medium from 2;
 * always low without lime-bearing binder. Ours: the directions are common practice (more water, no pozzolan, damp and
 * dark are worse); the points are judgement. Source: none, common practice (needs.md row 9).
 */
export function bloomRisk(mix: BloomCase): 'low' | 'medium' | 'high' {
  if (clamp(mix.limeBearingShare, 0, 1) < 0.02) return 'low';
  let points = mix.service === 'damp' || mix.service === 'wet' ? 2 : 0;
  points += mix.waterToBinder > 0.55 ? 2 : mix.waterToBinder > 0.45 ? 1 : 0;
  points += mix.pozzolanRatio < 0.1 ? 1 : 0;
  points += mix.dark ? 1 : 0;
  return points >= 4 ? 'high' : points >= 2 ? 'medium' : 'low';
}
