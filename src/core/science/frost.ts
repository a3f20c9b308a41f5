import { atLeast } from './guard.js';

/**
 * Limits of concrete in frost without salt: most water to cement, and least entrained air where it stays soaked, as a share of
 * the volume. EN 206-1:2000, Table F.1: XF1 (moderately wetted) 0.55; XF3 (soaked) 0.50 and 4.0 % (en-206-frost). Salt asks
 * for more: XF4 0.45 and 4.0 %.
 */
export const FROST = { wetted: 0.55, soaked: 0.5, air: 0.04 } as const;

export interface FrostCase {
  /** Water over cement as EN 206 counts it: additions by their k-value, g/g. */
  readonly waterToCement: number;
  /** Air that admixtures bring in beyond what pouring traps, as a share of the finished volume, 0..1. */
  readonly entrainedAir: number;
  /** Stays soaked (a planter, a bird bath, a flat top); otherwise only wetted by rain. */
  readonly soaked: boolean;
}

/**
 * Whether cement bears frost where it will be.
 *
 *   bears:  wetted and w/c <= 0.55; soaked, w/c <= 0.50 and 4 % air
 *   test:   soaked and w/c <= 0.50, without the air: EN 206 asks for a frost test
 *   breaks: above the limit of its class
 *
 * Validity: concrete of portland cement, hard and a few weeks old; the air is that of concrete with gravel, mortar wants more
 * (about 9 % of the mortar, from memory). Source: FROST.
 */
export function frostVerdict(mix: FrostCase): 'bears' | 'test' | 'breaks' {
  if (atLeast(0, mix.waterToCement, 'waterToCement') > (mix.soaked ? FROST.soaked : FROST.wetted)) return 'breaks';
  return !mix.soaked || mix.entrainedAir >= FROST.air ? 'bears' : 'test';
}

/**
 * Fresh cement in the cold. °C of the air below which it is cold weather to casters, and what thin sections are to be kept at
 * (40 and 55 °F); MPa from which it bears to freeze once (500 psi). Sources: pca-cold-weather, on ACI 306, and
 * vrmca-cold-weather.
 */
export const FRESH_COLD = { least: 5, thin: 13, bearsFrost: 3.5 } as const;

/**
 * Whether a room [°C] is too cold for a fresh piece: below 5 °C it hardly hardens, and where it freezes before 3.5 MPa it may
 * lose half its strength. Validity: portland cement; that lime and other cements are no better is common practice.
 * Source: FRESH_COLD.
 */
export const tooColdForFresh = (celsius: number): boolean => celsius < FRESH_COLD.least;
