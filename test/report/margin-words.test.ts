import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PROPERTIES } from '../../src/core/blend/properties/index.js';
import { verdictOf } from '../../src/core/blend/target.js';
import { readLimit } from '../../src/core/brief/read-targets.js';
import { marginWords, printBeside, printMargin } from '../../src/core/report/margin-words.js';
import { printLimit, printProperty } from '../../src/core/report/print.js';
import { printWanted } from '../../src/core/report/stand-in-words.js';
import { convert } from '../../src/core/units/quantity.js';
import { between, property } from '../science/counting.js';

const METRIC = { system: 'metric', currency: 'EUR' } as const;
const US = { system: 'us', currency: 'USD' } as const;
const psi = (n: number): number => convert(n, 'psi', 'MPa');
const oz = (n: number): number => convert(n, 'oz', 'g');

describe('a margin', () => {
  it.each([
    ['strength', 0.0065, psi(2177), US, 'less than 100 psi'],
    ['strength', psi(4872), psi(930), US, '4900 psi'],
    ['strength', 0.094, 15.09, METRIC, 'less than 1 MPa'],
    ['strength', 34, 6.4, METRIC, '34 MPa'],
    ['dry-weight', 0.062, 500.06, METRIC, 'less than 1 g'],
    ['dry-weight', 1.9, 258.1, METRIC, '2 g'],
    ['dry-weight', 217, 1133, METRIC, '220 g'],
    ['dry-weight', oz(0.00219), oz(17.64), US, 'less than 0.1 oz'],
    ['dry-weight', oz(7.76), oz(39.9), US, '7.8 oz'],
    ['working-time', 3.2, 11, METRIC, '3 min'],
    ['working-time', 1.2, 9.2, METRIC, '1.2 min'],
    ['demould-time', 20, 46.5 * 60, METRIC, 'less than 30 min'],
    ['demould-time', 95, 46.5 * 60, METRIC, '90 min'],
    ['drying-days', 0.4, 14, METRIC, 'less than 24 h'],
    ['drying-days', 3.3, 14, METRIC, '3 days'],
    ['water-to-binder', 0.0012, 0.4988, METRIC, '0.001'],
    ['water-to-binder', 0.084, 0.416, METRIC, '0.084'],
    ['pigment-share', 5, 0, METRIC, '5.0 %'],
    ['peak-temperature', 0.6, 59.4, METRIC, 'less than 1 °C'],
    ['peak-temperature', 5.2, 54.8, METRIC, '5 °C'],
    ['peak-temperature', 5, 55, US, '9 °F'],
    ['peak-temperature', 0.6, 59.4, US, 'less than 2 °F'],
    ['cost', 0.003, 0.397, METRIC, 'less than 0.01 EUR'],
    ['cost', 0.7, 0.5, METRIC, '0.70 EUR'],
  ] as const)('of %s, %f of %f, is told no finer than its value: %s', (id, margin, value, wording, words) => {
    expect(printMargin(id, margin, value, wording)).toBe(words);
  });
});

const told = (id: string, value: number, sides: { min?: number; max?: number }, wording: typeof US | typeof METRIC) => {
  const verdict = verdictOf({ property: id, ...sides }, value, null);
  return [printBeside(verdict, null, wording), marginWords(verdict, wording)];
};

