/** Small dense symmetric systems, row by row. */
export type Matrix = readonly (readonly number[])[];

/**
 * Lower triangle L of A = L L'; undefined when A is not positive definite. Row i has i + 1 numbers.
 * Source: Cholesky's decomposition (from memory).
 */
export function cholesky(a: Matrix): number[][] | undefined {
  const l: number[][] = [];
  for (let i = 0; i < a.length; i++) {
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      let sum = a[i]![j]!;
      const other = j === i ? row : l[j]!;
      for (let k = 0; k < j; k++) sum -= row[k]! * other[k]!;
      if (j < i) row.push(sum / other[j]!);
      else if (!(sum > 0)) return undefined;
      else row.push(Math.sqrt(sum));
    }
    l.push(row);
  }
  return l;
}

/** y with L y = b. */
export function forward(l: Matrix, b: readonly number[]): number[] {
  const y: number[] = [];
  for (let i = 0; i < b.length; i++) {
    const row = l[i]!;
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= row[k]! * y[k]!;
    y.push(sum / row[i]!);
  }
  return y;
}

/** x with L' x = y. */
export function backward(l: Matrix, y: readonly number[]): number[] {
  const x = [...y];
  for (let i = x.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < x.length; k++) x[i]! -= l[k]![i]! * x[k]!;
    x[i]! /= l[i]![i]!;
  }
  return x;
}

/** Inverse of A from its factor L. */
export function inverseOf(l: Matrix): number[][] {
  const n = l.length;
  const columns = Array.from({ length: n }, (_v, j) => {
    const unit = Array.from({ length: n }, (_w, i) => (i === j ? 1 : 0));
    return backward(l, forward(l, unit));
  });
  return columns.map((_c, i) => columns.map((column) => column[i]!));
}
