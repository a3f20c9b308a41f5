import { describe, expect, it, vi } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { solveMilp } from '../../src/core/optimise/lp/milp.js';
import { AIMS, merit, soughtValue } from '../../src/core/optimise/objective.js';
import { roundToScale } from '../../src/core/optimise/rounding.js';
import { settle } from '../../src/core/optimise/settle.js';
import { smallQuestion } from '../support/small-shelf.js';

vi.mock('../../src/core/optimise/lp/milp.js', async (original) => {
  const milp = await original<typeof import('../../src/core/optimise/lp/milp.js')>();
  return { ...milp, solveMilp: vi.fn(milp.solveMilp) };
});

/** A rounding that a step or two mend, and that is as good as the exact blend, needs no branch and bound. */
describe('a rounding beside the exact blend', () => {
  it('is searched for only where neither the plain one nor its neighbours hold and come near it', () => {
    let [plain, mended, searched] = [0, 0, 0];
    for (let seed = 1; seed <= 120; seed++) {
      const { question, system } = smallQuestion(seed);
      const world = worldOf(question);
      const aim = AIMS[question.objective];
      const exact = settle(question, world, system, { aim });
      if (exact === null || !exact.feasible) continue;
      vi.mocked(solveMilp).mockClear();
      const rounded = roundToScale(question, world, system, exact.grams, aim);
      if (vi.mocked(solveMilp).mock.calls.length > 0) {
        searched++;
        continue;
      }
      expect(rounded.miss).toBe(0);
      const isPlain = rounded.batchGrams.every((g, i) => Math.abs(g - exact.grams[i]!) <= 0.5 + 1e-9);
      const behind = merit(aim, soughtValue(aim, world, rounded.state)) - merit(aim, exact.value);
      if (isPlain) plain++;
      else {
        mended++;
        expect(behind).toBeLessThanOrEqual(5e-4);
      }
    }
    expect(Math.min(plain, mended, searched)).toBeGreaterThan(3);
  });
});
