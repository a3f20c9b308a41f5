import { describe, expect, it } from 'vitest';
import type { Target } from '../../src/core/blend/target.js';
import { worldOf } from '../../src/core/blend/world.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settleSystems } from '../../src/core/optimise/settle-systems.js';
import { LEAST_WORKING_TIME } from '../../src/core/optimise/standing-limits.js';
import { benchQuestion } from '../support/bench-questions.js';
import { randomQuestion } from '../support/random-shelf.js';

/** Proposals leave the time it takes to mix and pour, unless the maker says otherwise. The briefs are invented. */

const WHOLE_SHELF = 43;
const quickest = (...targets: Target[]): Question => ({
  ...benchQuestion(WHOLE_SHELF),
  objective: 'quickest',
  targets,
});
const timed = (question: Question) => {
  const { assessment, standing, status, conflict } = propose(question, { draws: 0 });
  const minutes = assessment.properties.find((p) => p.property === 'working-time')!.value!;
  return { minutes, status, conflict, kept: standing.some((l) => l.property === 'working-time') };
};

describe('the quickest blend', () => {
  it('leaves time to mix and pour', () => {
    const { minutes, status, kept } = timed(quickest());
    expect(status).toBe('met');
    expect(kept).toBe(true);
    expect(minutes).toBeGreaterThanOrEqual(LEAST_WORKING_TIME);
    expect(minutes).toBeLessThan(1.2 * LEAST_WORKING_TIME);
  });

  it('leaves less to a maker who asks for it', () => {
    for (const own of [
      { property: 'working-time', min: 1 },
      { property: 'working-time', max: 2 },
    ]) {
      const { minutes, status, kept } = timed(quickest(own));
      expect(status, own.property).toBe('met');
      expect(kept).toBe(false);
      expect(minutes).toBeLessThan(3);
    }
  });

  it.each([6, 3])('collides with a set that comes too soon to pour, however soon, and says so: %d min', (max) => {
    const { status, conflict, kept } = timed(quickest({ property: 'initial-set', max }));
    expect(status).toBe('nearest');
    expect(kept).toBe(true);
    expect(conflict!.collisions).toMatchObject([
      { property: 'initial-set', side: 'max', limit: max, kind: 'target' },
      { property: 'working-time', side: 'min', limit: LEAST_WORKING_TIME, kind: 'standing' },
    ]);
  });
});

describe('where an accelerator and a retarder came to work against each other', () => {
  it('the accelerator by itself is still brought back to what the limit bears', () => {
    const question = randomQuestion(18);
    const [first] = settleSystems(question, worldOf(question), AIMS[question.objective]).ranked;
    expect(first!.free!.feasible).toBe(true);
    expect(first!.answer.feasible).toBe(true);
    expect(first!.answer.value! / first!.free!.value!).toBeCloseTo(1, 4);
  });
});
