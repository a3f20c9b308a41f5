import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unmarked } from '../../src/core/problems/marks.js';
import { explain } from '../../src/core/problems/words.js';
import { problemResult } from '../../src/core/report/problem-result.js';
import { inBoth, inUnits, problemIn, withUs, wordsIn } from '../../src/core/units/marked.js';
import { quantitiesOf } from '../support/quantities.js';

describe('marked quantities', () => {
  it.each([
    ['dry it at ⟦35 to 40 °C⟧ at most', 'dry it at 35 to 40 °C at most', 'dry it at 95 to 104 °F at most'],
    ['⟦60 or 70 °C⟧', '60 or 70 °C', '140 or 158 °F'],
    ['⟦-5 to 0 °C⟧', '-5 to 0 °C', '23 to 32 °F'],
    ['from ⟦36.6 °C⟧', 'from 36.6 °C', 'from 97.9 °F'],
    ['up to ⟦22 °C⟧', 'up to 22 °C', 'up to 72 °F'],
    ['⟦2.47 kg⟧', '2.47 kg', '5 lb 7.1 oz'],
    ['⟦5 to 10 g⟧', '5 to 10 g', '0.176 to 0.353 oz'],
    ['⟦20 to 900 g⟧', '20 to 900 g', '0.705 oz to 1 lb 15.7 oz'],
    ['⟦0.5 to 2 kg⟧', '0.5 to 2 kg', '1 lb 1.6 oz to 4 lb 6.5 oz'],
    ['⟦250 mL⟧', '250 mL', '8.45 fl oz'],
    ['⟦250 cm³⟧', '250 cm³', '8.45 fl oz'],
    ['⟦1.2 cm⟧', '1.2 cm', '0.47 in'],
    ['⟦100 mm⟧', '100 mm', '3.94 in'],
    ['⟦2.4 g/cm3⟧', '2.4 g/cm3', '150 lb/ft3'],
    ['⟦15 MPa⟧', '15 MPa', '2200 psi'],
    ['⟦1 mm a metre|1/8 in in 10 ft⟧', '1 mm a metre', '1/8 in in 10 ft'],
    // A difference has no offset: the US words are written out.
    ['warmer by ⟦10 °C|18 °F⟧', 'warmer by 10 °C', 'warmer by 18 °F'],
    // The same in both systems.
    ['⟦3 days⟧, ⟦5 %⟧', '3 days, 5 %', '3 days, 5 %'],
    // Unmarked: the figures of a law or a standard.
    ['at most 2 mg/kg at ⟦20 °C⟧', 'at most 2 mg/kg at 20 °C', 'at most 2 mg/kg at 68 °F'],
    // What is no quantity loses its marks and nothing else.
    ['⟦⟧ ⟦hot⟧ ⟦1.2.3 g⟧ ⟦5 furlongs⟧ ⟦', ' hot 1.2.3 g 5 furlongs ⟦', ' hot 1.2.3 g 5 furlongs ⟦'],
  ])('%s', (marked, metric, us) => {
    expect(unmarked(marked)).toBe(metric);
    expect(wordsIn(marked, 'metric')).toBe(metric);
    expect(wordsIn(marked, 'us')).toBe(us);
  });

  it('say the same quantity in both systems, whatever its size', () => {
    const units = ['g', 'kg', 'mL', 'mm', 'cm', '°C', 'MPa', 'g/cm3'] as const;
    let seen = 0;
    const figure = fc.tuple(fc.integer({ min: 1, max: 99_999 }), fc.integer({ min: 0, max: 3 }));
    fc.assert(
      fc.property(fc.array(figure, { minLength: 1, maxLength: 3 }), fc.constantFrom(...units), (figures, unit) => {
        const written = figures.map(([n, places]) => (n / 10 ** places).toFixed(places)).join(' to ');
        const marked = `about ⟦${written} ${unit}⟧ at most`;
        const metric = quantitiesOf(wordsIn(marked, 'metric'));
        const us = quantitiesOf(wordsIn(marked, 'us'));
        expect(metric.quantities).toHaveLength(figures.length);
        expect(us.quantities).toHaveLength(figures.length);
        for (const [i, { value, half }] of us.quantities.entries()) {
          const there = metric.quantities[i]!.value;
          // Two figures at least: half of the second is 5 % of a number that begins with 1.
          const most = unit === '°C' ? half : Math.max(half, 0.05 * there);
          expect(Math.abs(value - there), `${wordsIn(marked, 'us')} for ${written} ${unit}`).toBeLessThanOrEqual(
            most + 1e-9 * Math.abs(there),
          );
        }
        seen += figures.length;
      }),
      { numRuns: 2000, seed: 7 },
    );
    expect(seen).toBeGreaterThan(3000);
  });
});

describe('results in both systems', () => {
  it('have the US words beside the metric ones, and only those that differ', () => {
    expect(inBoth({ id: 'hot' }, { title: 'Hot', text: 'at ⟦45 °C⟧' })).toEqual({
      id: 'hot',
      title: 'Hot',
      text: 'at 45 °C',
      us: { text: 'at 113 °F' },
    });
    expect(inBoth({}, { text: 'for ⟦3 days⟧, ⟦5 %⟧' })).toEqual({ text: 'for 3 days, 5 %' });
  });

  it('work the US words out when they are asked for, once', () => {
    let asked = 0;
    const result = withUs({ text: 'at 45 °C' }, () => ({ text: `at ${112 + ++asked} °F` }));
    expect([result.text, asked]).toEqual(['at 45 °C', 0]);
    expect(JSON.parse(JSON.stringify(result))).toEqual({ text: 'at 45 °C', us: { text: 'at 113 °F' } });
    expect([structuredClone(result).us, asked]).toEqual([{ text: 'at 113 °F' }, 1]);
  });

  it('take them in place of the metric ones where US units are asked for, at any depth', () => {
    const result = { grams: 5, risks: [inBoth({ models: ['m'] }, { text: 'at ⟦45 °C⟧' })], none: null };
    expect(inUnits(result, 'metric')).toBe(result);
    const us = inUnits(result, 'us');
    expect(us).toEqual({ grams: 5, risks: [{ text: 'at 113 °F', models: ['m'] }], none: null });
    expect(inUnits(us, 'us')).toEqual(us);
  });

  it('problems follow too, and are told in metric by themselves', () => {
    const problem = {
      code: 'mould-unfilled',
      severity: 'warning',
      found: 'a mix of ⟦190 mL⟧ for a mould of ⟦250 mL⟧',
      expected: '⟦1 to 45 °C⟧',
      hint: 'weigh ⟦5 g⟧ more',
    } as const;
    const metric =
      'What can be weighed out does not fill the mould just so: found “a mix of 190 mL for a mould of 250 mL”, expected 1 to 45 °C. Weigh 5 g more.';
    const us =
      'What can be weighed out does not fill the mould just so: found “a mix of 6.42 fl oz for a mould of 8.45 fl oz”, expected 34 to 113 °F. Weigh 0.176 oz more.';
    expect(explain(problem)).toBe(metric);
    expect(explain(problemIn(problem, 'us'))).toBe(us);
    expect(problemResult(problem)).toMatchObject({ message: metric, us: { message: us } });
    expect(problemResult({ code: 'usage', severity: 'error' })).not.toHaveProperty('us');
  });
});