describe('a value beside its limit', () => {
  it.each([
    // Of 2200 psi nobody knows 0.94 psi.
    ['strength', psi(2176.5), { min: psi(2175.6) }, US, ['2200 psi', 'just met']],
    // Rounded it would stand on the other side of the limit.
    ['strength', psi(2170), { min: psi(2176) }, US, ['2170 psi', 'by 6 psi']],
    ['strength', psi(2125), { min: psi(2120) }, US, ['2125 psi', 'just met']],
    ['strength', 10.42, { min: 10.4 }, METRIC, ['10.42 MPa', 'just met']],
    ['dry-weight', 500.062, { max: 500 }, METRIC, ['500.06 g', 'by 0.06 g']],
    ['dry-weight', oz(15.154), { max: oz(15.17) }, US, ['15.15 oz', 'just met']],
    ['initial-set', 122.1, { min: 122 }, METRIC, ['2 h 2 min', 'just met']],
    ['cost', 0.4, { max: 0.4 }, METRIC, ['0.40 EUR', 'just met']],
    ['cost', 0.1221, { max: 0.122 }, METRIC, ['0.1221 EUR', 'by 0.0001 EUR']],
    ['pigment-share', 0, { max: 0 }, METRIC, ['0 %', 'just met']],
    // A miss is a figure, however small.
    ['flow', 1.1205, { max: 1.12 }, METRIC, ['1.1205', 'by 0.0005']],
    ['dry-weight', 399.987, { min: 400, max: 400 }, METRIC, ['399.99 g', 'by 0.01 g']],
    ['water-to-binder', 0.678, { max: 0.55 }, METRIC, ['0.678', 'by 0.13']],
    ['demould-time', 46, { max: 60 }, METRIC, ['46 min', '14 min to spare']],
  ] as const)('%s of %f, wanted %o', (id, value, sides, wording, words) => {
    expect(told(id, value, sides, wording)).toEqual(words);
  });

  it('never contradicts it, and is never told coarser than its margin', () => {
    property(
      fc.tuple(fc.constantFrom(...PROPERTIES), between(0.05, 3000), between(-0.3, 0.3), fc.boolean(), fc.boolean()),
      ([p, limit, off, least, us]) => {
        const wording = us ? US : METRIC;
        const value = limit * (1 + off ** 3);
        const verdict = verdictOf({ property: p.id, [least ? 'min' : 'max']: limit }, value, null);
        const read = (words: string): number => readLimit(words, p.quantity, wording.currency, {});
        const [has, wanted] = [printBeside(verdict, null, wording), printLimit(limit, p.quantity, wording)];
        if (has.startsWith('over')) return false;
        const gap = read(has) - read(wanted);
        // A limit is kept or missed in print as it is by the blend, if only by a hair of reading back.
        if (verdict.met === least)
          expect(gap, `${p.id} ${has}, wanted ${wanted}`).toBeGreaterThanOrEqual(-1e-6 * limit);
        else expect(gap, `${p.id} ${has}, wanted ${wanted}`).toBeLessThanOrEqual(1e-6 * limit);
        const words = marginWords(verdict, wording);
        expect(words).toMatch(verdict.met ? /^just met$| to spare$/ : /^by /);
        expect(words).not.toMatch(/ 0(\.0+)? /);
        // Zeros at the end are kept of ratios and percents alone, so that decimals can be counted.
        if (p.quantity !== 'ratio' && p.quantity !== 'percent') return true;
        // A narrow miss has as many figures as show it.
        if (!verdict.met && Math.abs(verdict.margin!) < 0.03 * limit) return true;
        const decimals = (text: string): number => /\.(\d+)/.exec(text)?.[1]?.length ?? 0;
        expect(decimals(words), `${has}, ${words}`).toBeLessThanOrEqual(decimals(printProperty(p.id, value, wording)));
        return true;
      },
      2000,
    );
  });
});

describe('a limit', () => {
  it.each([
    [245.5, 'mass', METRIC, '245.5 g'],
    [oz(5), 'mass', US, '5 oz'],
    [1.234, 'density', METRIC, '1.234 g/cm3'],
    [psi(3000), 'strength', METRIC, '20.68 MPa'],
    [1234.5, 'volume', METRIC, '1235 mL'],
  ] as const)('of %f is printed as it was given, to four figures', (value, quantity, wording, words) => {
    expect(printLimit(value, quantity, wording)).toBe(words);
  });

  it('that only follows from a description has three', () => {
    expect(printWanted({ property: 'dry-weight', low: 776.23, high: 776.23 }, METRIC)).toBe('just 776 g');
    expect(printWanted({ property: 'dry-weight', low: 776.23, high: 776.23 }, US)).toBe('just 1 lb 11.4 oz');
    expect(printWanted({ property: 'strength', low: psi(2176), high: null }, US)).toBe('at least 2180 psi');
    expect(printWanted({ property: 'cost', low: null, high: 1.31 }, METRIC)).toBe('at most 1.31 EUR');
  });
});
