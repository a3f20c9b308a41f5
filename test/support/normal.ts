/** Normal integral by the error function of Abramowitz and Stegun 7.1.26 (from memory), error below 1.5e-7. */
export function normalBelow(z: number): number {
  const t = 1 / (1 + (0.3275911 * Math.abs(z)) / Math.SQRT2);
  const tail =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    Math.exp((-z * z) / 2);
  return z < 0 ? tail / 2 : 1 - tail / 2;
}
