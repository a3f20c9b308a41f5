import { atLeast } from './guard.js';

export interface GlassCase {
  /** g of glass sand, glass aggregate or expanded glass. */
  readonly glassSand: number;
  /** g of glass ground to powder (under about 0.1 mm): it works as a pozzolan. */
  readonly glassPowder?: number;
  readonly portland: number;
  /** Reactive pozzolan or slag per portland, g/g. */
  readonly pozzolanRatio: number;
  readonly service: 'dry-indoor' | 'damp' | 'wet' | 'warm';
}

/** Reactive pozzolan per portland that usually quietens glass: 0.2-0.3. From memory; test bars decide. */
export const QUIETING_POZZOLAN = 0.25;

/**
 * Risk that glass grains swell and crack in portland cement (alkali-silica reaction).
 *
 *   none: no portland, no glass grains, or powder only
 *   note: dry indoors (the reaction needs moisture), or pozzolan / portland >= 0.25
 *   warn: damp, wet or warm without enough pozzolan
 *
 * Masses [g, >= 0]. CSA, aluminate and gypsum binders are too low in alkali and lime to count here. AR-glass fibre is
 * made for cement and is not glass sand. Source: rule ours; C1260/C1567 mortar bars are the test (from memory).
 */
export function alkaliGlassRisk(mix: GlassCase): 'none' | 'note' | 'warn' {
  if (atLeast(0, mix.glassSand, 'glassSand') === 0 || atLeast(0, mix.portland, 'portland') === 0) return 'none';
  const powder = (mix.glassPowder ?? 0) / mix.portland;
  if (mix.service === 'dry-indoor' || mix.pozzolanRatio + powder >= QUIETING_POZZOLAN) return 'note';
  return 'warn';
}
