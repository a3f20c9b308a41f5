const A1 = -3.983035;
const A2 = 301.797;
const A3 = 522528.9;
const A4 = 69.34881;
const A5 = 999.97495;

/**
 * Density of pure, air-free water at 1 atm [g/cm3].
 *
 *   rho = a5 [1 - (t + a1)^2 (t + a2) / (a3 (t + a4))]   in kg/m3, t in °C
 *   a1 = -3.983035, a2 = 301.797, a3 = 522528.9, a4 = 69.34881, a5 = 999.974950
 *
 * celsius [°C]. Validity: 0..40 °C (a few parts per million). Hot mixing water is still close: at 60 °C it gives
 * 0.9832 as the tables do, at 100 °C 0.9581 against 0.9584. Below 0 or above 100 the end of the range is taken.
 * Source: tanaka-2001, equation 1. Example: waterDensity(20) = 0.99820675.
 */
export function waterDensity(celsius: number): number {
  const t = Math.min(100, Math.max(0, celsius));
  return (A5 * (1 - ((t + A1) ** 2 * (t + A2)) / (A3 * (t + A4)))) / 1000;
}
