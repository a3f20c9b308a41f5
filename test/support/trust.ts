import { type MilpAnswer, solveMilp } from '../../src/core/optimise/lp/milp.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import type { LinearProgram, LpAnswer } from '../../src/core/optimise/lp/types.js';
import type { Reference, ReferenceSolver } from './highs-reference.js';
import { infeasibleFaults, optimalFaults, pointFaults, rayFaults, treeFaults } from './recheck.js';

/** What a run of our solver beside the reference came to. Everything in `wrong` is a failure. */
export interface TrustReport {
  solved: number;
  /** Our status / the reference's. */
  readonly statuses: Record<string, number>;
  /** Rung that was certified, and how often a try had to be stopped at the pivot cap. */
  readonly rungs: Record<string, number>;
  firstFailed: number;
  capped: number;
  /** Optima compared, and the largest relative difference of objectives. */
  compared: number;
  worstDifference: number;
  /** Certificates rechecked in the tests' own arithmetic. */
  rechecked: number;
  /** Programs on which the reference gave no clear word, or another answer when asked again without its presolve. */
  referenceUnclear: number;
  referenceChangedItsMind: number;
  /** Programs the search stopped on before the tree was exhausted (bracket checked). */
  stopped: number;
  nodes: number;
  programs: number;
  mended: number;
  readonly milliseconds: number[];
  readonly referenceMilliseconds: number[];
  readonly wrong: string[];
}

export function emptyReport(): TrustReport {
  return {
    solved: 0,
    statuses: {},
    rungs: {},
    firstFailed: 0,
    capped: 0,
    compared: 0,
    worstDifference: 0,
    rechecked: 0,
    referenceUnclear: 0,
    referenceChangedItsMind: 0,
    stopped: 0,
    nodes: 0,
    programs: 0,
    mended: 0,
    milliseconds: [],
    referenceMilliseconds: [],
    wrong: [],
  };
}

const LP_TOLERANCE = 1e-6;
const MILP_TOLERANCE = 1e-4;
export const MILP_GAP = 1e-6;
/** Trees with more leaves are not rechecked: each pair of leaves is compared. */
const LARGEST_TREE = 300;

/** One linear program: our certificate rechecked, our answer beside the reference's. */
export function trustLp(report: TrustReport, label: string, program: LinearProgram, reference: ReferenceSolver): void {
  const answer = timed(report.milliseconds, () => solveLp(program));
  const expected = timed(report.referenceMilliseconds, () => reference(program));
  report.solved += 1;
  count(report.rungs, answer.effort.rungName + (answer.effort.capped > 0 ? ' (after a loop)' : ''));
  if (answer.effort.rung > 0 || answer.effort.rungName.includes('elastic')) report.firstFailed += 1;
  if (answer.effort.capped > 0) report.capped += 1;
  const faults = certificateFaults(program, answer);
  report.rechecked += 1;
  if (faults.length > 0) report.wrong.push(`${label}: ${answer.status}, ${faults[0]}`);
  compare(report, label, program, answer, expected, LP_TOLERANCE, () => reference(program, { presolve: false }));
}

/** One mixed-integer program: point and tree rechecked, the optimum beside the reference's. */
export function trustMilp(
  report: TrustReport,
  label: string,
  program: LinearProgram,
  reference: ReferenceSolver,
): void {
  const answer = timed(report.milliseconds, () => solveMilp(program, { gap: MILP_GAP, keepTree: true }));
  const expected = timed(report.referenceMilliseconds, () => reference(program, { integers: true }));
  report.solved += 1;
  report.nodes += answer.effort.nodes;
  report.programs += answer.effort.programs;
  report.mended += answer.effort.mended;
  const faults = searchFaults(report, program, answer);
  if (faults.length > 0) report.wrong.push(`${label}: ${answer.status}, ${faults[0]}`);
  if (answer.status === 'stopped') {
    report.stopped += 1;
    count(report.statuses, `stopped: ${answer.why}/${expected.status}`);
    if (expected.status === 'optimal') report.wrong.push(...bracketFaults(label, program, answer, expected));
    return;
  }
  const again = (): Reference => reference(program, { integers: true, presolve: false });
  compare(report, label, program, answer, expected, MILP_TOLERANCE, again);
}

type Comparable = LpAnswer | Exclude<MilpAnswer, { status: 'stopped' }>;

