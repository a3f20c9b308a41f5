import { solveMilp } from './milp.js';
import { solveLp } from './solve.js';
import type { LinearProgram } from './types.js';

export type Conflict =
  | {
      readonly status: 'conflict';
      /** Indices of relaxable rows that, with the rows that are not relaxable, cannot hold together; ascending. */
      readonly rows: readonly number[];
      /** True if dropping any one of them is proven to free the rest; false if a test could not be settled. */
      readonly irreducible: boolean;
      /** Programs solved on the way. */
      readonly solves: number;
    }
  | { readonly status: 'feasible' }
  | { readonly status: 'unsettled'; readonly reason: string };

export interface ConflictOptions {
  /** Boxes a branch-and-bound test may look at, for programs with integer columns; default 2000. */
  readonly nodeLimit?: number;
}

/**
 * An irreducible set of colliding rows: first only the rows that bear weight in a proof of infeasibility, then the
 * deletion filter (Chinneck and Dravnieks, ORSA Journal on Computing 3 (1991) 157-168, from memory). Rows that are
 * not relaxable, and all column bounds, always stay. An empty set means that those alone cannot hold.
 * @throws TypeError on a malformed program.
 */
export function findConflict(
  program: LinearProgram,
  relaxable: (row: number) => boolean,
  options: ConflictOptions = {},
): Conflict {
  const hard = program.rows.flatMap((_, i) => (relaxable(i) ? [] : [i]));
  const soft = program.rows.flatMap((_, i) => (relaxable(i) ? [i] : []));
  let solves = 0;
  const test = (rows: readonly number[]): Verdict => {
    solves += 1;
    return testRows(program, [...rows, ...hard], options.nodeLimit ?? 2000);
  };

  const whole = test(soft);
  if (whole.verdict === 'feasible') return { status: 'feasible' };
  if (whole.verdict === 'unsettled') return { status: 'unsettled', reason: whole.reason };
  let suspects = soft.filter((i) => whole.bearing.has(i));
  let irreducible = true;
  for (const dropped of [...suspects]) {
    if (!suspects.includes(dropped)) continue;
    const rest = suspects.filter((i) => i !== dropped);
    const without = test(rest);
    if (without.verdict === 'infeasible') suspects = rest.filter((i) => without.bearing.has(i));
    else if (without.verdict === 'unsettled') irreducible = false;
  }
  return { status: 'conflict', rows: suspects, irreducible, solves };
}

/** The rows of `findConflict`, or null when there is no conflict or none could be proven. */
export function conflictSet(program: LinearProgram, relaxable: (row: number) => boolean): readonly number[] | null {
  const found = findConflict(program, relaxable);
  return found.status === 'conflict' ? found.rows : null;
}

type Verdict =
  | { readonly verdict: 'feasible' }
  /** `bearing`: the rows that carry weight in the proof; the others are not needed for it. */
  | { readonly verdict: 'infeasible'; readonly bearing: ReadonlySet<number> }
  | { readonly verdict: 'unsettled'; readonly reason: string };

function testRows(program: LinearProgram, kept: readonly number[], nodeLimit: number): Verdict {
  const { columns } = program;
  const rows = kept.map((i) => program.rows[i]!);
  const objective = columns.map(() => 0);
  const question: LinearProgram = { columns, rows, sense: 'min', objective };
  const relaxed = solveLp(question);
  if (relaxed.status === 'infeasible') {
    const { crossed, rowProof } = relaxed;
    const own = crossed !== undefined && 'row' in crossed ? [crossed.row] : [];
    const bearing = rowProof.flatMap((weight, k) => (weight !== 0 ? [k] : []));
    return { verdict: 'infeasible', bearing: new Set([...own, ...bearing].map((k) => kept[k]!)) };
  }
  if (relaxed.status === 'uncertified') return { verdict: 'unsettled', reason: relaxed.reason };
  if (!columns.some((column) => column.integer)) return { verdict: 'feasible' };
  const whole = solveMilp(question, { nodeLimit });
  if (whole.status === 'infeasible') return { verdict: 'infeasible', bearing: new Set(kept) };
  if (whole.status === 'stopped' && whole.best === undefined) return { verdict: 'unsettled', reason: whole.why };
  return { verdict: 'feasible' };
}
