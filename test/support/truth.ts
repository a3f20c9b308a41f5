import { assess, evaluate } from '../../src/core/blend/assess.js';
import { freshVolume } from '../../src/core/blend/properties/volume-and-weight.js';
import { worldOf } from '../../src/core/blend/world.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import { AIMS, soughtProgram } from '../../src/core/optimise/objective.js';
import { type Proposal, proposeFrom } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settleSystems } from '../../src/core/optimise/settle-systems.js';
import { neighbourhood } from '../../src/core/optimise/tangent.js';
import { InputProblems } from '../../src/core/problems/problem.js';
import type { ReferenceSolver } from './highs-reference.js';
import { mouldFull } from './mould-full.js';
import { randomQuestion } from './random-shelf.js';

/** What a run of random briefs came to. Everything in `wrong` is a failure. */
export interface TruthReport {
  briefs: number;
  /** met, nearest, nearest only for the scale, refused. */
  readonly statuses: Record<string, number>;
  readonly systems: Record<string, number>;
  targets: number;
  /** Final programs compared: ours / the reference's. */
  readonly programs: Record<string, number>;
  worstDifference: number;
  referenceUnclear: number;
  /** Final programs whose objective is the same everywhere. */
  flat: number;
  /** Met, and the search had stopped moving. */
  still: number;
  /** ms of processor time a brief. */
  readonly milliseconds: number[];
  slowest: { seed: number; ms: number };
  readonly wrong: string[];
}

export const emptyTruth = (): TruthReport => ({
  briefs: 0,
  statuses: {},
  systems: {},
  targets: 0,
  programs: {},
  worstDifference: 0,
  referenceUnclear: 0,
  flat: 0,
  still: 0,
  milliseconds: [],
  slowest: { seed: 0, ms: 0 },
  wrong: [],
});

/** ms of processor time after which a brief counts as hanging. */
export const HANGS = 60_000;
/** Relative difference of objectives that the two solvers may come to. */
const AGREE = 1e-6;
/** Objectives that add up to less than this, in the property's unit times grams, are dust of arithmetic. */
const FLAT = 1e-8;

const count = (of: Record<string, number>, key: string): void => {
  of[key] = (of[key] ?? 0) + 1;
};

/** One random brief, from its words to what is weighed out, held against what it says of itself. */
export function truthOf(report: TruthReport, seed: number, reference: ReferenceSolver): void {
  report.briefs += 1;
  const wrong = (words: string): void => void report.wrong.push(`brief ${seed}: ${words}`);
  try {
    const question = limited(randomQuestion(seed), seed);
    report.targets += question.targets.length;
    const world = worldOf(question);
    const start = process.cpuUsage();
    const settled = settleSystems(question, world, AIMS[question.objective]);
    let proposal: Proposal;
    try {
      proposal = proposeFrom(question, world, settled, { draws: 0 });
    } finally {
      const { user, system } = process.cpuUsage(start);
      const ms = (user + system) / 1000;
      report.milliseconds.push(ms);
      if (ms > report.slowest.ms) report.slowest = { seed, ms };
      if (ms > HANGS) wrong(`took ${Math.round(ms / 1000)} s`);
    }
    count(report.statuses, proposal.status === 'nearest' && proposal.coarse ? 'nearest: the scale' : proposal.status);
    count(report.systems, proposal.system);
    if (proposal.status === 'met' && proposal.still) report.still += 1;
    for (const fault of proposalFaults(question, proposal)) wrong(fault);
    for (const { system, answer } of settled.ranked) {
      const hood = neighbourhood(
        world,
        answer.grams,
        question.materials.map(() => true),
      );
      compare(
        report,
        `${seed} ${system.id}`,
        soughtProgram(AIMS[question.objective], answer.program, world, hood),
        reference,
      );
    }
  } catch (error) {
    if (error instanceof InputProblems) count(report.statuses, `refused: ${error.problems[0]!.code}`);
    else wrong(`threw ${(error as Error).stack?.split('\n').slice(0, 3).join(' ')}`);
  }
}

/** Every fifth brief also limits its ingredients, every seventh the least that is weighed. */
function limited(question: Question, seed: number): Question {
  const ingredients = seed % 5 === 0 ? 3 + (seed % 4) : null;
  const leastDose = seed % 7 === 0 ? 2 + (seed % 9) : null;
  return ingredients === null && leastDose === null ? question : { ...question, limits: { ingredients, leastDose } };
}

type Program = Parameters<typeof solveLp>[0];

