import { beforeAll, describe, expect, it, vi } from 'vitest';
import { assess, evaluate } from '../../src/core/blend/assess.js';
import { freshVolume } from '../../src/core/blend/properties/volume-and-weight.js';
import { inBase } from '../../src/core/blend/state/amounts.js';
import { meets } from '../../src/core/blend/target.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { LinearProgram } from '../../src/core/optimise/lp/types.js';
import { type Proposal, propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { InputProblems } from '../../src/core/problems/problem.js';
import { highsReference } from '../support/highs-reference.js';
import { seededRandom } from '../support/random-programs.js';
import { randomQuestion } from '../support/random-shelf.js';
import { emptyReport, type TrustReport, trustLp, trustMilp } from '../support/trust.js';

/**
 * 500 seeded random shelves and briefs through the whole proposal loop. Every program the loop gives to the solver is
 * overheard; a sample of them goes to HiGHS beside ours, and its certificates are rechecked in the tests' own arithmetic.
 */
const heard = vi.hoisted(() => ({ on: false, linear: [] as LinearProgram[], mixed: [] as LinearProgram[] }));

vi.mock('../../src/core/optimise/lp/solve.js', async (importOriginal) => {
  const real = await importOriginal<typeof import('../../src/core/optimise/lp/solve.js')>();
  const solveLp: typeof real.solveLp = (program, options) => {
    if (heard.on) heard.linear.push(program);
    return real.solveLp(program, options);
  };
  return { ...real, solveLp };
});
vi.mock('../../src/core/optimise/lp/milp.js', async (importOriginal) => {
  const real = await importOriginal<typeof import('../../src/core/optimise/lp/milp.js')>();
  const solveMilp: typeof real.solveMilp = (program, options) => {
    if (heard.on) heard.mixed.push(program);
    return real.solveMilp(program, options);
  };
  return { ...real, solveMilp };
});

const BRIEFS = 500;
const FIRST_SEED = 1;
/** Programs of one proposal that go to the reference: the last ones, at the settled blend, and some on the way. */
const LAST = 2;
const ON_THE_WAY = 6;
const MIXED_CHECKED = 40;

interface Outcome {
  readonly seed: number;
  readonly question: Question;
  readonly proposal: Proposal;
}
const outcomes: Outcome[] = [];
const refused: { readonly seed: number; readonly question: Question; readonly problems: InputProblems }[] = [];
const linear: TrustReport = emptyReport();
const mixed: TrustReport = emptyReport();
let solves = 0;

beforeAll(async () => {
  const reference = await highsReference();
  for (let seed = FIRST_SEED; seed < FIRST_SEED + BRIEFS; seed++) {
    const question = randomQuestion(seed);
    Object.assign(heard, { on: true, linear: [], mixed: [] });
    try {
      outcomes.push({ seed, question, proposal: propose(question, { draws: 0 }) });
    } catch (error) {
      // Nothing else may be thrown: a RangeError of the science here is a mistake of ours.
      if (!(error instanceof InputProblems)) throw new Error(`brief ${seed}`, { cause: error });
      refused.push({ seed, question, problems: error });
    }
    heard.on = false;
    solves += heard.linear.length;
    const random = seededRandom(seed);
    const last = heard.linear.slice(-LAST);
    const others = heard.linear.slice(0, -LAST);
    const some = Array.from({ length: Math.min(ON_THE_WAY, others.length) }, () => random.pick(others));
    for (const [k, program] of [...some, ...last].entries()) {
      trustLp(linear, `brief ${seed}.${k}`, weighable(program), reference);
    }
    if (mixed.solved < MIXED_CHECKED && heard.mixed.length > 0) {
      trustMilp(mixed, `brief ${seed}, integers`, weighable(random.pick(heard.mixed)), reference);
    }
  }
}, 300_000);

/**
 * The same program with a share of one column added to what it seeks, so that an optimum of nothing (no moves needed, no
 * miss) has a size that 1e-6 of it can be told by. Solver and reference get the same.
 */
function weighable(program: LinearProgram): LinearProgram {
  const largest = Math.max(...program.objective.map(Math.abs)) || 1;
  const objective = program.objective.map((c) => c + (program.sense === 'min' ? 1e-3 : -1e-3) * largest);
  return { ...program, objective };
}

const totalOf = ({ question, proposal }: Outcome): number[] =>
  question.materials.map((m) => proposal.ingredients.find((i) => i.material === m.id)?.pieceGrams ?? 0);

describe(`${BRIEFS} random shelves and briefs`, () => {
  it('end in a proposal, or in one clear refusal where no binder is open', () => {
    expect(outcomes.length + refused.length).toBe(BRIEFS);
    expect(outcomes.length).toBeGreaterThan(0.95 * BRIEFS);
    for (const { problems } of refused) expect(problems.problems.map((p) => p.code)).toEqual(['brief-contradicts']);
  });

  it('have linear programs solved as HiGHS solves them, with certificates that stand', () => {
    expect(linear.wrong).toEqual([]);
    expect(linear.rechecked).toBe(linear.solved);
    expect(linear.solved).toBeGreaterThan(5 * BRIEFS);
    expect(linear.compared).toBeGreaterThan(0.5 * linear.solved);
    expect(linear.statuses['infeasible/infeasible']).toBeGreaterThan(50);
    expect(linear.worstDifference).toBeLessThan(1e-6);
    expect(solves).toBeGreaterThan(linear.solved);
  });

  it('have whole-number programs solved as HiGHS solves them', () => {
    expect(mixed.wrong).toEqual([]);
    expect(mixed.solved).toBe(MIXED_CHECKED);
  });

  it('are met just when the forward model says that every limit holds for what is weighed', () => {
    const count = { met: 0, nearest: 0, coarse: 0 };
    for (const outcome of outcomes) {
      const { question, proposal, seed } = outcome;
      const limits = [...question.targets, ...proposal.standing];
      const { met } = assess(question, totalOf(outcome), limits, { draws: 0 });
      count[proposal.status]++;
      if (proposal.status === 'nearest' && met) {
        // All limits hold, but the scale cannot weigh out a dose that was asked for, or fill the mould, nearly enough.
        expect(proposal.coarse, `brief ${seed}`).toBeDefined();
        expect(proposal.conflict, `brief ${seed}`).toBeNull();
        count.coarse++;
      } else expect(proposal.status, `brief ${seed}`).toBe(met ? 'met' : 'nearest');
      expect(proposal.assessment.met || proposal.status === 'nearest', `brief ${seed}`).toBe(true);
    }
    expect(count.met).toBeGreaterThan(0.4 * BRIEFS);
    expect(count.nearest).toBeGreaterThan(0.1 * BRIEFS);
    expect(count.coarse).toBeLessThan(0.01 * BRIEFS);
  });

  it('have no number that is not one', () => {
    for (const { seed, proposal } of outcomes) {
      for (const { property, value } of proposal.assessment.properties) {
        if (value !== null) expect(Number.isFinite(value), `brief ${seed}, ${property}`).toBe(true);
      }
      for (const { pieceGrams, batchGrams } of proposal.ingredients) {
        expect(pieceGrams).toBeGreaterThan(0);
        expect(batchGrams).toBeGreaterThan(0);
      }
    }
  });

  it('are weighed on the steps of the scale, and told of one of the moulds that the batch fills', () => {
    for (const { seed, question, proposal } of outcomes) {
      const { batch } = question;
      for (const { batchGrams, pieceGrams } of proposal.ingredients) {
        const steps = [batch.step, ...(batch.fine === null ? [] : [batch.fine.step])].map((s) => batchGrams / s);
        expect(
          steps.some((n) => Math.abs(n - Math.round(n)) < 1e-5),
          `brief ${seed}: ${batchGrams} g`,
        ).toBe(true);
        expect((pieceGrams * proposal.fills) / batchGrams).toBeCloseTo(1, 9);
      }
    }
  });

  it('fill the mould to within what the scale can tell apart', () => {
    for (const outcome of outcomes) {
      const { question, seed, proposal } = outcome;
      const world = worldOf(question);
      const { pieces, step } = question.batch;
      const portion = (1 - question.conditions.waste) / pieces;
      const full = totalOf(outcome);
      expect(evaluate(world, full).value(freshVolume)! / question.conditions.volume, `brief ${seed}`).toBeCloseTo(1, 9);
      const grams = full.map((g) => g * proposal.fills * portion);
      const { value, state } = evaluate(world, grams);
      // Half a step of every ingredient, as plain rounding may be off, and one more of the roomiest.
      const rooms = grams.map((g, i) => (g > 0 ? (step * portion * world.materials[i]!.volume) / (1 - state.air) : 0));
      const most = rooms.reduce((s, r) => s + r / 2, 0) + Math.max(...rooms);
      const over = value(freshVolume)! - question.conditions.volume;
      // Admixtures that bring air move the volume by more than they fill, and a fiftieth may be left over.
      const share = (over > 0 ? 0.02 : 0.01) * question.conditions.volume;
      expect(Math.abs(over), `brief ${seed}, ${proposal.status}`).toBeLessThanOrEqual(
        Math.max(most, share) * (1 + 1e-6),
      );
    }
  });

  it('hold the binder system they are called by, the doses that were asked for, and what is on hand', () => {
    let doses = 0;
    for (const outcome of outcomes) {
      const { question, proposal, seed } = outcome;
      const world = worldOf(question);
      const grams = totalOf(outcome);
      expect(
        grams.some((g, i) => g > 0 && world.materials[i]!.family !== null),
        `brief ${seed}: binder`,
      ).toBe(true);
      for (const dose of question.doses) {
        const base = grams.reduce((s, g, i) => s + g * inBase(world.materials[i]!, dose.of), 0);
        const column = question.materials.findIndex((m) => m.id === dose.material);
        const { step } = question.batch;
        const portion = (1 - question.conditions.waste) / question.batch.pieces;
        // Rounded to the scale like all else, with the binder it is a share of.
        const give = step * portion * (1 + (dose.percent / 100) * question.materials.length);
        expect(Math.abs(grams[column]! * world.materials[column]!.solids - (dose.percent / 100) * base)).toBeLessThan(
          give,
        );
        doses++;
      }
      question.stock.forEach((onHand, id) => {
        const used = proposal.ingredients.find((i) => i.material === id)?.batchGrams ?? 0;
        expect(used, `brief ${seed}: ${id}`).toBeLessThanOrEqual(onHand + question.batch.step);
      });
      for (const [i, material] of question.materials.entries()) {
        if (grams[i]! > 0) expect(material.notFor ?? []).not.toContain(question.conditions.service);
      }
    }
    expect(doses).toBeGreaterThan(100);
  });

  it('say of a nearest blend which sides it misses, and by how much', () => {
    let told = 0;
    for (const outcome of outcomes) {
      const { proposal, question, seed } = outcome;
      if (proposal.status === 'met') {
        expect(proposal.conflict, `brief ${seed}`).toBeNull();
        continue;
      }
      if (proposal.conflict === null) {
        // A blend exists that this scale cannot weigh.
        expect(proposal.coarse, `brief ${seed}`).toBeDefined();
        continue;
      }
      told++;
      expect(proposal.conflict.missed.length, `brief ${seed}`).toBeGreaterThan(0);
      for (const { property, side, limit, missedBy, nearest, kind } of proposal.conflict.missed) {
        const sides = kind === 'target' ? question.targets : proposal.standing;
        expect(sides.some((t) => t.property === property && t[side] === limit)).toBe(true);
        if (nearest === null) continue;
        expect(meets({ property, [side]: limit }, nearest)).toBe(false);
        expect(Math.abs(nearest - limit)).toBeCloseTo(missedBy, 9);
      }
    }
    expect(told).toBeGreaterThan(0.1 * BRIEFS);
  });

  it('give the same answer when asked again', () => {
    for (const { question, proposal } of outcomes.slice(0, 10)) {
      expect(propose(question, { draws: 0 })).toEqual(proposal);
    }
  });
});
