import { describe, expect, it } from 'vitest';
import { AIMS, falls } from '../../src/core/optimise/objective.js';

/** How far a blend falls behind a program's optimum: sums small enough to do by hand; nothing looked at them before. */

const programOf = (sense: 'min' | 'max', objective: readonly number[]) => ({ columns: [], rows: [], sense, objective });

describe('what a program’s optimum gains on the blend it was made at', () => {
  const blend = { grams: [10, 5, 0], value: 123 };

  it('is a share of all the objective adds up there, negative where the optimum is better', () => {
    // 2*10 - 4*5 + 0 = 0 in value, 20 + 20 = 40 in size.
    const mixed = programOf('min', [2, -4, 7]);
    expect(falls(AIMS.cheapest, { program: mixed, objective: -10 }, blend)).toBeCloseTo(-0.25, 12);
    // 3*10 + 1*5 = 35.
    const plain = programOf('min', [3, 1, 9]);
    expect(falls(AIMS.cheapest, { program: plain, objective: 35 }, blend)).toBeCloseTo(0, 12);
    expect(falls(AIMS.cheapest, { program: plain, objective: 28 }, blend)).toBeCloseTo(-0.2, 12);
    expect(falls(AIMS.cheapest, { program: plain, objective: 42 }, blend)).toBeCloseTo(0.2, 12);
  });

  it('turns round where more is better', () => {
    const plain = programOf('max', [3, 1, 9]);
    expect(falls(AIMS.strongest, { program: plain, objective: 42 }, blend)).toBeCloseTo(-0.2, 12);
    expect(falls(AIMS.strongest, { program: plain, objective: 28 }, blend)).toBeCloseTo(0.2, 12);
  });

  it('is nought, not a division by it, for a blend of nothing', () => {
    const empty = { grams: [0, 0, 0], value: null };
    expect(falls(AIMS.cheapest, { program: programOf('min', [3, 1, 9]), objective: 0 }, empty)).toBe(0);
  });
});
