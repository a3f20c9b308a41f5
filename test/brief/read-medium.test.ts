import { describe, expect, it } from 'vitest';
import { DESCRIBED, mediumSchema } from '../../src/core/brief/medium-schema.js';
import { HARDNESS } from '../../src/core/brief/medium-wanted.js';
import { readMedium } from '../../src/core/brief/read-medium.js';
import { InputProblems, type Problem } from '../../src/core/problems/problem.js';
import { explain } from '../../src/core/problems/words.js';
import { shelfOf, shopWith } from '../support/bench-shelf.js';

const shelf = shelfOf(shopWith({}));

const GOOD = {
  mix: { powder: '1 kg', liquid: '380 mL' },
  sample: { volume: '250 mL', demoulded: '462 g', dry: '398 g' },
  'working-time': '8 min',
  'demould-time': '45 min',
  hardness: 'hard',
  price: '95.00 EUR per 25 kg',
  mould: { water: '500 mL' },
};

const read = (written: object, from = shelf) => readMedium(mediumSchema.parse(written), from, (path) => ({ path }));

const problemsOf = (written: object, from = shelf): readonly Problem[] => {
  try {
    read(written, from);
  } catch (error) {
    if (error instanceof InputProblems) return error.problems;
    throw error;
  }
  return [];
};

