import { describe, expect, it } from 'vitest';
import { propose } from '../../src/core/optimise/propose.js';
import { proposeNear } from '../../src/core/optimise/propose-near.js';
import type { Question } from '../../src/core/optimise/question.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { binderIn, costOf, fullMould, LEANEST, RATIO, WASTE } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';
import { smallQuestion } from '../support/small-shelf.js';

/** The quick answer while a brief is being changed, on shelves where it can be told by hand. */

const question = fullMould({ 'casting-plaster': 0.001, 'portland-cement-grey': 0.0004, 'limestone-flour': 0.0001 });
const near = (asked: Question, system = 'gypsum', grams: Record<string, number> = {}) =>
  proposeNear(asked, { system, grams });

describe('a quick look', () => {
  const plaster = binderIn('casting-plaster', RATIO, LEANEST);
  const cost = costOf(plaster * (0.001 + LEANEST * 0.0001));

  it('is the best blend of the system it is asked of, though another is better by now', () => {
    const look = near(question)!;
    expect(look).toMatchObject({ status: 'met', system: 'gypsum', conflict: null, still: true });
    expect(look.objective.property).toBe('cost');
    expect(look.objective.exact).toBeCloseTo(cost, 6);
    expect(look.objective.weighed).toBe(look.objective.exact);
    expect(look.systems).toEqual([
      { system: 'gypsum', name: 'gypsum plaster', outcome: 'chosen', value: look.objective.exact, why: null },
    ]);
    expect(propose(question, { draws: 0 }).system).toBe('portland');
  });

  it('lists what is in it, by the piece and by the batch with its waste, and nothing that is not', () => {
    const { ingredients } = near({ ...question, batch: { pieces: 4, step: 0.1, fine: null } })!;
    expect(ingredients.map((i) => i.material)).toEqual(['water', 'casting-plaster', 'limestone-flour']);
    [RATIO, 1, LEANEST].forEach((parts, i) => {
      expect(ingredients[i]!.pieceGrams).toBeCloseTo(parts * plaster, 3);
      expect(ingredients[i]!.batchGrams / ingredients[i]!.pieceGrams).toBeCloseTo(4 / (1 - WASTE), 12);
    });
  });

  it('is judged by the forward model, without likely ranges, and says what limits it kept besides', () => {
    const { assessment, standing } = near(question)!;
    expect(assessment.verdicts.map((v) => v.property)).toEqual(['water-to-binder', 'flow', 'strength']);
    expect(assessment.met).toBe(true);
    expect(assessment.verdicts[0]!.chance).toBeNull();
    expect(standing).toEqual(standingTargets(question.targets));
    expect(standing.map((l) => l.property)).toEqual(['paste-to-voids', 'sand-to-binder', 'working-time']);
  });

  it('comes to the same blend from another one, in no more steps', () => {
    const fresh = near(question)!;
    const grams = Object.fromEntries(fresh.ingredients.map((i) => [i.material, i.pieceGrams]));
    const again = near(question, 'gypsum', grams)!;
    expect(again.objective.exact).toBeCloseTo(cost, 6);
    // A jump there and one that stays; a step that stays and a look about.
    expect([fresh.solves, again.solves]).toEqual([2, 2]);
    const changed = {
      ...question,
      targets: question.targets.map((t) => (t.property === 'water-to-binder' ? { ...t, max: 0.58 } : t)),
    };
    const then = binderIn('casting-plaster', 0.58, LEANEST);
    expect(near(changed, 'gypsum', grams)!.objective.exact).toBeCloseTo(costOf(then * (0.001 + LEANEST * 0.0001)), 6);
  });

  it('goes no further from its own answer than a fresh look went to find it, on shelves that are moved about', () => {
    let shorter = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const { question: asked, system } = smallQuestion(seed);
      const fresh = near(asked, system.id)!;
      expect(fresh.status, `seed ${seed}`).toBe('met');
      const grams = Object.fromEntries(fresh.ingredients.map((i) => [i.material, i.pieceGrams]));
      const again = near(asked, system.id, grams)!;
      expect(again.status, `seed ${seed}`).toBe('met');
      expect(again.objective.exact! / fresh.objective.exact!, `seed ${seed}`).toBeCloseTo(1, 4);
      expect(again.solves, `seed ${seed}`).toBeLessThanOrEqual(fresh.solves);
      if (again.solves < fresh.solves) shorter++;
    }
    expect(shorter).toBe(18);
  });

  it('starts anew from a blend of which nothing but water is on the shelf', () => {
    const fresh = near(question)!;
    for (const grams of [{ water: 200 }, { water: 200, 'csa-rapid-cement': 300 }, { 'casting-plaster': 0 }]) {
      const look = near(question, 'gypsum', grams)!;
      expect(look.solves).toBe(fresh.solves);
      expect(look.ingredients).toEqual(fresh.ingredients);
    }
  });

  it('says the nearest blend, and not what collides, where nothing fits', () => {
    const strong = near({ ...question, targets: [{ property: 'strength', min: 500 }] })!;
    expect(strong.status).toBe('nearest');
    expect(strong.conflict).toBeNull();
    expect(strong.assessment.met).toBe(false);
  });
});

describe('there is no quick look', () => {
  it('of a system that does not exist, is closed here, or has no binder on the shelf', () => {
    expect(near(question, 'no-such-system')).toBeNull();
    expect(near(question, 'csa')).toBeNull();
    expect(near({ ...question, conditions: { ...question.conditions, service: 'wet' } })).toBeNull();
    expect(near({ ...question, conditions: { ...question.conditions, service: 'wet' } }, 'portland')).not.toBeNull();
    // Not even from a blend with something in it.
    expect(near(question, 'csa', { 'limestone-flour': 300, water: 100 })).toBeNull();
    const both = { ...question, materials: [...question.materials, material('silica-fume')] };
    const outside = { ...both, conditions: { ...both.conditions, service: 'damp' as const } };
    expect(near(both, 'gypsum-portland-pozzolan')).not.toBeNull();
    expect(near(outside, 'gypsum-portland-pozzolan')).toBeNull();
  });

  it('where not even the mould can be filled', () => {
    const short = new Map(question.materials.map((m) => [m.id, 5]));
    expect(near({ ...question, stock: short })).toBeNull();
  });
});
