import { describe, expect, it } from 'vitest';
import { assess, evaluate } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { propertyValue } from '../../src/core/blend/property.js';
import { latinHypercube } from '../../src/core/blend/sampling.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { meets } from '../../src/core/blend/target.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import { jointChance, sideSpreads, sidesOf } from '../../src/core/optimise/back-off.js';
import { missOf } from '../../src/core/optimise/miss.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { type Proposal, propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { proposeSurely, type SureProposal } from '../../src/core/optimise/sure.js';
import { normalBelow } from '../support/normal.js';
import { seededRandom } from '../support/random-programs.js';
import { randomQuestion } from '../support/random-shelf.js';
import { material, model } from '../support/shipped-table.js';
import { smallQuestion } from '../support/small-shelf.js';

const WANTED = 0.9;
const DRAWS = 2000;
/** Standard deviation of a share of 0.9 in so many independent draws; of a Latin hypercube it is no larger. */
const DEVIATION = Math.sqrt((WANTED * (1 - WANTED)) / DRAWS);

const gramsOf = (question: Question, { ingredients }: Proposal): number[] =>
  question.materials.map((m) => ingredients.find((i) => i.material === m.id)?.pieceGrams ?? 0);

interface Case extends SureProposal {
  readonly name: string;
  readonly question: Question;
  readonly grams: readonly number[];
}
const cases: readonly Case[] = [
  ...Array.from({ length: 16 }, (_v, k) => ({ name: `small ${k + 1}`, question: smallQuestion(k + 1).question })),
  ...[3, 4, 9, 15, 16, 18, 22, 28].map((seed) => ({ name: `random ${seed}`, question: randomQuestion(seed) })),
].flatMap(({ name, question }): Case[] => {
  if (question.targets.length === 0 || propose(question, { draws: 0 }).status !== 'met') return [];
  const found = proposeSurely(question, WANTED);
  return [{ name, question, ...found, grams: gramsOf(question, found.proposal) }];
});
const reached = cases.filter((c) => c.sureness.reached);
const short = cases.filter((c) => !c.sureness.reached);

/** By how much a value is worse than another, in shares of the other. */
const worse = (question: Question, value: number, than: number): number =>
  ((AIMS[question.objective].sense === 'min' ? 1 : -1) * (value - than)) / Math.abs(than);

describe('a proposal that is to be sure', () => {
  it('is asked for of enough briefs, of which some allow it and some do not', () => {
    expect(reached.length).toBeGreaterThan(10);
    expect(short.length).toBeGreaterThan(3);
  });

  it('holds all targets at once with the wanted chance, by 2,000 other draws', () => {
    const again = reached.map(({ name, question, grams, sureness }) => {
      const { jointChance: chance } = assess(question, grams, question.targets, { draws: DRAWS, seed: 977 });
      expect(sureness.chance, name).toBeGreaterThanOrEqual(WANTED);
      expect(chance!, name).toBeGreaterThan(WANTED - 3 * DEVIATION);
      return chance!;
    });
    // One by one a blend may be a little short; together they are not.
    expect(again.filter((c) => c >= WANTED).length / again.length).toBeGreaterThan(0.85);
  });

  it('tells the chance that those other draws agree with, where it is not reached too', () => {
    for (const { name, question, grams, sureness } of cases) {
      const { jointChance: chance } = assess(question, grams, question.targets, { draws: DRAWS, seed: 977 });
      // Near certainty one draw in a hundred is taken for the spread.
      const share = Math.min(0.99, chance!);
      const deviation = Math.sqrt((share * (1 - share)) / DRAWS);
      expect(Math.abs(chance! - sureness.chance!), name).toBeLessThan(3 * Math.SQRT2 * deviation);
      if (!sureness.reached) expect(sureness.chance, name).toBeLessThan(WANTED);
    }
  });

  it('still keeps the brief by its middle figures, as weighed out', () => {
    for (const { name, question, proposal } of cases) {
      expect(proposal.status, name).toBe('met');
      for (const { property, value } of proposal.assessment.verdicts) {
        if (value !== null) expect(meets(question.targets.find((t) => t.property === property)!, value)).toBe(true);
      }
    }
  });

  it('is surer than the blend that only just meets the brief, and never better in what the brief is after', () => {
    let surer = 0;
    for (const { name, question, proposal, sureness } of cases) {
      const plain = propose(question, { draws: DRAWS });
      expect(sureness.unsure, name).toBe(plain.objective.exact);
      expect(worse(question, proposal.objective.exact!, plain.objective.exact!), name).toBeGreaterThan(-1e-5);
      const [before, now] = [plain.assessment.jointChance!, sureness.chance!];
      expect(now, name).toBeGreaterThan(before - 3 * DEVIATION);
      if (now > before + 0.05) surer++;
    }
    expect(surer).toBeGreaterThan(0.6 * cases.length);
  });

  it('is told which limits inside those of the brief it lies at', () => {
    let held = 0;
    for (const { name, question, sureness, grams } of cases) {
      const { value } = evaluate(worldOf(question), grams);
      for (const { property, side, limit, to } of sureness.held) {
        expect(question.targets.find((t) => t.property === property)![side], name).toBe(limit);
        expect(side === 'max' ? to < limit : to > limit, `${name} ${property}`).toBe(true);
        const spare = (side === 'max' ? 1 : -1) * (to - value(propertyById(property)!)!);
        expect(spare, `${name} ${property}`).toBeLessThanOrEqual(0.5 * Math.abs(to - limit) + 1e-9);
        held++;
      }
    }
    expect(held).toBeGreaterThan(cases.length / 2);
  });
});