describe('the description of a medium', () => {
  it('becomes wanted values for the piece, each with its tolerance', () => {
    const { closeness, question } = read(GOOD);
    expect(question.conditions.volume).toBe(500);
    const wanted = Object.fromEntries(closeness.wanted.map((w) => [w.property, w]));
    // Twice the sample's volume: twice its weights.
    expect(wanted['demould-weight']).toMatchObject({ low: 924, high: 924, weight: 1 });
    expect(wanted['demould-weight']!.tolerance).toBeCloseTo(0.03 * 924, 9);
    expect(wanted['dry-weight']).toMatchObject({ low: 796, high: 796 });
    expect(wanted['water-to-powder']!.low).toBeCloseTo(0.38, 9);
    expect(wanted['working-time']).toMatchObject({ low: 8, tolerance: 2 });
    expect(wanted['working-time']!.high).toBeUndefined();
    expect(wanted['demould-time']).toMatchObject({ high: 45 });
    expect(wanted['demould-time']!.low).toBeUndefined();
    expect(wanted['strength']).toMatchObject(HARDNESS.hard);
    // 924 g of wet piece hold 924/1.38 g of powder at 95/25000 a gram.
    expect(wanted['cost']!.high).toBeCloseTo(((924 / 1.38) * 95) / 25000, 9);
    expect(wanted['polymer-share']).toBeUndefined();
  });

  it('takes other units, other tolerances and what each counts for', () => {
    const { closeness, question } = read({
      mix: { powder: 100, liquid: 38 },
      sample: { volume: '8.45 fl oz', demoulded: '1 lb' },
      'demould-time': { min: '0.5 h', max: '1 h' },
      within: { 'demould-weight': '10 g', 'demould-time': '12 min', 'water-to-powder': '10 %' },
      counts: { 'demould-weight': 2 },
    });
    const wanted = Object.fromEntries(closeness.wanted.map((w) => [w.property, w]));
    expect(question.conditions.volume).toBeCloseTo(8.45 * 29.5735, 2);
    expect(wanted['demould-weight']).toMatchObject({ tolerance: 10, weight: 2 });
    expect(wanted['demould-weight']!.low).toBeCloseTo(453.592, 2);
    expect(wanted['demould-time']).toMatchObject({ low: 30, high: 60, tolerance: 12 });
    expect(wanted['water-to-powder']!.tolerance).toBeCloseTo(0.038, 12);
  });

  it('puts polymers in play only for an acrylic liquid', () => {
    const has = (written: object) => read(written).question.materials.some((m) => m.id === 'acrylic-emulsion');
    expect(has(GOOD)).toBe(false);
    const acrylic = { ...GOOD.mix, 'liquid-is': 'acrylic', 'left-when-dry': '25 %' };
    expect(has({ ...GOOD, mix: acrylic })).toBe(true);
    expect(has({ ...GOOD, mix: acrylic, materials: { never: ['acrylic-emulsion'] } })).toBe(false);
  });

  it.each([
    [
      'a dry piece heavier than the wet one',
      { sample: { volume: '250 mL', demoulded: '400 g', dry: '420 g' } },
      'target-contradicts',
      'sample.dry',
    ],
    [
      'an acrylic liquid of which nothing is known',
      { mix: { powder: '100 g', liquid: '36 g', 'liquid-is': 'acrylic' } },
      'field-missing',
      'mix.left-when-dry',
    ],
    [
      'an acrylic liquid that is a solid',
      { mix: { powder: '100 g', liquid: '36 g', 'liquid-is': 'acrylic', 'left-when-dry': '95 %' } },
      'field-out-of-range',
      'mix.left-when-dry',
    ],
    [
      'water that leaves something behind',
      { mix: { powder: '100 g', liquid: '36 g', 'left-when-dry': '20 %' } },
      'brief-contradicts',
      'mix.left-when-dry',
    ],
    ['a polymer-modified gypsum mixed with water', { kind: 'polymer-gypsum' }, 'brief-contradicts', 'mix.liquid-is'],
    [
      'a price without a weight to reckon from',
      { sample: undefined, mould: { water: '500 mL' } },
      'field-missing',
      'mix',
    ],
    ['a price in another currency', { price: '95.00 USD per 25 kg' }, 'currency-mixed', 'price'],
    ['a price of powder by volume', { price: '95.00 EUR per 25 L' }, 'material-density-missing', 'price'],
    [
      'a time window upside down',
      { 'demould-time': { min: '1 h', max: '30 min' } },
      'target-contradicts',
      'demould-time',
    ],
    ['an empty time window', { 'demould-time': {} }, 'field-missing', 'demould-time'],
    ['a tolerance of nothing', { within: { 'dry-weight': '0 g' } }, 'field-out-of-range', 'within.dry-weight'],
    [
      'a tolerance that lets all of it go',
      { within: { 'working-time': '8 min' } },
      'field-out-of-range',
      'within.working-time',
    ],
    ['a tolerance in the wrong unit', { within: { 'dry-weight': '3 min' } }, 'unit-wrong-kind', 'within.dry-weight'],
    ['powder by volume', { mix: { powder: '1 L', liquid: '380 mL' } }, 'unit-wrong-kind', 'mix.powder'],
  ])('refuses %s, with its place', (_name, change, code, path) => {
    const problems = problemsOf({ ...GOOD, ...change });
    expect(problems.map((p) => `${p.code} ${p.where?.path}`)).toContain(`${code} ${path}`);
    for (const problem of problems) expect(explain(problem).length).toBeGreaterThan(20);
  });

  it('refuses a description of nothing, and one without a volume', () => {
    expect(problemsOf({ mould: { water: '500 mL' } }).map((p) => p.where?.path)).toContain('sample');
    expect(problemsOf({ hardness: 'hard' }).map((p) => p.where?.path)).toContain('mould');
  });

  it('asks for a price list where the price counts', () => {
    const bare = { ...shelf, prices: new Map<string, number>() };
    expect(problemsOf(GOOD, bare).map((p) => p.code)).toEqual(['price-list-missing']);
    const { price: _price, ...without } = GOOD;
    expect(problemsOf(without, bare)).toEqual([]);
  });

  it('gathers all that is wrong at once', () => {
    const problems = problemsOf({ ...GOOD, kind: 'polymer-gypsum', price: 'dear', within: { cost: '0' } });
    expect(new Set(problems.map((p) => p.where?.path))).toEqual(new Set(['mix.liquid-is', 'price']));
  });

  it('warns of weights that no such mix could have', () => {
    const codes = (sample: object, mix: object = GOOD.mix) =>
      read({ ...GOOD, mix, sample }).warnings.map((w) => `${w.severity} ${w.where?.path}`);
    expect(codes(GOOD.sample)).toEqual([]);
    // 462 g of wet piece hold 335 g of powder: a dry piece of 300 g has lost some of it.
    expect(codes({ ...GOOD.sample, dry: '300 g' })).toEqual(['warning sample.dry']);
    expect(codes({ ...GOOD.sample, dry: '460 g' })).toEqual(['warning sample.dry']);
    expect(codes({ volume: '250 mL', demoulded: '600 g', dry: '520 g' })).toEqual(['warning sample.demoulded']);
    expect(codes({ volume: '250 mL', demoulded: '260 g', dry: '224 g' })).toEqual(['warning sample.demoulded']);
  });

  it('describes media by properties that exist', () => {
    expect(new Set(DESCRIBED).size).toBe(DESCRIBED.length);
  });
});
