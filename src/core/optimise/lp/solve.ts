import { type CheckedProgram, checkProgram, unsigned } from './checked-program.js';
import { elasticProgram, foldRows } from './elastic-program.js';
import { type Certified, climb, infeasibleBy, LADDER, type LadderAnswer, type Rung } from './ladder.js';
import { pricedIn, WIDE } from './priced-in.js';
import { largestCoefficient, rowReach } from './row-reach.js';
import { inOrder } from './shuffle.js';
import type { LinearProgram, LpAnswer } from './types.js';

export interface SolveOptions {
  /** Also give the range of each binding side over which its price holds. */
  readonly ranges?: boolean;
  /** Another retry ladder than the usual one (for tests). */
  readonly ladder?: readonly Rung[];
  /** Two tries only, and no proof of its own that nothing fits: for programs that another can stand in for. */
  readonly briefly?: boolean;
}

/**
 * Solves a linear program (integers relaxed) and answers only what is proven on the rows as stated: an optimum by
 * its prices, infeasibility by Farkas multipliers, unboundedness by a ray; else 'uncertified'.
 * Deterministic; never throws on a well-formed program, never runs on without end.
 * @throws TypeError on a malformed program (lengths, numbers that are not finite).
 */
export function solveLp(program: LinearProgram, options: SolveOptions = {}): LpAnswer {
  const checked = checkProgram(program);
  if (checked.crossed !== undefined) {
    return {
      status: 'infeasible',
      rowProof: new Array<number>(checked.rowCount).fill(0),
      columnProof: new Array<number>(checked.columnCount).fill(0),
      crossed: checked.crossed,
      effort: NO_EFFORT,
    };
  }
  return inWords(checked, solveChecked(checked, options));
}

const NO_EFFORT = { rung: 0, rungName: 'seen at once', pivots: 0, capped: 0 } as const;

/** The same on a checked program whose bounds do not cross. */
export function solveChecked(program: CheckedProgram, options: SolveOptions = {}): LadderAnswer {
  // Ranges are read off the last basis, and that of a part knows only its own columns.
  const wide = program.columnCount >= WIDE && options.ranges !== true && options.ladder === undefined;
  const answer = wide ? pricedIn(program, (part) => solveWhole(part, options)) : undefined;
  return answer ?? solveWhole(program, options);
}

function solveWhole(program: CheckedProgram, options: SolveOptions): LadderAnswer {
  const contradicted = contradictedRow(program);
  if (contradicted !== undefined) return Object.assign(contradicted, { effort: NO_EFFORT });
  const { ranges, ladder } = options;
  if (options.briefly) return climb(program, { ranges, ladder: LADDER.slice(0, 2) });
  return climb(program, { ranges, ladder, proveInfeasible: () => elasticProof(program) });
}

/** A row that no point within the column bounds can reach proves infeasibility by itself. */
function contradictedRow(program: CheckedProgram): (Certified & { status: 'infeasible' }) | undefined {
  const { rowCount, low, high } = program;
  const columns = inOrder(program.columnCount);
  for (let i = 0; i < rowCount; i++) {
    const { least, most } = rowReach(program, i, columns);
    if (!(most < low[i]! || least > high[i]!)) continue;
    const multipliers = new Float64Array(rowCount);
    multipliers[i] = most < low[i]! ? 1 : -1;
    const proof = infeasibleBy(program, multipliers);
    if (proof !== undefined) return proof;
  }
  return undefined;
}

/** Farkas multipliers from the elastic program, whose every row may give way and which is never infeasible itself. */
function elasticProof(program: CheckedProgram): Certified | undefined {
  const rowGive = (i: number): number => largestCoefficient(program, i) || 1;
  const elastic = elasticProgram(program, { rowGive, boundGive: () => 0 });
  const answer = climb(elastic.program);
  if (answer.status !== 'optimal') return undefined;
  return infeasibleBy(program, foldRows(elastic, answer.optimum.rowPrices, program.rowCount));
}

/** From flat arrays of the minimisation to the stated program's own words and signs. */
function inWords({ sign }: CheckedProgram, answer: LadderAnswer): LpAnswer {
  const { effort } = answer;
  switch (answer.status) {
    case 'optimal': {
      const { x, cost, rowPrices, reducedCosts } = answer.optimum;
      return {
        status: 'optimal',
        x: Array.from(x, unsigned),
        objective: unsigned(sign * cost),
        rowPrices: Array.from(rowPrices, (y) => unsigned(sign * y)),
        reducedCosts: Array.from(reducedCosts, (d) => unsigned(sign * d)),
        ...(answer.priceRanges === undefined ? {} : { priceRanges: answer.priceRanges }),
        effort,
      };
    }
    case 'infeasible':
      return {
        status: 'infeasible',
        rowProof: Array.from(answer.rowProof),
        columnProof: Array.from(answer.columnProof, unsigned),
        effort,
      };
    case 'unbounded':
      return { status: 'unbounded', ray: Array.from(answer.ray), point: Array.from(answer.point), effort };
    case 'uncertified':
      return { status: 'uncertified', reason: answer.reason, effort };
  }
}
