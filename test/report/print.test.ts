import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PROPERTIES } from '../../src/core/blend/properties/index.js';
import { readLimit } from '../../src/core/brief/read-targets.js';
import { printDifference, printLimit, printProperty, printWindow, significant } from '../../src/core/report/print.js';
import { parseQuantity } from '../../src/core/units/quantity.js';
import { between, property } from '../science/counting.js';

const METRIC = { system: 'metric', currency: 'EUR' } as const;
const US = { system: 'us', currency: 'USD' } as const;

describe('a figure in words', () => {
  it.each([
    ['dry-weight', 1123.4, '1120 g'],
    ['water-to-binder', 0.41849, '0.418'],
    ['flow', 1.0789, '1.1'],
    ['pigment-share', 4.9912, '5.0 %'],
    ['demould-time', 35.2, '35 min'],
    ['demould-time', 1350, '22 h 30 min'],
    ['strength', 14.96, '15 MPa'],
    ['peak-temperature', 73.6, '74 °C'],
    // Below a coin's worth makers compare by parts of a coin.
    ['cost', 0.3281, '0.328 EUR'],
    ['cost', 0.0812, '0.0812 EUR'],
    ['cost', 0.4, '0.40 EUR'],
    ['cost', 3.2814, '3.28 EUR'],
    ['cost', 32.814, '32.81 EUR'],
    ['fresh-volume', 709.2, '709 mL'],
    // Next to nothing, and next to nothing below the line.
    ['capillary-pores', 3e-9, '0 %'],
    ['paste-to-voids', 1.3e6, 'over 100'],
    ['paste-to-voids', 99.6, '100'],
    // Beyond a year, or beyond what any cast reaches, a figure says no more than that.
    ['demould-time', 60 * 24 * 364, '364 days'],
    ['demould-time', 60 * 24 * 366, 'over a year'],
    ['initial-set', 5e8, 'over a year'],
    ['drying-days', 360, '360 days'],
    ['drying-days', 400, 'over a year'],
    ['strength', 200, '200 MPa'],
    ['strength', 2_700_000, 'over 200 MPa'],
  ])('%s %f is %s', (id, value, words) => {
    expect(printProperty(id, value, METRIC)).toBe(words);
  });

  it('is in the maker’s units', () => {
    expect(printProperty('peak-temperature', 60, US)).toBe('140 °F');
    expect(printProperty('strength', 20, US)).toMatch(/psi$/);
    expect(printProperty('dry-weight', 453.59237, US)).toBe('1 lb');
  });

  it('never shows more figures than are known, and never loses a size', () => {
    property(
      fc.tuple(fc.constantFrom(...PROPERTIES), between(0.001, 5000)),
      ([p, value]) => {
        const words = printProperty(p.id, value, METRIC);
        expect(words).not.toMatch(/NaN|undefined|e[+-]\d/);
        if (p.quantity === 'ratio' || p.quantity === 'percent' || p.quantity === 'strength') {
          const shown = Number.parseFloat(words);
          // A kPa or a GPa would be another number; a bare one is the value to its digits.
          if (/^[\d.]+( %| MPa)?$/.test(words) && value >= 0.1) expect(Math.abs(shown / value - 1)).toBeLessThan(0.06);
        }
        return true;
      },
      400,
    );
  });

  it('is a dash where the blend has none', () => {
    expect(printProperty('strength', null, METRIC)).toBe('–');
  });
});

describe('a limit beyond sense', () => {
  it.each([
    ['demould-time', 60 * 24 * 800, '800 days'],
    ['drying-days', 800, '800 days'],
    ['strength', 300, '300 MPa'],
  ] as const)('%s %f is the maker’s own and stands as written', (id, value, words) => {
    expect(printWindow(id, null, value, METRIC)).toBe(`at most ${words}`);
  });
});

describe('a window in words', () => {
  it.each([
    [null, 500, 'at most 500 g'],
    [100, null, 'at least 100 g'],
    [100, 500, '100 g to 500 g'],
    [100, 100, 'exactly 100 g'],
    [null, null, 'any'],
  ])('%s to %s is %s', (min, max, words) => {
    expect(printWindow('dry-weight', min, max, METRIC)).toBe(words);
  });
});

describe('a limit in words, in pounds', () => {
  it.each([3000, 5000, 2250, 725])('is the %i psi that was written', (psi) => {
    const mpa = parseQuantity(`${psi} psi`, 'pressure');
    expect(printLimit(mpa, 'strength', { system: 'us', currency: null })).toBe(`${psi} psi`);
  });
});

describe('a limit in words', () => {
  it.each([
    ['water-to-binder', 0.5, '0.5'],
    ['water-to-binder', 0.4185, '0.4185'],
    ['flow', 1, '1'],
    ['pigment-share', 5, '5 %'],
    ['cost', 0.4, '0.40 EUR'],
    ['cost', 0.3281, '0.328 EUR'],
    ['cost', 2.274, '2.27 EUR'],
    ['cost', 0.0312, '0.0312 EUR'],
    ['cost', 12, '12.00 EUR'],
    ['demould-time', 123, '2 h 3 min'],
    ['working-time', 15, '15 min'],
    ['peak-temperature', 60.5, '60.5 °C'],
    ['strength', 14, '14 MPa'],
    ['dry-weight', 1350, '1350 g'],
  ])('%s %f is %s', (id, value, words) => {
    expect(printWindow(id, null, value, METRIC)).toBe(`at most ${words}`);
  });

  it('reads back as the limit it was, to four figures', () => {
    property(
      fc.tuple(fc.constantFrom(...PROPERTIES), between(0.01, 2000)),
      ([p, value]) => {
        const read = readLimit(printLimit(value, p.quantity, METRIC), p.quantity, METRIC.currency, {});
        // Grams, litres and MPa keep at least three figures.
        expect(Math.abs(read / value - 1), `${p.id} ${value}`).toBeLessThan(6e-3);
        return true;
      },
      400,
    );
  });
});

describe('a difference in words', () => {
  it('of temperatures has no offset', () => {
    expect(printDifference('peak-temperature', 10, METRIC)).toBe('10 °C');
    expect(printDifference('peak-temperature', 10, US)).toBe('18 °F');
    expect(printDifference('dry-weight', 23.4, METRIC)).toBe('23 g');
  });
});

describe('significant figures', () => {
  it('keep nothing and what is no number as they are', () => {
    expect(significant(0, 3)).toBe(0);
    expect(significant(Number.POSITIVE_INFINITY, 3)).toBe(Number.POSITIVE_INFINITY);
    expect(significant(123456, 2)).toBe(120000);
    expect(significant(-0.001234, 2)).toBe(-0.0012);
  });
});