describe('blends stirred at random about the proposal', () => {
  const NEIGHBOURS = 80;
  const FEW = 400;
  /** Three standard deviations of a difference between two shares on the same draws, and one for the best of many. */
  const ROOM = 0.03;

  /** Chance on common draws, and what the brief is after, of the proposal and of neighbours that keep every limit. */
  const about = ({ question, grams }: Case, seed: number) => {
    const world = worldOf(question);
    const random = seededRandom(seed);
    const draws = latinHypercube(FEW, 31, question.together);
    const sides = sidesOf(question.targets);
    const limits = [...question.targets, ...standingTargets(question.targets)];
    const judged = (blend: readonly number[]) => ({
      chance: jointChance(sideSpreads(question, blend, sides, draws), FEW),
      value: propertyValue(AIMS[question.objective].property, world, stateOf(world, blend)).value!,
    });
    const others = Array.from({ length: NEIGHBOURS }, () => {
      const spread = random.pick([0.01, 0.05, 0.2]);
      const stirred = grams.map((g) => g * (1 + random.between(-spread, spread)));
      const { value } = propertyValue(propertyById('fresh-volume')!, world, stateOf(world, stirred));
      return stirred.map((g) => (g * question.conditions.volume) / value!);
    }).filter((blend) => missOf(limits, world, stateOf(world, blend), 0) === 0);
    return { own: judged(grams), others: others.map(judged) };
  };

  it('are hardly surer than the surest that was found', () => {
    let tried = 0;
    for (const [k, c] of short.entries()) {
      const { own, others } = about(c, k + 1);
      for (const other of others) {
        expect(other.chance, c.name).toBeLessThan(own.chance + ROOM);
        tried++;
      }
    }
    expect(tried).toBeGreaterThan(100);
  });

  it('are hardly better where they are as sure', () => {
    let tried = 0;
    for (const [k, c] of reached.entries()) {
      const { own, others } = about(c, k + 1);
      for (const other of others.filter((o) => o.chance >= Math.max(own.chance, WANTED))) {
        expect(worse(c.question, other.value, own.value), c.name).toBeGreaterThan(-0.02);
        tried++;
      }
    }
    expect(tried).toBeGreaterThan(100);
  });
});

/**
 * Two cements of which the cheap one holds more sulfate. The binder's sulfate is a weighted sum of two independent normal
 * figures, so the chance that it keeps below a limit is the normal integral of its margin in standard deviations.
 */
describe('a chance told by hand', () => {
  const Z95 = 1.644854;
  const LIMIT = 2.75;
  const MIDDLE = [3, 2.4] as const;
  const HALVES = [0.5, 0.3] as const;
  const cement = (id: string, i: 0 | 1): Material => ({
    ...material(id),
    so3: {
      value: MIDDLE[i],
      low: MIDDLE[i] - HALVES[i],
      high: MIDDLE[i] + HALVES[i],
      unit: 'percent',
      source: 'none',
      status: 'ours',
    },
  });
  const question: Question = {
    objective: 'cheapest',
    targets: [{ property: 'sulfate', max: LIMIT }],
    conditions: { ...DEFAULT_CONDITIONS, volume: 400 },
    materials: [
      material('water'),
      cement('portland-cement-grey', 0),
      cement('portland-cement-white', 1),
      material('masonry-sand'),
    ],
    doses: [],
    figures: model,
    prices: new Map([
      ['portland-cement-grey', 0.0004],
      ['portland-cement-white', 0.002],
      ['masonry-sand', 0.0001],
    ]),
    stock: new Map(),
    batch: { pieces: 4, step: 0.1, fine: null },
  };
  const byHand = (proposal: Proposal): number => {
    const [, cheap, dear] = gramsOf(question, proposal);
    const share = cheap! / (cheap! + dear!);
    const mean = share * MIDDLE[0] + (1 - share) * MIDDLE[1];
    const spread = Math.hypot(share * HALVES[0], (1 - share) * HALVES[1]) / Z95;
    return normalBelow((LIMIT - mean) / spread);
  };

  it.each([0.7, 0.9, 0.97])('keeps it with %f', (wanted) => {
    const { proposal, sureness } = proposeSurely(question, wanted);
    expect(sureness.reached).toBe(true);
    const exact = byHand(proposal);
    expect(Math.abs(exact - sureness.chance!)).toBeLessThan(0.012);
    expect(exact).toBeGreaterThan(wanted - 0.01);
    // And pays for no more than it must.
    expect(exact).toBeLessThan(Math.min(1, wanted + 0.05));
  });

  it('costs more the surer it is', () => {
    const costs = [0.6, 0.8, 0.9, 0.97].map((wanted) => proposeSurely(question, wanted).sureness.sure!);
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    expect(costs.at(-1)!).toBeGreaterThan(1.1 * costs[0]!);
    const plain = proposeSurely(question, 0.1).sureness;
    expect(plain.held).toEqual([]);
    expect(plain.sure! / plain.unsure!).toBeCloseTo(1, 2);
  });

  it('is not asked for where the brief sets no targets', () => {
    const { sureness, proposal } = proposeSurely({ ...question, targets: [] }, WANTED);
    expect(sureness).toMatchObject({ reached: true, chance: null, held: [] });
    expect(proposal.status).toBe('met');
  });

  it('is not reached by a brief that nothing meets, which is told with what collides', () => {
    const impossible = { ...question, targets: [{ property: 'strength', min: 400 }] };
    const { sureness, proposal } = proposeSurely(impossible, WANTED);
    expect(sureness.reached).toBe(false);
    expect(sureness.unsure).toBeNull();
    expect(proposal.status).toBe('nearest');
    expect(proposal.conflict!.collisions.map((c) => c.property)).toContain('strength');
  });
});
