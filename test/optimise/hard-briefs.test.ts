import { describe, expect, it } from 'vitest';
import { propose } from '../../src/core/optimise/propose.js';
import { InputProblems } from '../../src/core/problems/problem.js';
import { highsReference } from '../support/highs-reference.js';
import { randomQuestion } from '../support/random-shelf.js';
import { emptyTruth, truthOf } from '../support/truth.js';

/** Brief 1,001,717 of the long run: 30 mL in one piece; on a coarse scale nothing but water was once called "nearest". */
const question = randomQuestion(1_001_717);

describe('a mould too small for the scale', () => {
  it('is told so, rather than be given a mould of water', () => {
    try {
      propose({ ...question, batch: { ...question.batch, step: 15 } }, { draws: 0 });
      expect.unreachable();
    } catch (error) {
      if (!(error instanceof InputProblems)) throw error;
      expect(error.problems[0]).toMatchObject({
        code: 'brief-contradicts',
        where: { path: 'batch' },
        found: expect.stringContaining('weighed out'),
        expected: expect.stringContaining('finer scale'),
      });
    }
  });

  it('is met in steps of five grams by two things that happen to fill it', () => {
    expect(question.batch).toEqual({ pieces: 1, step: 5, fine: null });
    const { status, ingredients } = propose(question, { draws: 0 });
    expect([status, ingredients.length]).toEqual(['met', 2]);
  });

  it('is met on a scale of a tenth of a gram', () => {
    const fine = propose({ ...question, batch: { ...question.batch, step: 0.1 } }, { draws: 0 });
    expect(fine.status).toBe('met');
    expect(fine.ingredients.length).toBeGreaterThan(2);
  });
});

describe('a dose that rounds away on a coarse scale', () => {
  // Brief 1,008,315: two grams of retarder on a scale of five. Its row called a mould with 13 mL too much of 1,091 full.
  it('takes its air with it, and the mould is judged without', async () => {
    const report = emptyTruth();
    truthOf(report, 1_008_315, await highsReference());
    expect(report.wrong).toEqual([]);
    expect(report.statuses).toEqual({ met: 1 });
  });
});

describe('a blend stretched to fill its mould', () => {
  // Of ten thousand briefs these took more of a bag than was on hand: the stretch was not held against the stock.
  it.each([2_005_902, 2_006_048, 2_006_431])('stays within the stock: brief %i', async (seed) => {
    const report = emptyTruth();
    truthOf(report, seed, await highsReference());
    expect(report.wrong).toEqual([]);
    expect(report.statuses).toEqual({ met: 1 });
  });
});
