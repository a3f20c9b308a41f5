import { beforeAll, describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { BlendProgram } from '../../src/core/optimise/blend-program.js';
import { conflictOf } from '../../src/core/optimise/conflict.js';
import { conflictSet } from '../../src/core/optimise/lp/conflict-set.js';
import type { LinearProgram } from '../../src/core/optimise/lp/types.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import { settleSystems } from '../../src/core/optimise/settle-systems.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { highsReference, type ReferenceSolver } from '../support/highs-reference.js';
import { randomQuestion } from '../support/random-shelf.js';
import { material, model } from '../support/shipped-table.js';

const pure = ({ columns, rows }: Pick<BlendProgram, 'columns' | 'rows'>): LinearProgram => ({
  columns,
  rows,
  sense: 'min',
  objective: columns.map(() => 0),
});

interface Collided {
  readonly seed: number;
  readonly question: Question;
  readonly program: BlendProgram;
  readonly set: readonly number[];
}

describe('targets that collide on random briefs, judged by HiGHS', () => {
  let reference: ReferenceSolver;
  const collided: Collided[] = [];
  let apart = 0;

  beforeAll(async () => {
    reference = await highsReference();
    for (let seed = 1; seed <= 90; seed++) {
      const question = randomQuestion(seed);
      const [first] = settleSystems(question, worldOf(question), AIMS[question.objective]).ranked;
      if (first === undefined || first.answer.feasible) continue;
      const { program } = first.answer;
      const set = conflictSet(pure(program), (r) => program.origins[r]!.kind !== 'fixed');
      if (set === null) apart++;
      else collided.push({ seed, question, program, set });
    }
  });

  const kept = (program: BlendProgram, soft: readonly number[]): LinearProgram =>
    pure({
      columns: program.columns,
      rows: program.rows.filter((_row, r) => program.origins[r]!.kind === 'fixed' || soft.includes(r)),
    });

  it('are many enough to judge, and hardly ever told by the forward model alone', () => {
    expect(collided.length).toBeGreaterThan(12);
    expect(apart).toBeLessThan(0.25 * collided.length);
  });

  it('cannot hold together', () => {
    for (const { seed, program, set } of collided) {
      expect(reference(kept(program, set)).status, `seed ${seed}`).toBe('infeasible');
    }
  });

  it('free the rest when any one of them is given up', () => {
    let dropped = 0;
    for (const { seed, program, set } of collided) {
      for (const one of set) {
        const rest = set.filter((r) => r !== one);
        expect(reference(kept(program, rest)).status, `seed ${seed} without ${program.rows[one]!.name}`).toBe(
          'optimal',
        );
        dropped++;
      }
    }
    expect(dropped).toBeGreaterThan(collided.length);
  });

  it('are told in the words of the brief, and cannot be met by themselves either', () => {
    let own = 0;
    for (const { seed, question } of collided) {
      const world = worldOf(question);
      const aim = AIMS[question.objective];
      const { ranked } = settleSystems(question, world, aim);
      const told = conflictOf(question, world, ranked)!;
      const alone = [...question.targets, ...standingTargets(question.targets)].map(({ property }) => ({
        property,
        ...Object.fromEntries(told.collisions.filter((c) => c.property === property).map((c) => [c.side, c.limit])),
      }));
      const settled = settle({ ...question, targets: alone }, world, ranked[0]!.system, { aim });
      expect(settled?.feasible ?? false, `seed ${seed}`).toBe(false);
      expect(told.system).toBe(ranked[0]!.system.id);
      for (const { property, side, limit, kind } of told.collisions) {
        if (kind === 'standing') continue;
        const target = question.targets.find((t) => t.property === property);
        expect(target?.[side], `seed ${seed}, ${property} ${side}`).toBe(limit);
        own++;
      }
      expect(new Set(told.collisions.map((c) => `${c.property} ${c.side}`)).size).toBe(told.collisions.length);
    }
    expect(own).toBeGreaterThan(collided.length / 2);
  });
});

describe('a planter that cannot be', () => {
  const question: Question = {
    objective: 'cheapest',
    targets: [
      { property: 'dry-weight', max: 500 },
      { property: 'strength', min: 40 },
    ],
    conditions: { ...DEFAULT_CONDITIONS, volume: 640, service: 'damp' },
    materials: ['water', 'portland-cement-grey', 'masonry-sand', 'perlite'].map(material),
    doses: [],
    figures: model,
    prices: new Map([
      ['portland-cement-grey', 0.0004],
      ['masonry-sand', 0.0002],
      ['perlite', 0.002],
    ]),
    stock: new Map(),
    batch: { pieces: 1, step: 1, fine: null },
  };

  it('is told to be too light for its strength, and by how much the nearest misses', () => {
    const proposal = propose(question, { draws: 0 });
    expect(proposal.status).toBe('nearest');
    const { collisions, missed } = proposal.conflict!;
    expect(collisions.map((c) => `${c.property} ${c.side}`).sort()).toEqual(
      expect.arrayContaining(['dry-weight max', 'strength min']),
    );
    expect(missed.length).toBeGreaterThan(0);
    for (const { nearest, limit, missedBy } of missed) expect(Math.abs(nearest! - limit)).toBeCloseTo(missedBy, 9);
    // What is told is the blend that is weighed out.
    for (const { property, nearest } of missed) {
      expect(nearest).toBe(proposal.assessment.properties.find((p) => p.property === property)!.value);
    }
  });

  it.each([0, 1])('is free once target %i is given up', (k) => {
    const freed = propose({ ...question, targets: question.targets.filter((_t, i) => i !== k) }, { draws: 0 });
    expect(freed.status).toBe('met');
    expect(freed.conflict).toBeNull();
  });
});

describe('a limit on what no blend can have', () => {
  const asked: Question = {
    objective: 'lightest',
    targets: [{ property: 'water-to-plaster', max: 0.5 }],
    conditions: { ...DEFAULT_CONDITIONS, volume: 300 },
    materials: ['water', 'portland-cement-grey', 'perlite'].map(material),
    doses: [],
    figures: model,
    prices: new Map(),
    stock: new Map(),
    batch: { pieces: 1, step: 1, fine: null },
  };

  it('is told as missed by all of it, and spoils nothing else of the nearest blend', () => {
    const proposal = propose(asked, { draws: 0 });
    expect(proposal.status).toBe('nearest');
    expect(proposal.conflict!.missed).toEqual([
      { property: 'water-to-plaster', side: 'max', limit: 0.5, kind: 'target', nearest: null, missedBy: 0.5 },
    ]);
    expect(proposal.assessment.properties.find((p) => p.property === 'strength')!.value).toBeGreaterThanOrEqual(2);
  });
});
