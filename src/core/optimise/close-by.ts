/** Whether all coefficients of one row differ from the other's by no more than this share of the larger. */
export const closeBy = (a: readonly number[], b: readonly number[], share: number): boolean =>
  a.every((c, i) => Math.abs(c - b[i]!) <= share * Math.max(Math.abs(c), Math.abs(b[i]!)));
