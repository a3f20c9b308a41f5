/** One published figure beside what the model gives for the same inputs. */
export interface Check {
  readonly name: string;
  /** Key of the bibliography, and the place in it. */
  readonly source: string;
  readonly where: string;
  /** As printed; "low..high" for a range, a word for a verdict. */
  readonly printed: string;
  readonly ours: number | string;
  readonly unit: string;
  /** (ours - printed) / printed; null for words and ranges. */
  readonly error: number | null;
  /** `fitted`: the figure set a constant of the law, so that its error is a residual and no check. */
  readonly standing: 'looked-up' | 'from-memory' | 'fitted';
  /** A published figure known to be wrong: the model must miss it. */
  readonly trap?: true | undefined;
}

export interface CheckSummary {
  /** Published checks that did not set a constant. */
  readonly checks: number;
  /** Those of them that are numbers, and their errors as fractions. */
  readonly numbers: number;
  readonly meanError: number | null;
  readonly worst: Check | null;
}

/** Mean and worst error of a model's checks. Ranges, words and fitted rows do not count into the errors. */
export function checkSummary(checks: readonly Check[]): CheckSummary {
  const independent = checks.filter((c) => c.standing !== 'fitted');
  const numbers = independent.filter((c) => c.error !== null);
  const size = (c: Check): number => Math.abs(c.error!);
  const worst = numbers.reduce<Check | null>((a, b) => (a === null || size(b) > size(a) ? b : a), null);
  return {
    checks: independent.length,
    numbers: numbers.length,
    meanError: numbers.length === 0 ? null : numbers.reduce((sum, c) => sum + size(c), 0) / numbers.length,
    worst,
  };
}
