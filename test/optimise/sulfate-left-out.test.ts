import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import type { Material } from '../../src/core/materials/schema.js';
import { propose } from '../../src/core/optimise/propose.js';
import { sulfateOutcome } from '../../src/core/safety/sulfate-outcome.js';
import { handFigure } from '../support/hand-figure.js';
import { questionOf } from '../support/hand-question.js';
import { material } from '../support/shipped-table.js';

/** A maker's own gypsum powder, the cheapest thing on the shelf and without a dose window. Prices are invented. */
const GYPSUM: Material = {
  ...material('limestone-flour'),
  id: 'gypsum-powder',
  name: 'gypsum powder',
  so3: handFigure(46.5),
  tags: ['soluble-sulfate', 'set-gypsum'],
};
const CEMENT = material('portland-cement-grey');
const SAND = material('silica-sand-fine');
const WATER = material('water');

const question = questionOf([], {
  conditions: { ...DEFAULT_CONDITIONS, volume: 300, service: 'wet' },
  materials: [WATER, CEMENT, SAND, GYPSUM],
  prices: new Map([
    [CEMENT.id, 0.002],
    [SAND.id, 0.004],
    [GYPSUM.id, 0.0001],
  ]),
});

describe('sulfate beside portland', () => {
  it('is in no proposal that did not ask for it, however cheap', () => {
    const { ingredients } = propose(question, { draws: 0 });
    expect(ingredients.map((i) => i.material)).toContain(CEMENT.id);
    expect(ingredients.map((i) => i.material)).not.toContain(GYPSUM.id);
  });

  it('is what the maker asked for', () => {
    const doses = [{ material: GYPSUM.id, percent: 2, of: 'portland' as const }];
    const { ingredients } = propose({ ...question, doses }, { draws: 0 });
    const parts = ingredients.map((i) => ({
      material: question.materials.find((m) => m.id === i.material)!,
      grams: i.pieceGrams,
    }));
    expect(ingredients.map((i) => i.material)).toContain(GYPSUM.id);
    expect(sulfateOutcome(parts, question.conditions, [])!.so3).toBeCloseTo(2.8 + 0.93, 1);
  });
});
