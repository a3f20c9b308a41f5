import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { settle } from '../../src/core/optimise/settle.js';
import { supported } from '../../src/core/optimise/support.js';
import { BINDER_SYSTEMS } from '../../src/core/optimise/systems.js';
import { randomQuestion } from '../support/random-shelf.js';

/** A system that another has beaten before its limits of ingredients are looked at. */
describe('a beaten system', () => {
  it('is kept to its limits all the same, with no more tries, and no better than a thorough search', () => {
    let looked = 0;
    for (let seed = 1; looked < 12; seed++) {
      const question = { ...randomQuestion(seed), limits: { ingredients: null, leastDose: 4 } };
      const world = worldOf(question);
      const aim = AIMS[question.objective];
      const system = BINDER_SYSTEMS.find((s) => s.id === 'portland')!;
      const free = settle(question, world, system, { aim });
      if (free?.feasible !== true) continue;
      const thorough = supported(question, world, system, free, aim, false);
      if (thorough === null || thorough.free === null || !thorough.answer.feasible) continue;
      const quick = supported(question, world, system, free, aim, false, true)!;
      looked++;
      expect(quick.answer.feasible).toBe(true);
      expect(quick.tried).toBeLessThanOrEqual(thorough.tried);
      expect(supported(question, world, system, quick.answer, aim, false)).toMatchObject({ free: null });
      const [a, b] = [quick.answer.value!, thorough.answer.value!];
      const worse = aim.sense === 'min' ? a / b : b / a;
      expect(worse).toBeGreaterThan(1 - 1e-3);
    }
  });
});
