import { clamp, positive } from './guard.js';
import { MOLAR_MASSES } from './stoichiometry.js';

/** log10 of the solubility product of gypsum by temperature [°C]. Source: thermoddem (looked up). */
export const GYPSUM_LOG_KSP: readonly (readonly [number, number])[] = [
  [0, -4.66],
  [25, -4.6],
  [60, -4.71],
  [100, -4.99],
];

function logKsp(celsius: number): number {
  const t = clamp(celsius, 0, 100);
  for (let i = 1; i < GYPSUM_LOG_KSP.length; i++) {
    const [t0, k0] = GYPSUM_LOG_KSP[i - 1]!;
    const [t1, k1] = GYPSUM_LOG_KSP[i]!;
    if (t <= t1) return k0 + ((k1 - k0) * (t - t0)) / (t1 - t0);
  }
  return GYPSUM_LOG_KSP.at(-1)![1];
}

/** Activity coefficient of a doubly charged ion. Davies: log g = -A 4 (sqrt I/(1 + sqrt I) - 0.3 I), A 0.509 at 25 °C. */
const davies = (ionic: number): number => {
  const root = Math.sqrt(ionic);
  return 10 ** (-0.509 * 4 * (root / (1 + root) - 0.3 * ionic));
};

/**
 * Solubility of gypsum in pure water [g of dihydrate per litre].
 *
 *   Ksp = g^2 m^2 (free ions m, activity coefficient g by Davies at ionic strength 4 m); ion pair CaSO4 adds K Ksp, log K 2.3
 *
 * celsius [°C, 0-100; clamped]. Validity: pure water; Davies' A is kept at its 25 °C value. Gives 2.67 at 25 °C where
 * tables say 2.1-2.7: a gypsum piece in moving water wears away.
 * Source: thermoddem log Ksp (looked up), davies-1962 and log K 2.3 (from memory).
 */
export function gypsumSolubility(celsius: number): number {
  const ksp = 10 ** logKsp(celsius);
  let free = 0.01;
  for (let i = 0; i < 200; i++) free = 0.5 * (free + Math.sqrt(ksp) / davies(4 * free));
  return (free + 10 ** 2.3 * ksp) * MOLAR_MASSES.dihydrate;
}

/**
 * Gypsum that running or changed water can take [g]: solubility x litres. litres [> 0]; upper bound, full saturation.
 */
export const gypsumDissolvedBy = (litres: number, celsius: number): number =>
  positive(litres, 'litres') * gypsumSolubility(celsius);
