import loadHighs from 'highs';
import type { LinearProgram } from '../../src/core/optimise/lp/types.js';

/** What the independent solver says of a program. */
export interface Reference {
  readonly status: 'optimal' | 'infeasible' | 'unbounded' | 'unclear';
  readonly objective: number;
  readonly x: readonly number[];
  /** Its own word for the status, for messages. */
  readonly word: string;
}

export interface ReferenceOptions {
  /** Default false: the relaxation. */
  readonly integers?: boolean;
  /** Default true. Its presolve now and then calls an unbounded program infeasible; a second opinion does without. */
  readonly presolve?: boolean;
}

export type ReferenceSolver = (program: LinearProgram, options?: ReferenceOptions) => Reference;

/**
 * HiGHS (npm `highs`) as the independent reference: tolerances at 1e-9, no gap, as facts/solver.md §2 used it.
 */
export async function highsReference(): Promise<ReferenceSolver> {
  const highs = await loadHighs();
  const { modelStatus, variableType, objectiveSense } = highs.constants;
  return (program, { integers = false, presolve = true } = {}) => {
    const n = program.columns.length;
    const m = program.rows.length;
    const starts = [0];
    const indices: number[] = [];
    const values: number[] = [];
    for (const row of program.rows) {
      row.coefficients.forEach((c, j) => {
        if (c !== 0) {
          indices.push(j);
          values.push(c);
        }
      });
      starts.push(indices.length);
    }
    const model = highs.createModel({
      numCols: n,
      numRows: m,
      sense: program.sense === 'min' ? objectiveSense.minimize : objectiveSense.maximize,
      colCost: [...program.objective],
      // Given bounds that are not whole, it has returned fractional "integers" and optima worse than one at hand.
      colLower: program.columns.map((c) => (integers && c.integer ? Math.ceil(c.lower ?? 0) : (c.lower ?? 0))),
      colUpper: program.columns.map(({ upper = Number.POSITIVE_INFINITY, integer }) =>
        integers && integer ? Math.floor(upper) : upper,
      ),
      rowLower: program.rows.map((r) => r.low ?? Number.NEGATIVE_INFINITY),
      rowUpper: program.rows.map((r) => r.high ?? Number.POSITIVE_INFINITY),
      matrix: { format: 'csr', numRows: m, numCols: n, starts, indices, values },
      ...(integers
        ? { integrality: program.columns.map((c) => (c.integer ? variableType.integer : variableType.continuous)) }
        : {}),
    });
    try {
      model.options.set({
        output_flag: false,
        presolve: presolve ? 'choose' : 'off',
        primal_feasibility_tolerance: 1e-9,
        dual_feasibility_tolerance: 1e-9,
        mip_feasibility_tolerance: 1e-9,
        mip_rel_gap: 0,
        mip_abs_gap: 1e-9,
        time_limit: 60,
      });
      try {
        model.run();
      } catch (error) {
        // It has given up on a program of one in thousands, and answers the same without presolve.
        return { status: 'unclear', objective: Number.NaN, x: [], word: (error as Error).message };
      }
      const status = model.getModelStatus();
      const word = String(Object.entries(modelStatus).find(([, value]) => value === status)?.[0] ?? status);
      const known: Reference['status'] =
        status === modelStatus.optimal
          ? 'optimal'
          : status === modelStatus.infeasible
            ? 'infeasible'
            : status === modelStatus.unbounded
              ? 'unbounded'
              : 'unclear';
      const x = known === 'optimal' ? Array.from(model.getSolution().colValue) : [];
      return { status: known, objective: known === 'optimal' ? model.getObjectiveValue() : Number.NaN, x, word };
    } finally {
      model.dispose();
    }
  };
}
