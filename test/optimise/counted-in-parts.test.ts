import { describe, expect, it } from 'vitest';
import { AIMS } from '../../src/core/optimise/objective.js';
import { inWholeParts } from '../../src/core/optimise/parts.js';
import type { Question } from '../../src/core/optimise/question.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { questionOf } from '../support/hand-question.js';
import { heavy, holdsParts, inParts, MORTAR } from '../support/in-parts.js';
import { systemOf } from '../support/small-shelf.js';

describe('what is counted out in parts', () => {
  it.each(['portland-cement-white', 'hydrated-lime', 'silica-fume', 'limestone-flour', 'masonry-sand', 'perlite'])(
    'is %s beside cement: as much of it as may be, in whole parts',
    (id) => {
      const prices = new Map([
        ['portland-cement-grey', 0.001],
        [id, 0.00001],
      ]);
      const question = questionOf(['water', 'portland-cement-grey', id], {
        prices,
        targets: [{ property: 'strength', min: 15 }],
      });
      const { exact, blend } = inParts(question, { by: 'mass', most: 4 });
      expect(exact.grams[2]).toBeGreaterThan(0);
      const grams = blend!.answer.grams;
      const counted = blend!.parts.find((p) => p.material === 2)?.parts ?? 0;
      // In parts, or not at all where so few parts of cement leave no room for any.
      if (counted === 0) expect(grams[2]).toBe(0);
      else holdsParts(blend!, grams, [1, 1, 1]);
    },
  );

  it('is plaster', () => {
    const { blend } = inParts(questionOf(['water', 'casting-plaster']), { by: 'mass', most: 4 }, 'gypsum');
    expect(blend!.parts).toEqual([{ material: 1, parts: 1 }]);
  });
});

describe('what is not counted out in parts', () => {
  it('is water, an admixture, and a dose that was asked for: they are weighed as they come', () => {
    const doses = [{ material: 'limestone-flour', percent: 10, of: 'binder' }] as const;
    const ids = [...MORTAR, 'limestone-flour', 'plasticiser-powder'];
    const question = heavy(690, { doses }, ids);
    const { exact, blend } = inParts(question, { by: 'mass', most: 5 });
    expect(exact.grams[3]).toBeGreaterThan(0);
    expect(exact.grams[4]).toBeGreaterThan(0);
    expect(blend!.parts.map((p) => p.material).sort()).toEqual([1, 2]);
    // Each on a knob of its own; what is in parts shares the first.
    const knobs = blend!.knobs(blend!.answer.grams);
    expect(knobs.map((k) => k.perStep.map(([i]) => i).sort())).toEqual([[1, 2], [0], [3], [4]]);
    const filler = heavy(690, {}, ids);
    const counted = inParts(filler, { by: 'mass', most: 5 });
    expect(counted.exact.grams[3]! > 0).toBe(counted.blend!.parts.some((p) => p.material === 3));
  });

  it('is by scoop what has no loose density', () => {
    const bare = (id: string): Question => {
      const question = heavy(650);
      const without = ({ bulkDensity: _none, ...m }: Question['materials'][number]) => m;
      return { ...question, materials: question.materials.map((m) => (m.id === id ? without(m) : m)) };
    };
    const { blend } = inParts(bare('masonry-sand'), { by: 'scoop', most: 5 });
    expect(blend!.parts).toEqual([{ material: 1, parts: 1 }]);
    // By mass it is.
    expect(inParts(bare('masonry-sand'), { by: 'mass', most: 5 }).blend!.parts).toHaveLength(2);
  });

  it('leaves nothing to count of a blend without bulk', () => {
    const question = questionOf(MORTAR);
    const { exact, world } = inParts(question, { by: 'mass', most: 5 });
    const water: Settled = { ...exact, grams: [300, 0, 0] };
    const aim = AIMS.cheapest;
    expect(inWholeParts(question, world, systemOf('portland'), water, aim, { by: 'mass', most: 5 })).toBeNull();
  });
});
