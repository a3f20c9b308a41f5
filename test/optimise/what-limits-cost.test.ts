import { describe, expect, it } from 'vitest';
import { AIMS } from '../../src/core/optimise/objective.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { InputProblems } from '../../src/core/problems/problem.js';
import { randomQuestion } from '../support/random-shelf.js';

const proposed = (question: Question) => {
  try {
    return propose(question, { draws: 0 });
  } catch (error) {
    if (error instanceof InputProblems) return null;
    throw error;
  }
};

describe('what a limit of ingredients costs', () => {
  it('is told beside the best that can be had without it, whatever binder that takes', () => {
    let told = 0;
    let otherBinder = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const question = randomQuestion(seed);
      // Without a least dose the blend before limits is just what the limit is told beside.
      const limits = { ingredients: 2, leastDose: 0.001 };
      const few = proposed({ ...question, limits });
      const free = proposed({ ...question, limits: { ingredients: null, leastDose: 0.001 } });
      const { without } = few?.limits ?? {};
      if (few?.status !== 'met' || free?.status !== 'met' || without == null || free.objective.exact === null) continue;
      told++;
      if (few.system !== free.system) otherBinder++;
      const sign = AIMS[question.objective].sense === 'min' ? 1 : -1;
      // Never worse than what is proposed without the limit; the search is local, so now and then better.
      const worse = (sign * (without - free.objective.exact)) / Math.abs(free.objective.exact);
      expect(worse, `seed ${seed}`).toBeLessThan(0.005);
    }
    expect(told).toBeGreaterThan(12);
    expect(otherBinder).toBeGreaterThan(0);
  });
});
