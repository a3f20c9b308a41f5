import { unsigned } from './checked-program.js';
import { solveLp } from './solve.js';
import type {
  Column,
  Effort,
  InfeasibleAnswer,
  LinearProgram,
  OptimalAnswer,
  Row,
  UnboundedAnswer,
  UncertifiedAnswer,
} from './types.js';

/** Optimise (numerator·x + constant) / (denominator·x + constant) over the points where the denominator is positive. */
export interface FractionalProgram {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  readonly sense: 'min' | 'max';
  /** One coefficient a column each. */
  readonly numerator: ArrayLike<number>;
  readonly denominator: ArrayLike<number>;
  /** Default 0. */
  readonly numeratorConstant?: number;
  readonly denominatorConstant?: number;
}

export type FractionalAnswer =
  | {
      readonly status: 'optimal';
      readonly x: readonly number[];
      /** The ratio at x. */
      readonly objective: number;
      /** d ratio / d binding side of each row. */
      readonly rowPrices: readonly number[];
      /** The certificate: the transformed program and its certified optimum. */
      readonly transformed: { readonly program: LinearProgram; readonly answer: OptimalAnswer };
      readonly effort: Effort;
    }
  /** The best ratio is only approached, by going without end along `direction`. */
  | {
      readonly status: 'unattained';
      readonly objective: number;
      readonly direction: readonly number[];
      readonly effort: Effort;
    }
  /** The ratio improves without end; proven by the ray of the transformed program. */
  | { readonly status: 'unbounded'; readonly transformed: UnboundedAnswer; readonly effort: Effort }
  /** The rows can be met, but never with a positive denominator; proven by the transformed program's multipliers. */
  | { readonly status: 'never-positive'; readonly transformed: InfeasibleAnswer; readonly effort: Effort }
  /** The rows as stated cannot be met. */
  | InfeasibleAnswer
  | UncertifiedAnswer;

/**
 * A ratio of two linear forms by the transformation of Charnes and Cooper, Naval Research Logistics Quarterly 9
 * (1962) 181-186 (from memory): y = t x with t > 0 and denominator·y + constant t = 1 makes it a linear program.
 * @throws TypeError on a malformed program.
 */
export function solveFractional(program: FractionalProgram): FractionalAnswer {
  const { linear, sideRows } = charnesCooper(program);
  const answer = solveLp(linear);
  const { effort } = answer;
  if (answer.status === 'uncertified') return answer;
  const n = program.columns.length;
  if (answer.status === 'optimal') {
    const y = answer.x.slice(0, n);
    const t = answer.x[n]!;
    const largest = y.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    if (t > ENDLESS * largest) {
      const rowPrices = sideRows.map((rows) => t * rows.reduce((sum, r) => sum + answer.rowPrices[r]!, 0));
      const transformed = { program: linear, answer };
      return {
        status: 'optimal',
        x: y.map((value) => value / t),
        objective: answer.objective,
        rowPrices,
        transformed,
        effort,
      };
    }
  }
  // With t = 0 the transformed program only knows the directions of the stated one, not whether it has points.
  const { columns, rows } = program;
  const stated = solveLp({ columns, rows, sense: 'min', objective: columns.map(() => 0) });
  if (stated.status === 'infeasible' || stated.status === 'uncertified') return stated;
  if (answer.status === 'infeasible') return { status: 'never-positive', transformed: answer, effort };
  if (answer.status === 'unbounded') return { status: 'unbounded', transformed: answer, effort };
  return { status: 'unattained', objective: answer.objective, direction: answer.x.slice(0, n), effort };
}

/** Below this t the point x = y / t lies too far out to be one. */
const ENDLESS = 1e-12;

/**
 * The transformed program: columns y and t; each side of a row and each bound that is not zero becomes a row without
 * a right side; the last row fixes the denominator at 1. Also which transformed rows each stated row became.
 */
export function charnesCooper(program: FractionalProgram): {
  readonly linear: LinearProgram;
  readonly sideRows: readonly (readonly number[])[];
} {
  const { sense } = program;
  const n = program.columns.length;
  const numerator = Array.from(program.numerator);
  const denominator = Array.from(program.denominator);
  if (numerator.length !== n || denominator.length !== n) {
    throw new TypeError(`numerator and denominator need ${n} coefficients, one a column`);
  }
  const rows: Row[] = [];
  const side = (
    name: string,
    coefficients: readonly number[],
    value: number,
    which: 'low' | 'high' | 'both',
  ): number => {
    const zero = which === 'both' ? { low: 0, high: 0 } : { [which]: 0 };
    return rows.push({ name, coefficients: [...coefficients, unsigned(-value)], ...zero }) - 1;
  };
  const sideRows = program.rows.map((row) => {
    const { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY, name, coefficients } = row;
    if (low === high) return [side(name, coefficients, low, 'both')];
    const made: number[] = [];
    if (low > Number.NEGATIVE_INFINITY) made.push(side(`${name}, low`, coefficients, low, 'low'));
    if (high < Number.POSITIVE_INFINITY) made.push(side(`${name}, high`, coefficients, high, 'high'));
    return made;
  });
  const columns = program.columns.map((column, j): Column => {
    const { lower = 0, upper = Number.POSITIVE_INFINITY, name } = column;
    const unit = program.columns.map((_, k) => Number(k === j));
    if (lower !== 0 && Number.isFinite(lower)) side(`${name}, lower`, unit, lower, 'low');
    if (upper !== 0 && Number.isFinite(upper)) side(`${name}, upper`, unit, upper, 'high');
    return {
      name,
      lower: lower >= 0 ? 0 : Number.NEGATIVE_INFINITY,
      upper: upper <= 0 ? 0 : Number.POSITIVE_INFINITY,
    };
  });
  const last = [...denominator, program.denominatorConstant ?? 0];
  rows.push({ name: 'denominator', coefficients: last, low: 1, high: 1 });
  const objective = [...numerator, program.numeratorConstant ?? 0];
  return { linear: { columns: [...columns, { name: 't' }], rows, sense, objective }, sideRows };
}