/** The rows at the blend the search ended with, under its own objective there: both solvers, one status and one optimum. */
function compare(report: TruthReport, label: string, program: Program, reference: ReferenceSolver): void {
  const ours = solveLp(program);
  let theirs = reference(program);
  if (theirs.status !== ours.status) theirs = reference(program, { presolve: false });
  count(report.programs, `${ours.status}/${theirs.status}`);
  if (theirs.status === 'unclear') {
    report.referenceUnclear += 1;
    return;
  }
  if (ours.status !== theirs.status) {
    report.wrong.push(`program ${label}: ${ours.status}, the reference says ${theirs.word}`);
  } else if (ours.status === 'optimal') {
    // The objective is a difference (numerator less so much of the denominator) and nought at the blend itself: its size
    // is that of what is added up. Where all blends come to the same, only dust is left to compare.
    const size = program.objective.reduce((sum, c, j) => sum + Math.abs(c * ours.x[j]!), 0);
    if (size < FLAT) {
      report.flat += 1;
      return;
    }
    const difference = Math.abs(ours.objective - theirs.objective) / size;
    report.worstDifference = Math.max(report.worstDifference, difference);
    if (!(difference <= AGREE)) {
      report.wrong.push(`program ${label}: objective ${ours.objective}, the reference says ${theirs.objective}`);
    }
  }
}

/** Everything a proposal says of itself that is not so. Judged on the weighed grams alone, by the forward model. */
function proposalFaults(question: Question, proposal: Proposal): string[] {
  const faults: string[] = [];
  const { batch, conditions, stock } = question;
  const portions = batch.pieces / (1 - conditions.waste);
  const known = new Map(question.materials.map((m) => [m.id, m]));
  const grams = new Map(proposal.ingredients.map((i) => [i.material, i.batchGrams]));
  for (const { material, batchGrams, pieceGrams } of proposal.ingredients) {
    const one = known.get(material);
    if (one === undefined) faults.push(`${material} is not in play`);
    if (!(Number.isFinite(batchGrams) && batchGrams > 0)) faults.push(`${batchGrams} g of ${material}`);
    if (Math.abs(pieceGrams * proposal.fills - batchGrams) > 1e-9 * batchGrams)
      faults.push(`${material}: piece and batch differ`);
    const steps = [batch.step, ...(batch.fine === null ? [] : [batch.fine.step])].map((step) => batchGrams / step);
    if (!steps.some((n) => Math.abs(n - Math.round(n)) < 1e-6))
      faults.push(`${batchGrams} g of ${material} cannot be weighed`);
    const most = stock.get(material);
    if (proposal.status === 'met' && most !== undefined && batchGrams > most + batch.step)
      faults.push(`${batchGrams} g of ${material} of ${most} in stock`);
  }
  const portion = question.materials.map((m) => (grams.get(m.id) ?? 0) / portions);
  const targets = [...question.targets, ...proposal.standing];
  const world = worldOf(question);
  const again = assess(question, mouldFull(world, portion), targets, { draws: 0 });
  const {
    value,
    state: { air },
  } = evaluate(world, portion);
  const volume = value(freshVolume)!;
  // Half a step of every ingredient, as plain rounding may be off, and one more of the roomiest; or a fiftieth.
  const rooms = portion.map((g, i) => (g > 0 ? (batch.step / portions) * (world.materials[i]!.volume / (1 - air)) : 0));
  const slack = Math.max(rooms.reduce((sum, r) => sum + r / 2, 0) + Math.max(...rooms), 0.02 * conditions.volume);
  if (Math.abs(volume - conditions.volume) > 1.000001 * slack) {
    faults.push(
      `fills ${volume.toFixed(2)} of ${conditions.volume.toFixed(2)} mL, the scale would let ${slack.toFixed(2)}`,
    );
  }
  for (const told of proposal.assessment.properties) {
    const value = again.properties.find((p) => p.property === told.property)!.value;
    const same = value === told.value || Math.abs(value! - told.value!) <= 1e-9 * Math.abs(value!);
    if (!same) faults.push(`${told.property} told as ${told.value}, is ${value}`);
  }
  const missed = again.verdicts.filter((v) => !v.met);
  if (proposal.status === 'met' && missed.length > 0)
    faults.push(`said to meet everything, misses ${missed.map((v) => `${v.property} (${v.value})`).join(', ')}`);
  if (proposal.status === 'nearest') {
    const told = proposal.assessment.verdicts.filter((v) => !v.met).map((v) => v.property);
    const own = missed.filter((v) => question.targets.some((t) => t.property === v.property));
    for (const { property } of own) if (!told.includes(property)) faults.push(`misses ${property} and does not say so`);
    const named = (proposal.conflict?.missed.length ?? 0) + (proposal.conflict?.collisions.length ?? 0);
    if (told.length + named === 0 && !proposal.coarse) faults.push('said to be only the nearest, and not why');
  }
  return faults;
}
