import solver from 'javascript-lp-solver';

/**
 * The only file that knows javascript-lp-solver. Its simplex works on a tableau we fill ourselves, so none of its
 * model keys, presolve, rounding, time limits or status words are in play; what comes back is only a candidate,
 * for certify.ts to judge.
 *
 * The program pivoted is: min cost·v, M v <= rhs, v >= 0, given as the tableau's rows
 * [0, -cost], [rhs_k, M_k].
 */
export interface PivotProblem {
  /** Constraints + 1. */
  readonly height: number;
  /** Variables + 1; column 0 holds the right sides. */
  readonly width: number;
  readonly tableau: Float64Array;
  /** For the two halves of an equality each other's index, else -1: their right sides move together. */
  readonly twin: Int32Array;
}

export interface PivotOptions {
  /** Absolute tolerance of all the engine's tests. */
  readonly precision: number;
  /** The engine can loop for ever in its first phase; after this many pivots it is stopped. */
  readonly pivotCap: number;
}

export type PivotOutcome =
  | {
      readonly status: 'optimal';
      readonly values: Float64Array;
      /** Prices of the constraints, <= 0 for a minimum. */
      readonly prices: Float64Array;
      /** Asked for seldom. */
      readonly room: () => Room;
      readonly pivots: number;
    }
  | { readonly status: 'infeasible'; readonly multipliers: Float64Array; readonly pivots: number }
  | {
      readonly status: 'unbounded';
      readonly values: Float64Array;
      readonly ray: Float64Array;
      readonly pivots: number;
    }
  | { readonly status: 'capped'; readonly pivots: number };

/** For each constraint how far its right side may fall and rise in this basis; NaN where it does not bind. */
export interface Room {
  readonly fall: Float64Array;
  readonly rise: Float64Array;
}

class PivotCapReached extends Error {}

type Tableau = InstanceType<typeof solver.Tableau>;

/** Runs the simplex on one tableau. Deterministic; never runs longer than `pivotCap` pivots. */
export function runPivots(problem: PivotProblem, options: PivotOptions): PivotOutcome {
  const { tableau, pivotCount } = loadTableau(problem, options);
  try {
    tableau.simplex();
  } catch (error) {
    if (error instanceof PivotCapReached) return { status: 'capped', pivots: pivotCount() };
    throw error;
  }
  const pivots = pivotCount();
  if (!tableau.feasible) return { status: 'infeasible', multipliers: contradiction(tableau, problem), pivots };
  const values = readValues(tableau, problem);
  if (!tableau.bounded) {
    const ray = readRay(tableau, problem);
    return { status: 'unbounded', values, ray, pivots };
  }
  const prices = readPrices(tableau, problem);
  return { status: 'optimal', values, prices, room: () => readRoom(tableau, problem), pivots };
}

/** Constraint k has index k in the engine, variable v has index (constraints + v), as its own loader does it. */
function loadTableau(problem: PivotProblem, options: PivotOptions): { tableau: Tableau; pivotCount: () => number } {
  const { width, height } = problem;
  const tableau = new solver.Tableau(options.precision);
  // Of the model only the cycle check is read while pivoting; it cannot see real cycles and eats memory.
  tableau.model = { checkForCycles: false, messages: [] } as unknown as NonNullable<Tableau['model']>;
  tableau.initialize(width, height, [], {});
  tableau.matrix.set(problem.tableau);
  for (let k = 0; k < height - 1; k++) {
    tableau.rowByVarIndex[k] = k + 1;
    tableau.colByVarIndex[k] = -1;
    tableau.varIndexByRow[k + 1] = k;
  }
  for (let v = 0; v < width - 1; v++) {
    const index = height - 1 + v;
    tableau.rowByVarIndex[index] = -1;
    tableau.colByVarIndex[index] = v + 1;
    tableau.varIndexByCol[v + 1] = index;
  }
  let count = 0;
  const pivot = tableau.pivot;
  tableau.pivot = function countedPivot(row: number, column: number): void {
    count += 1;
    if (count > options.pivotCap) throw new PivotCapReached();
    pivot.call(tableau, row, column);
  };
  return { tableau, pivotCount: () => count };
}

function readValues(tableau: Tableau, { width, height }: PivotProblem): Float64Array {
  return new Float64Array(width - 1).map((_, v) => {
    const row = tableau.rowByVarIndex[height - 1 + v]!;
    return row > 0 ? tableau.matrix[row * width]! : 0;
  });
}

function readPrices(tableau: Tableau, { height }: PivotProblem): Float64Array {
  const prices = new Float64Array(height - 1);
  for (let k = 0; k < height - 1; k++) {
    const column = tableau.colByVarIndex[k]!;
    if (column > 0) prices[k] = tableau.matrix[column]!;
  }
  return prices;
}

function readRoom(tableau: Tableau, { width, height, twin }: PivotProblem): Room {
  const fall = new Float64Array(height - 1).fill(Number.NaN);
  const rise = new Float64Array(height - 1).fill(Number.NaN);
  for (let k = 0; k < height - 1; k++) {
    const column = tableau.colByVarIndex[k]!;
    if (column <= 0) continue;
    // The basic variable of row r moves by matrix[r][column] for each unit of the right side, and must stay >= 0.
    let down = Number.POSITIVE_INFINITY;
    let up = Number.POSITIVE_INFINITY;
    for (let r = 1; r < height; r++) {
      if (tableau.varIndexByRow[r] === twin[k]) continue;
      const slope = tableau.matrix[r * width + column]!;
      const room = Math.max(0, tableau.matrix[r * width]!);
      if (slope > SLOPE_NOISE) down = Math.min(down, room / slope);
      else if (slope < -SLOPE_NOISE) up = Math.min(up, room / -slope);
    }
    fall[k] = down;
    rise[k] = up;
  }
  return { fall, rise };
}

const SLOPE_NOISE = 1e-11;

/**
 * The row in which the engine stopped has the lowest right side, below zero, and no negative coefficient: it contradicts
 * v >= 0. Its multipliers over the constraints stand in the slack columns of that row.
 */
function contradiction(tableau: Tableau, { width, height }: PivotProblem): Float64Array {
  let worst = 1;
  for (let r = 2; r < height; r++) {
    if (tableau.matrix[r * width]! < tableau.matrix[worst * width]!) worst = r;
  }
  return new Float64Array(height - 1).map((_, k) => {
    const column = tableau.colByVarIndex[k]!;
    if (column > 0) return Math.max(0, tableau.matrix[worst * width + column]!);
    return tableau.rowByVarIndex[k] === worst ? 1 : 0;
  });
}

/** The variable that may grow without end by 1, and each basic one by what it then moves. */
function readRay(tableau: Tableau, { width, height }: PivotProblem): Float64Array {
  const entering = tableau.unboundedVarIndex!;
  const column = tableau.colByVarIndex[entering]!;
  return new Float64Array(width - 1).map((_, v) => {
    const index = height - 1 + v;
    const row = tableau.rowByVarIndex[index]!;
    if (index === entering) return 1;
    return row > 0 ? -tableau.matrix[row * width + column]! : 0;
  });
}
