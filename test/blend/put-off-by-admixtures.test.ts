import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/core/blend/assess.js';
import { type Conditions, DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { worldOf } from '../../src/core/blend/world.js';
import { propose } from '../../src/core/optimise/propose.js';
import { questionOf } from '../support/hand-question.js';
import { material, model } from '../support/shipped-table.js';

/**
 * A retarder puts hydration off and cures nothing (retarders lengthen the dormant period and leave what follows much as it
 * was: Taylor, Cement Chemistry, from memory); what is kept covered goes by the binders, without a step.
 */

const look = (parts: Readonly<Record<string, number>>, more: Partial<Conditions> = {}) => {
  const input = {
    materials: Object.keys(parts).map(material),
    figures: model,
    conditions: { ...DEFAULT_CONDITIONS, ...more },
  };
  const { state, value } = evaluate(worldOf(input), Object.values(parts));
  return { state, of: (id: string): number => value(propertyById(id)!)! };
};
const mortar = (retarder: number) => ({
  'portland-cement-grey': 300,
  water: 140,
  'concrete-sand': 500,
  'sodium-gluconate': retarder,
});

describe('a retarder in a cement', () => {
  it('adds no strength by the days it adds in the mould, covered or not', () => {
    for (const coverDays of [null, 0, 3]) {
      const strengths = [0, 0.3, 0.6, 0.9].map((g) => look(mortar(g), { coverDays }).of('strength'));
      strengths.slice(1).forEach((s, i) => {
        expect(s, `${coverDays}`).toBeLessThanOrEqual(strengths[i]! * (1 + 1e-9));
      });
    }
    expect(look(mortar(0.9)).of('demould-time')).toBeGreaterThan(2 * look(mortar(0)).of('demould-time'));
  });

  it('leaves the strength at demoulding what it was, later, but for what it costs itself', () => {
    const { of } = look(mortar(0.6));
    const plain = look(mortar(0));
    const own = of('strength') / plain.of('strength');
    const atDemould = of('strength-at-demould') / plain.of('strength-at-demould');
    expect(of('demould-time') / plain.of('demould-time')).toBeGreaterThan(1.5);
    expect(Math.abs(atDemould - own)).toBeLessThan(0.03);
  });

  it('leaves one that never sets without strength at its age', () => {
    const { of } = look(mortar(30));
    expect(of('demould-time')).toBeGreaterThan(60 * 24 * 365);
    expect(of('strength')).toBeLessThan(0.5);
  });

  it('is not proposed to make a piece stronger', () => {
    const shelf = [
      'water',
      'portland-cement-grey',
      'concrete-sand',
      'citric-acid',
      'sodium-gluconate',
      'sodium-citrate',
    ];
    const question = questionOf(shelf, { objective: 'strongest' });
    const { ingredients } = propose(
      { ...question, conditions: { ...question.conditions, service: 'damp' } },
      { draws: 0 },
    );
    expect(ingredients.map((i) => i.material).filter((id) => shelf.indexOf(id) > 2)).toEqual([]);
  });
});

describe('days under cover where the maker says nothing', () => {
  const begins = (parts: Record<string, number>) => {
    const { state } = look(parts);
    return (state.water.dryFromHours - state.water.demouldHours) / 24;
  };
  const mixed = (plaster: number, acid = 0) => ({
    'portland-cement-grey': 300 - plaster,
    'casting-plaster': plaster,
    water: 150,
    'citric-acid': acid,
  });

  it('go from none for plaster to three for portland without a step', () => {
    expect(begins(mixed(300))).toBe(0);
    expect(begins(mixed(0))).toBeCloseTo(3, 9);
    const along = Array.from({ length: 1501 }, (_, k) => begins(mixed(0.1 * k)));
    along.slice(1).forEach((days, k) => {
      expect(days).toBeLessThanOrEqual(along[k]! + 1e-9);
      expect(along[k]! - days).toBeLessThan(0.05);
    });
    expect(along.some((days) => days > 1 && days < 2)).toBe(true);
  });

  it('are not had by a retarder', () => {
    expect(look(mixed(150, 0.6)).of('demould-time')).toBeGreaterThan(2 * look(mixed(150)).of('demould-time'));
    expect(begins(mixed(150, 0.6))).toBeCloseTo(begins(mixed(150)), 9);
  });
});
