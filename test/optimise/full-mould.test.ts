import { describe, expect, it } from 'vitest';
import { type Assessment, assess } from '../../src/core/blend/assess.js';
import type { Recipe } from '../../src/core/brief/read-recipe.js';
import { recipeBlend } from '../../src/core/brief/recipe-blend.js';
import type { Shelf } from '../../src/core/brief/shelf.js';
import { type Proposal, propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { InputProblems } from '../../src/core/problems/problem.js';
import { randomQuestion } from '../support/random-shelf.js';
import { askedIn, stall } from '../support/stall.js';

/** What `propose` tells of a weigh-out is what `assess` tells of it as a recipe, in the same mould and with the same waste. */

const BRIEFS = 60;

/** The weigh-out of a proposal as a recipe, assessed as the verb does. */
function asRecipe(question: Question, { ingredients }: Proposal, shelf: Pick<Shelf, 'figures' | 'prices'>) {
  const { conditions, targets } = question;
  const parts = ingredients.map(({ material, batchGrams }) => ({
    material: question.materials.find((m) => m.id === material)!,
    grams: batchGrams,
  }));
  const recipe = {
    title: '',
    parts,
    scaled: true,
    setting: { conditions },
    targets,
    warnings: [],
  } as unknown as Recipe;
  const blend = recipeBlend(recipe, shelf as Shelf);
  const input = { ...question, materials: blend.materials };
  return { blend, assessment: assess(input, blend.pieceGrams, targets, { draws: 0 }) };
}

/** Values and verdicts of two assessments that are not the same to the dust of arithmetic. */
function unlike(one: Assessment, other: Assessment): string[] {
  const apart = (a: number | null, b: number | null): boolean =>
    a === null || b === null ? a !== b : Math.abs(a - b) > 1e-9 * Math.max(Math.abs(a), Math.abs(b));
  const values = one.properties.flatMap(({ property, value }) => {
    const there = other.properties.find((p) => p.property === property)!.value;
    return apart(value, there) ? [`${property}: ${value} and ${there}`] : [];
  });
  const verdicts = one.verdicts.flatMap((v, i) =>
    v.met === other.verdicts[i]!.met ? [] : [`${v.property}: ${v.met ? 'met and missed' : 'missed and met'}`],
  );
  return [...values, ...verdicts];
}

function check(name: string, question: Question, shelf: Pick<Shelf, 'figures' | 'prices'>): Proposal {
  const proposal = propose(question, { draws: 0 });
  const { blend, assessment } = asRecipe(question, proposal, shelf);
  expect(unlike(proposal.assessment, assessment), name).toEqual([]);
  expect(proposal.fills / blend.fills!, name).toBeCloseTo(1, 9);
  proposal.ingredients.forEach(({ pieceGrams }, i) => {
    expect(pieceGrams / blend.pieceGrams[i]!, name).toBeCloseTo(1, 9);
  });
  return proposal;
}

describe('a proposed piece is a full mould', () => {
  it.each(['herb-planter', 'wall-pocket', 'bookends', 'incense-dish', 'soap-tray', 'impossible-planter'])(
    'of the %s as of its weigh-out as a recipe',
    async (name) => {
      check(name, await askedIn(name), stall);
    },
  );

  it(`of ${BRIEFS} random briefs, whatever the steps of the scale leave short or over`, () => {
    const fills: number[] = [];
    const count = { met: 0, nearest: 0 };
    for (let seed = 1; seed <= BRIEFS; seed++) {
      const question = randomQuestion(3_500_000 + seed);
      try {
        const proposal = check(`brief ${seed}`, question, question);
        count[proposal.status]++;
        fills.push((proposal.fills * (1 - question.conditions.waste)) / question.batch.pieces);
      } catch (error) {
        if (!(error instanceof InputProblems)) throw error;
      }
    }
    expect(count.met).toBeGreaterThan(BRIEFS / 2);
    expect(count.nearest).toBeGreaterThan(0);
    // And the steps do leave some short and some over.
    expect(Math.min(...fills)).toBeLessThan(0.998);
    expect(Math.max(...fills)).toBeGreaterThan(1.002);
  });
});
