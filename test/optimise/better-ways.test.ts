import { describe, expect, it } from 'vitest';
import { PROPERTIES } from '../../src/core/blend/properties/index.js';
import { betterWay } from '../../src/core/optimise/preference.js';
import { OBJECTIVES } from '../../src/core/optimise/question.js';

/** Which way a maker calls a property better: what no test looked at before. */

const everyProperty = PROPERTIES.map((p) => p.id);
const wayOf = (way: 'min' | 'max' | null, objective: (typeof OBJECTIVES)[number]) =>
  everyProperty.filter((id) => betterWay(id, objective) === way);

describe('the better way of a property', () => {
  it('is less money, weight, waiting, heat, shrinkage and pores, and more strength and time to work', () => {
    expect(wayOf('max', 'cheapest').sort()).toEqual(['strength', 'strength-at-demould', 'working-time']);
    expect(wayOf('min', 'cheapest').sort()).toEqual([
      'capillary-pores',
      'cost',
      'demould-time',
      'demould-weight',
      'dry-weight',
      'drying-days',
      'drying-shrinkage',
      'fresh-density',
      'fresh-weight',
      'likely-peak',
      'peak-temperature',
    ]);
  });

  it('is none for what has to fit, such as flow and ratios', () => {
    for (const id of ['flow', 'water-to-binder', 'sand-to-binder', 'paste-to-voids', 'fresh-volume']) {
      expect(betterWay(id, 'cheapest'), id).toBeNull();
    }
    expect(betterWay('no-such-property', 'cheapest')).toBeNull();
  });

  it('is the objective’s own for its property, and no other for the rest', () => {
    expect(betterWay('dry-weight', 'heaviest')).toBe('max');
    expect(betterWay('dry-weight', 'lightest')).toBe('min');
    for (const objective of OBJECTIVES) {
      for (const id of everyProperty) {
        if (id === 'dry-weight') continue;
        expect(betterWay(id, objective), `${id}, ${objective}`).toBe(betterWay(id, 'cheapest'));
      }
    }
  });
});
