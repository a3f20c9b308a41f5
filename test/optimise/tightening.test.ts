import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import type { Target } from '../../src/core/blend/target.js';
import { worldOf } from '../../src/core/blend/world.js';
import { blendProgram, columnsOf } from '../../src/core/optimise/blend-program.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import { AIMS, soughtProgram } from '../../src/core/optimise/objective.js';
import { type Proposal, propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import { startingBlend } from '../../src/core/optimise/starting-blend.js';
import { BINDER_SYSTEMS } from '../../src/core/optimise/systems.js';
import { neighbourhood } from '../../src/core/optimise/tangent.js';
import { InputProblems } from '../../src/core/problems/problem.js';
import { type Random, seededRandom } from '../support/random-programs.js';
import { randomQuestion, varied } from '../support/random-shelf.js';
import { material, model } from '../support/shipped-table.js';

const system = (id: string) => BINDER_SYSTEMS.find((s) => s.id === id)!;

/** One side of a target moved outwards by a share of itself. */
const loosened = (target: Target, share: number): Target => ({
  ...target,
  ...(target.max === undefined ? {} : { max: target.max + share * Math.abs(target.max) }),
  ...(target.min === undefined ? {} : { min: target.min - share * Math.abs(target.min) }),
});

const withTarget = (question: Question, k: number, target: Target): Question => ({
  ...question,
  targets: question.targets.map((t, i) => (i === k ? target : t)),
});

describe('where every row holds everywhere, loosening a limit never makes the optimum worse', () => {
  /** Plaster, fillers and water without admixtures, sand or air to speak of: all that binds is linear. */
  function linearQuestion(random: Random): Question {
    const materials = ['water', 'casting-plaster', 'alpha-gypsum-cement', 'limestone-flour', 'marble-flour'].map((id) =>
      varied(material(id), random),
    );
    return {
      objective: 'cheapest',
      targets: [],
      conditions: { ...DEFAULT_CONDITIONS, volume: random.between(50, 800) },
      materials,
      doses: [],
      figures: model,
      prices: new Map(materials.map((m) => [m.id, random.between(0.0005, 0.005)])),
      stock: new Map(),
      batch: { pieces: 1, step: 1, fine: null },
    };
  }
  const LIMITS: readonly ((random: Random) => Target)[] = [
    (r) => ({ property: 'water-to-plaster', max: r.between(0.5, 1.2) }),
    (r) => ({ property: 'water-to-binder', min: r.between(0.45, 0.8) }),
    (r) => ({ property: 'sand-to-binder', max: r.between(0, 0.8) }),
    (r) => ({ property: 'demould-weight', max: r.between(400, 1200) }),
    (r) => ({ property: 'fresh-density', max: r.between(1.5, 2) }),
  ];

  it('in the settled blend', () => {
    let exercised = 0;
    let changed = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const random = seededRandom(seed);
      const limit = random.pick(LIMITS)(random);
      const question = { ...linearQuestion(random), targets: [limit] };
      const costs = [0, 0.01, 0.03, 0.08, 0.2].map((share) => {
        const asked = withTarget(question, 0, loosened(limit, share));
        const answer = settle(asked, worldOf(asked), system('gypsum'), { aim: AIMS.cheapest });
        return answer?.feasible ? answer.value! : Number.POSITIVE_INFINITY;
      });
      costs.reduce((before, now) => {
        if (before === Number.POSITIVE_INFINITY) return now;
        expect(now, `seed ${seed}, ${limit.property}`).toBeLessThanOrEqual(before * (1 + 1e-6));
        exercised++;
        if (now < before * (1 - 1e-6)) changed++;
        return now;
      });
    }
    expect(exercised).toBeGreaterThan(150);
    expect(changed).toBeGreaterThan(20);
  });

  it('in the linear program of any brief', () => {
    let exercised = 0;
    for (let seed = 1; seed <= 120; seed++) {
      const question = randomQuestion(seed);
      if (question.targets.length === 0) continue;
      const random = seededRandom(seed);
      const k = random.whole(0, question.targets.length - 1);
      const open = BINDER_SYSTEMS.find(
        (s) =>
          s.closed(question.conditions) === null &&
          question.materials.some((m) => m.binder !== undefined && s.families.includes(m.binder.family)),
      );
      if (open === undefined) continue;
      const world = worldOf(question);
      const columns = columnsOf(question, world, open);
      const start = startingBlend(world, columns, question.conditions.volume);
      const hood = neighbourhood(
        world,
        start,
        columns.map((c) => (c.upper ?? 1) > 0),
      );
      const aim = AIMS[question.objective];
      const optimum = (q: Question): number | null => {
        const answer = solveLp(soughtProgram(aim, blendProgram(q, world, hood, open, columns), world, hood));
        return answer.status === 'optimal' ? answer.objective : null;
      };
      const tight = optimum(question);
      const loose = optimum(withTarget(question, k, loosened(question.targets[k]!, random.between(0.01, 0.3))));
      if (tight === null) continue;
      exercised++;
      const { sense } = soughtProgram(aim, blendProgram(question, world, hood, open, columns), world, hood);
      const gain = sense === 'min' ? tight - loose! : loose! - tight;
      expect(gain, `seed ${seed}`).toBeGreaterThanOrEqual(-1e-7 * Math.max(1e-3, Math.abs(tight)));
    }
    expect(exercised).toBeGreaterThan(15);
  });
});

/**
 * Over curved limits the proposal is a local search, so that a looser brief may end in another valley. Measured over 134
 * such pairs (seeds 1 to 300, loosened by 2 %): none lost its blend; 3 ended worse, by 3.2 %, 0.6 % and 2e-6 of the objective.
 */
describe('where limits curve, loosening one', () => {
  const WORST = 0.05;
  const OFTEN = 0.05;

  it('never loses the blend, and rarely and barely makes it worse', () => {
    let pairs = 0;
    let worse = 0;
    const asked = (question: Question): Proposal | null => {
      try {
        return propose(question, { draws: 0 });
      } catch (error) {
        if (error instanceof InputProblems) return null;
        throw error;
      }
    };
    for (let seed = 1; seed <= 110; seed++) {
      const question = randomQuestion(seed);
      if (question.targets.length === 0) continue;
      const k = seededRandom(seed).whole(0, question.targets.length - 1);
      const tight = asked(question);
      if (tight === null || tight.conflict !== null) continue;
      const loose = asked(withTarget(question, k, loosened(question.targets[k]!, 0.02)))!;
      expect(loose.conflict, `seed ${seed}`).toBeNull();
      pairs++;
      const [before, now] = [tight.objective.exact!, loose.objective.exact!];
      const loss = (AIMS[question.objective].sense === 'min' ? now - before : before - now) / Math.abs(before);
      expect(loss, `seed ${seed}`).toBeLessThan(WORST);
      if (loss > 1e-5) worse++;
    }
    expect(pairs).toBeGreaterThan(40);
    expect(worse).toBeLessThanOrEqual(OFTEN * pairs);
  });
});
