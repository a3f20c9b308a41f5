import { certifyInfeasible, certifyOptimum, certifyRay, type Optimum } from './certify.js';
import type { CheckedProgram } from './checked-program.js';
import { type PivotOutcome, runPivots } from './pivot-engine.js';
import { type ScalingMethod, scaleProgram } from './scale.js';
import { inOrder, shuffled } from './shuffle.js';
import {
  columnsAt,
  directionOf,
  rowMultipliers,
  rowPriceRanges,
  rowPrices,
  type TableauForm,
  tableauForm,
} from './tableau-form.js';
import type { Effort, PriceRange } from './types.js';

/** One way to put a program to the pivot engine. */
export interface Rung {
  readonly name: string;
  readonly precision: number;
  readonly scaling: ScalingMethod;
  /** Seed of the order of rows and columns; undefined keeps the stated order. */
  readonly seed?: number;
}

/**
 * Tried in this order until one answer is certified. The engine's failures (loops, wrong ends) hang on the path of
 * its pivots, so another scaling, order or precision nearly always mends them.
 */
export const LADDER: readonly Rung[] = [
  { name: 'first', precision: 1e-9, scaling: 'geometric' },
  { name: 'plain', precision: 1e-9, scaling: 'rows' },
  { name: 'shuffled', precision: 1e-9, scaling: 'geometric', seed: 1 },
  { name: 'shuffled plain, 1e-10', precision: 1e-10, scaling: 'rows', seed: 2 },
  { name: 'fine, 1e-11', precision: 1e-11, scaling: 'geometric' },
  { name: 'coarse plain, 1e-8', precision: 1e-8, scaling: 'rows' },
  { name: 'shuffled fine, 1e-11', precision: 1e-11, scaling: 'geometric', seed: 3 },
  { name: 'shuffled plain', precision: 1e-9, scaling: 'rows', seed: 4 },
  { name: 'shuffled finest, 1e-12', precision: 1e-12, scaling: 'geometric', seed: 5 },
];

export type Certified =
  | { readonly status: 'optimal'; readonly optimum: Optimum; readonly priceRanges?: (PriceRange | undefined)[] }
  | { readonly status: 'infeasible'; readonly rowProof: Float64Array; readonly columnProof: Float64Array }
  | { readonly status: 'unbounded'; readonly point: Float64Array; readonly ray: Float64Array };

/** That nothing fits, where the multipliers of the rows prove it. */
export function infeasibleBy(
  program: CheckedProgram,
  multipliers: Float64Array,
): (Certified & { status: 'infeasible' }) | undefined {
  const proof = certifyInfeasible(program, multipliers);
  return proof && { status: 'infeasible', rowProof: proof.rowProof, columnProof: proof.columnProof };
}

export interface LadderOptions {
  readonly ranges?: boolean | undefined;
  readonly ladder?: readonly Rung[] | undefined;
  /** Asked once, after a rung calls the program infeasible without proof or when all rungs failed. */
  readonly proveInfeasible?: () => Certified | undefined;
}

export type LadderAnswer = (Certified | { readonly status: 'uncertified'; readonly reason: string }) & {
  readonly effort: Effort;
};

/**
 * Pivots after which a run is taken for a loop. Honest runs measured took at most 206 (8-60 columns,
 * 20,000 blends), 288 (200 columns, 1,500) and 343 (1,000 columns, 150); later rungs are given more, so that a long honest run is not lost.
 */
export function pivotCap({ width, height }: { readonly width: number; readonly height: number }, rung: number): number {
  return (1 + rung) * (100 + 2 * height + 2 * width);
}

/** Climbs the ladder until an answer is certified on the stated rows. Never throws, never loops. */
export function climb(program: CheckedProgram, options: LadderOptions = {}): LadderAnswer {
  const ladder = options.ladder ?? LADDER;
  let pivots = 0;
  let capped = 0;
  let asked = false;
  const seen: string[] = [];
  const effort = (rung: number, rungName: string): Effort => ({ rung, rungName, pivots, capped });
  const askProof = (rung: number, name: string): LadderAnswer | undefined => {
    if (asked || options.proveInfeasible === undefined) return undefined;
    asked = true;
    const proven = options.proveInfeasible();
    return proven === undefined ? undefined : Object.assign(proven, { effort: effort(rung, name) });
  };
  for (const [index, rung] of ladder.entries()) {
    const form = formFor(program, rung);
    const outcome = runPivots(form.problem, { precision: rung.precision, pivotCap: pivotCap(form.problem, index) });
    pivots += outcome.pivots;
    if (outcome.status === 'capped') capped += 1;
    const certified = judge(program, form, outcome, options.ranges ?? false);
    if (certified !== undefined) return Object.assign(certified, { effort: effort(index, rung.name) });
    seen.push(outcome.status);
    if (outcome.status === 'infeasible') {
      const proven = askProof(index, `${rung.name}, elastic proof`);
      if (proven !== undefined) return proven;
    }
  }
  const proven = askProof(ladder.length, 'elastic proof');
  if (proven !== undefined) return proven;
  const reason = `no certificate after ${ladder.length} tries (${seen.join(', ')})`;
  return { status: 'uncertified', reason, effort: effort(ladder.length, 'none') };
}

function formFor(program: CheckedProgram, rung: Rung): TableauForm {
  const { rowCount, columnCount } = program;
  const order =
    rung.seed === undefined
      ? { rows: inOrder(rowCount), columns: inOrder(columnCount) }
      : { rows: shuffled(rowCount, rung.seed), columns: shuffled(columnCount, rung.seed + 1000) };
  return tableauForm(program, scaleProgram(program, rung.scaling), order);
}

function judge(
  program: CheckedProgram,
  form: TableauForm,
  outcome: PivotOutcome,
  ranges: boolean,
): Certified | undefined {
  switch (outcome.status) {
    case 'optimal': {
      const prices = rowPrices(form, outcome.prices, program.rowCount);
      const optimum = certifyOptimum(program, columnsAt(form, outcome.values), prices);
      if (optimum === undefined) return undefined;
      if (!ranges) return { status: 'optimal', optimum };
      return { status: 'optimal', optimum, priceRanges: rowPriceRanges(form, outcome, program) };
    }
    case 'infeasible':
      return infeasibleBy(program, rowMultipliers(form, outcome.multipliers, program.rowCount));
    case 'unbounded': {
      const proof = certifyRay(program, columnsAt(form, outcome.values), directionOf(form, outcome.ray));
      return proof && { status: 'unbounded', ...proof };
    }
    case 'capped':
      return undefined;
  }
}
