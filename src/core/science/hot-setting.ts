import { atLeast } from './guard.js';

/**
 * Warmest that portland cement may get inside while it sets [°C]: plain, and with enough pozzolan or slag. ACI 301 has 70 °C
 * (160 °F) against delayed ettringite; road authorities let 185 °F pass with enough of these (aci-mass-question,
 * alabama-mass-concrete).
 */
export const LATE_ETTRINGITE = { plain: 70, withPozzolan: 85 } as const;

/** Reactive pozzolan per portland, g/g, that counts as enough: as for glass and for sulfate. Ours. */
const ENOUGH_POZZOLAN = 0.25;

/** °C from which the water in a piece counts as near boiling. Ours. */
export const NEAR_BOILING = 95;

export interface HotCase {
  /** °C, likely peak inside the piece. */
  readonly peak: number;
  /** Share of the binder that is portland, 0..1. */
  readonly portlandShare: number;
  /** Reactive pozzolan per portland, g/g. */
  readonly pozzolanRatio: number;
}

/** Share of the binder from which portland decides: a quarter, as for cracks. Ours. */
const PORTLAND_DECIDES = 0.25;

/**
 * What the heat of setting may do to a piece.
 *
 *   ettringite: portland over a quarter of the binder, hotter than 70 °C, or than 85 °C with pozzolan/portland >= 0.25:
 *               ettringite that could not form forms later, in the hard piece, once that is wet, and swells it
 *   boiling:    95 °C or more, whatever the binder: steam, and cracks as it cools
 *
 * Source: LATE_ETTRINGITE, NEAR_BOILING. Ettringite needs water later; whether the piece meets it is the caller's.
 */
export function hotSetting(mix: HotCase): { readonly ettringite: boolean; readonly boiling: boolean } {
  const pozzolan = atLeast(0, mix.pozzolanRatio, 'pozzolanRatio') >= ENOUGH_POZZOLAN;
  const limit = pozzolan ? LATE_ETTRINGITE.withPozzolan : LATE_ETTRINGITE.plain;
  return {
    ettringite: mix.portlandShare >= PORTLAND_DECIDES && mix.peak > limit,
    boiling: mix.peak >= NEAR_BOILING,
  };
}
