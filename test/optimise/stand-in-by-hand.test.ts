import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import type { Question } from '../../src/core/optimise/question.js';
import { closestFirst, standIn, tenthsOff, toleranceWindow } from '../../src/core/optimise/stand-in.js';
import { STANDING_LIMITS } from '../../src/core/optimise/standing-limits.js';
import type { Closeness, Wanted } from '../../src/core/optimise/wanted.js';
import { questionOf } from '../support/hand-question.js';
import { codesOf } from '../support/problems.js';

describe('a thing wanted as a window', () => {
  it('has its tolerance on either side, and is open where it is not wanted', () => {
    const weight = { property: 'dry-weight', tolerance: 10, weight: 2 };
    expect(toleranceWindow({ ...weight, low: 300, high: 320 })).toEqual({ property: 'dry-weight', min: 290, max: 330 });
    expect(toleranceWindow({ ...weight, low: 300 })).toEqual({ property: 'dry-weight', min: 290 });
    expect(toleranceWindow({ ...weight, high: 320 })).toEqual({ property: 'dry-weight', max: 330 });
    expect(toleranceWindow(weight)).toEqual({ property: 'dry-weight' });
  });
});

describe('how far off a blend is for print', () => {
  it('is told in whole tenths of a tolerance', () => {
    expect([0, 0.04, 0.06, 0.3, 1.249].map(tenthsOff)).toEqual([0, 0, 1, 3, 12]);
  });
});

describe('the order of stand-ins', () => {
  const one = (name: string, holds: boolean, farness: number, jointChance: number | null) => ({
    name,
    holds,
    farness,
    assessment: { jointChance },
  });

  it('has those first that keep the targets, then the closer ones, and of those alike the surer', () => {
    const right = [
      one('closest', true, 0.1, 0.2),
      one('as close to the tenth, surer', true, 0.33, 0.9),
      one('a hair closer, less sure', true, 0.27, 0.8),
      one('as close, chance not known', true, 0.3, null),
      one('farther', true, 2, 1),
      one('misses a target', false, 0, 1),
      one('misses it from farther off', false, 0.5, 1),
    ];
    for (let turn = 0; turn < right.length; turn++) {
      const dealt = [...right.slice(turn), ...right.slice(0, turn)];
      expect(dealt.sort(closestFirst)).toEqual(right);
      expect(dealt.reverse().sort(closestFirst)).toEqual(right);
    }
  });
});

/** Two binders that may not share a piece; a piece of either fills the same 300 cm³. */
describe('stand-ins from a shelf of plaster and cement', () => {
  const SHELF = ['water', 'casting-plaster', 'portland-cement-grey'] as const;
  const weighing = (grams: number, more: Partial<Wanted> = {}): Wanted => ({
    property: 'fresh-weight',
    low: grams,
    high: grams,
    tolerance: 5,
    weight: 1,
    ...more,
  });
  const near = (...wanted: Wanted[]): Closeness => ({ sense: 'min', wanted, thrift: 0 });
  const question = (more: Partial<Question> = {}) => questionOf(SHELF, more);
  const NO_DRAWS = { draws: 0 };

  it('come one for each binder system, closest first, with what each holds', () => {
    // Neat plaster weighs 450 g or a little more, neat cement 590 g or so.
    const { ranked, systems, standing } = standIn(question(), near(weighing(590, { tolerance: 30 })), NO_DRAWS);
    expect(ranked.map((r) => [r.system, r.name])).toEqual([
      ['portland', 'portland cement'],
      ['gypsum', 'gypsum plaster'],
    ]);
    expect(standing).toEqual(STANDING_LIMITS);
    expect(systems.filter((s) => s.outcome === 'chosen').map((s) => s.system)).toEqual(['portland']);
    for (const { ingredients, distances, farness, assessment, holds, limits } of ranked) {
      const total = ingredients.reduce((s, i) => s + i.pieceGrams, 0);
      expect(distances[0]!.value).toBeCloseTo(total, 9);
      expect(distances[0]!.distance).toBeCloseTo(Math.abs(total - 590) / 30, 6);
      expect(farness).toBeCloseTo(distances[0]!.distance, 12);
      expect(assessment.verdicts[0]).toMatchObject({ property: 'fresh-weight', min: 560, max: 620 });
      expect(holds).toBe(true);
      // Nothing of what the blend does not hold is listed.
      expect(ingredients.every((i) => i.batchGrams > 0 && i.pieceGrams > 0)).toBe(true);
      expect(limits).toMatchObject({ ingredients: null, used: 1, enough: null });
    }
    expect(ranked[0]!.ingredients.map((i) => i.material)).toEqual(['water', 'portland-cement-grey']);
    expect(ranked[0]!.still).toBe(true);
  });

  it('are told by the piece and by the batch', () => {
    const batch = { pieces: 4, step: 1, fine: null };
    const [first] = standIn(question({ batch }), near(weighing(590)), NO_DRAWS).ranked;
    const moulds = first!.ingredients.map(({ pieceGrams, batchGrams }) => {
      expect(batchGrams).toBe(Math.round(batchGrams));
      return batchGrams / pieceGrams;
    });
    // One mould full, of which the batch makes four but for the steps of the scale.
    for (const each of moulds) {
      expect(each).toBeCloseTo(moulds[0]!, 9);
      expect(Math.abs(each / 4 - 1)).toBeLessThan(0.0025);
    }
  });

  it('are judged by the tolerances in their order, and then by the targets of the file', () => {
    const targets = [{ property: 'strength', min: 3 }];
    const wanted = near(weighing(460), { property: 'water-to-powder', low: 0.7, high: 0.7, tolerance: 0.1, weight: 2 });
    const [first] = standIn(question({ targets }), wanted, NO_DRAWS).ranked;
    expect(first!.assessment.verdicts.map((v) => v.property)).toEqual(['fresh-weight', 'water-to-powder', 'strength']);
    expect(first!.distances.map((d) => d.wanted.property)).toEqual(['fresh-weight', 'water-to-powder']);
    const [one, two] = first!.distances;
    expect(first!.farness).toBeCloseTo(one!.distance + 2 * two!.distance, 12);
  });

  it('are drawn with the seed that is given', () => {
    const chances = (seed?: number) =>
      standIn(question(), near(weighing(590), { property: 'strength', low: 30, high: 40, tolerance: 5, weight: 1 }), {
        draws: 20,
        ...(seed === undefined ? {} : { seed }),
      }).ranked[0]!.assessment.verdicts[1]!.chance;
    expect(chances(7)).toBe(chances(7));
    expect(new Set([1, 2, 3, 4].map(chances)).size).toBeGreaterThan(1);
  });

  it('are refused where no binder is in play', () => {
    const bare = questionOf(['water', 'masonry-sand']);
    expect(codesOf(() => standIn(bare, near(weighing(500)), NO_DRAWS))).toEqual(['brief-contradicts']);
    expect(worldOf(bare).materials).toHaveLength(2);
  });
});