function compare(
  report: TrustReport,
  label: string,
  program: LinearProgram,
  answer: Comparable,
  expected: Reference,
  tolerance: number,
  again: () => Reference,
): void {
  count(report.statuses, `${answer.status}/${expected.status}`);
  if (answer.status === 'uncertified') {
    report.wrong.push(`${label}: uncertified, ${answer.reason}; the reference says ${expected.word}`);
    return;
  }
  const differenceOf = (ours: { readonly objective: number; readonly x: readonly number[] }, other: Reference) => {
    const terms = program.objective.reduce((sum, c, j) => sum + Math.abs(c * ours.x[j]!), 0);
    const size = Math.max(Math.abs(other.objective), 1e-6 * terms, 1e-9);
    return Math.abs(ours.objective - other.objective) / size;
  };
  let judged = expected;
  if (answer.status !== expected.status) {
    judged = again();
    if (expected.status === 'unclear') report.referenceUnclear += 1;
    else if (judged.status === answer.status) report.referenceChangedItsMind += 1;
    if (judged.status === 'unclear') return;
  }
  if (answer.status !== judged.status) {
    report.wrong.push(`${label}: ${answer.status}, the reference says ${judged.word}`);
    return;
  }
  if (answer.status !== 'optimal') return;
  if (!(differenceOf(answer, judged) <= tolerance) && judged === expected) {
    judged = again();
    if (differenceOf(answer, judged) <= tolerance) report.referenceChangedItsMind += 1;
  }
  const difference = differenceOf(answer, judged);
  report.compared += 1;
  report.worstDifference = Math.max(report.worstDifference, difference);
  if (!(difference <= tolerance)) {
    report.wrong.push(`${label}: objective ${answer.objective}, the reference says ${judged.objective}`);
  }
}

function certificateFaults(program: LinearProgram, answer: LpAnswer): string[] {
  switch (answer.status) {
    case 'optimal':
      return optimalFaults(program, answer);
    case 'infeasible':
      return answer.crossed === undefined ? infeasibleFaults(program, answer.rowProof) : crossedFaults(program);
    case 'unbounded':
      return rayFaults(program, answer.point, answer.ray);
    case 'uncertified':
      return [];
  }
}

function crossedFaults(program: LinearProgram): string[] {
  const crossed =
    program.rows.some((r) => (r.low ?? Number.NEGATIVE_INFINITY) > (r.high ?? Number.POSITIVE_INFINITY)) ||
    program.columns.some((c) => (c.lower ?? 0) > (c.upper ?? Number.POSITIVE_INFINITY));
  return crossed ? [] : ['nothing is crossed'];
}

function searchFaults(report: TrustReport, program: LinearProgram, answer: MilpAnswer): string[] {
  if (answer.status === 'unbounded') return rayFaults(program, answer.point, answer.ray);
  if (answer.status === 'stopped') return answer.best === undefined ? [] : wholeFaults(program, answer.best.x);
  if (answer.status === 'infeasible' && answer.crossed !== undefined) return crossedFaults(program);
  const faults = answer.status === 'optimal' ? wholeFaults(program, answer.x) : [];
  const { tree } = answer;
  if (tree !== undefined && tree.length > 0 && tree.length <= LARGEST_TREE) {
    report.rechecked += 1;
    faults.push(...treeFaults(program, tree, answer.status === 'optimal' ? answer.objective : undefined, MILP_GAP));
  }
  return faults;
}

function wholeFaults(program: LinearProgram, x: readonly number[]): string[] {
  const broken = program.columns.some((column, j) => column.integer === true && !Number.isInteger(x[j]));
  return [...pointFaults(program, x), ...(broken ? ['an integer column is not whole'] : [])];
}

function bracketFaults(
  label: string,
  program: LinearProgram,
  answer: MilpAnswer & { status: 'stopped' },
  { objective }: Reference,
): string[] {
  const sign = program.sense === 'min' ? 1 : -1;
  const slack = MILP_TOLERANCE * Math.abs(objective);
  const above = answer.best === undefined || sign * answer.best.objective >= sign * objective - slack;
  const below = sign * answer.bound <= sign * objective + slack;
  return above && below ? [] : [`${label}: stopped with bound ${answer.bound}, the optimum is ${objective}`];
}

function timed<T>(into: number[], work: () => T): T {
  const start = performance.now();
  const result = work();
  into.push(performance.now() - start);
  return result;
}

function count(into: Record<string, number>, key: string): void {
  into[key] = (into[key] ?? 0) + 1;
}
