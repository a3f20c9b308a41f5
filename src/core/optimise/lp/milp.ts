import { search } from './branch-and-bound.js';
import { checkProgram, unsigned } from './checked-program.js';
import type { Leaf } from './search-types.js';
import type { LinearProgram } from './types.js';

export interface MilpOptions {
  /** Boxes to look at before stopping with what was found; default 20 000. */
  readonly nodeLimit?: number;
  /** Pivots after which the search stops in the same way; default: no limit. A few hard programs can cost more than many boxes. */
  readonly pivotLimit?: number;
  /** Relative distance between the best point and the bound at which the search is content; default 1e-6, least 1e-9. */
  readonly gap?: number;
  /** A known good point; used if it holds. */
  readonly incumbent?: readonly number[];
  /** Asked at each box; the core has no clock, so a time limit comes from outside. */
  readonly shouldStop?: () => boolean;
  /** Also hand out the closed boxes with their proofs, so that the exhaustion of the tree can be rechecked. */
  readonly keepTree?: boolean;
}

export interface MilpEffort {
  readonly nodes: number;
  /** Linear programs solved, and how many of them needed a later rung of the ladder. */
  readonly programs: number;
  readonly mended: number;
  readonly pivots: number;
}

/** A closed box of the search; together the leaves tile the program's box of whole numbers. */
export interface TreeLeaf {
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  /** 'bound': row prices prove that nothing in it beats the answer; 'infeasible': multipliers prove it empty. */
  readonly why: 'bound' | 'infeasible';
  /** Prices with the stated program's sign, or Farkas multipliers as in InfeasibleAnswer. */
  readonly rows: readonly number[];
}

export type MilpAnswer =
  | {
      readonly status: 'optimal';
      readonly x: readonly number[];
      readonly objective: number;
      /** Proven: no point beats this. */
      readonly bound: number;
      /** |objective - bound| / |objective|, within the gap asked for. */
      readonly gap: number;
      readonly effort: MilpEffort;
      readonly tree?: readonly TreeLeaf[];
    }
  | {
      readonly status: 'infeasible';
      /** The bounds of an integer column hold no whole number: the whole proof. */
      readonly emptyColumn?: number;
      /** One row or column has its low side above its high side: the whole proof. */
      readonly crossed?: { readonly row: number } | { readonly column: number };
      readonly effort: MilpEffort;
      readonly tree?: readonly TreeLeaf[];
    }
  | {
      /** The relaxation is unbounded; a program with whole-number columns is then unbounded too, or infeasible. */
      readonly status: 'unbounded';
      readonly point: readonly number[];
      readonly ray: readonly number[];
      readonly effort: MilpEffort;
    }
  | {
      readonly status: 'stopped';
      /** 'uncertified': a box whose program could not be certified was left over. */
      readonly why: 'node-limit' | 'asked' | 'uncertified';
      readonly best?: { readonly x: readonly number[]; readonly objective: number };
      readonly bound: number;
      /** Infinity as long as no point is known. */
      readonly gap: number;
      readonly effort: MilpEffort;
    };

/**
 * Solves a program with integer columns by branch and bound over certified linear programs. Deterministic.
 * 'optimal' and 'infeasible' mean that the tree was exhausted with a proof for each leaf.
 * @throws TypeError on a malformed program.
 */
export function solveMilp(program: LinearProgram, options: MilpOptions = {}): MilpAnswer {
  const checked = checkProgram(program);
  const integers = program.columns.flatMap((column, j) => (column.integer ? [j] : []));
  const none: MilpEffort = { nodes: 0, programs: 0, mended: 0, pivots: 0 };
  if (checked.crossed !== undefined) return { status: 'infeasible', crossed: checked.crossed, effort: none };

  const found = search(checked, integers, {
    nodeLimit: options.nodeLimit ?? 20_000,
    pivotLimit: options.pivotLimit,
    gap: Math.max(options.gap ?? 1e-6, 1e-9),
    shouldStop: options.shouldStop ?? (() => false),
    keepLeaves: options.keepTree ?? false,
    ...(options.incumbent === undefined ? {} : { start: Float64Array.from(options.incumbent) }),
  });
  const { sign } = checked;
  const { nodes, programs, mended, pivots } = found;
  const effort: MilpEffort = { nodes, programs, mended, pivots };
  const tree = options.keepTree ? { tree: found.leaves.map((leaf) => inWords(leaf, sign)) } : {};
  const best = found.best && { x: Array.from(found.best.x, unsigned), objective: unsigned(sign * found.best.cost) };
  const bound = unsigned(sign * found.bound);
  const gap = best === undefined ? Number.POSITIVE_INFINITY : relativeGap(best.objective, bound);

  if (found.end === 'unbounded') {
    const { point, ray } = found.direction;
    return { status: 'unbounded', point: Array.from(point), ray: Array.from(ray), effort };
  }
  if (found.end === 'exhausted') {
    if (best !== undefined) return { status: 'optimal', ...best, bound, gap, effort, ...tree };
    const emptyColumn = found.emptyColumn === undefined ? {} : { emptyColumn: found.emptyColumn };
    return { status: 'infeasible', ...emptyColumn, effort, ...tree };
  }
  return { status: 'stopped', why: found.end, ...(best === undefined ? {} : { best }), bound, gap, effort };
}

function relativeGap(objective: number, bound: number): number {
  return Math.abs(objective - bound) / Math.max(Math.abs(objective), Number.MIN_VALUE);
}

function inWords(leaf: Leaf, sign: 1 | -1): TreeLeaf {
  const factor = leaf.why === 'bound' ? sign : 1;
  return {
    lower: Array.from(leaf.lower),
    upper: Array.from(leaf.upper),
    why: leaf.why,
    rows: Array.from(leaf.rows, (value) => unsigned(factor * value)),
  };
}
