import { atLeast } from './guard.js';

/** Oxide analysis of a portland cement, percent by mass. */
export interface Oxides {
  readonly cao: number;
  readonly sio2: number;
  readonly al2o3: number;
  readonly fe2o3: number;
  readonly so3: number;
  /** Taken off the CaO when known. */
  readonly freeLime?: number;
}

export interface PotentialPhases {
  readonly c3s: number;
  readonly c2s: number;
  readonly c3a: number;
  /** C4AF, or the solid solution C4AF + C2F when alumina is short. */
  readonly c4af: number;
  /** Al2O3/Fe2O3; the other set of equations holds below 0.64. */
  readonly aluminaRatio: number;
}

/**
 * Bogue's potential phases of a portland cement [percent].
 *
 *   A/F >= 0.64:  C3S = 4.071 C - 7.600 S - 6.718 A - 1.430 F - 2.852 SO3;  C3A = 2.650 A - 1.692 F;  C4AF = 3.043 F
 *   A/F <  0.64:  C3S = 4.071 C - 7.600 S - 4.479 A - 2.859 F - 2.852 SO3;  C3A = 0;  C4AF+C2F = 2.100 A + 1.702 F
 *   C2S = 2.867 S - 0.7544 C3S
 *
 * oxides [percent, >= 0]. Validity: clinker burnt to balance; real alite is some points higher. Negative phases (an
 * analysis that does not belong to portland cement) are returned as they come out. No iron oxide at all counts as A/F
 * infinite. Source: c150 annex as at bogue-example and cementops-bogue (looked up). The printed C2S 15.6 of the
 * first page does not follow from its own equation (15.3).
 */
export function bogue(oxides: Oxides): PotentialPhases {
  const lime = atLeast(0, oxides.cao, 'cao') - (oxides.freeLime ?? 0);
  const silica = atLeast(0, oxides.sio2, 'sio2');
  const alumina = atLeast(0, oxides.al2o3, 'al2o3');
  const iron = atLeast(0, oxides.fe2o3, 'fe2o3');
  const aluminaRatio = iron === 0 ? Number.POSITIVE_INFINITY : alumina / iron;
  const common = 4.071 * lime - 7.6 * silica - 2.852 * atLeast(0, oxides.so3, 'so3');
  const rich = aluminaRatio >= 0.64;
  const c3s = common - (rich ? 6.718 * alumina + 1.43 * iron : 4.479 * alumina + 2.859 * iron);
  return {
    c3s,
    c2s: 2.867 * silica - 0.7544 * c3s,
    c3a: rich ? 2.65 * alumina - 1.692 * iron : 0,
    c4af: rich ? 3.043 * iron : 2.1 * alumina + 1.702 * iron,
    aluminaRatio,
  };
}
