import { describe, expect, it } from 'vitest';
import { convert, parseQuantity } from '../../src/core/units/quantity.js';

describe('definitions of NIST Handbook 44, Appendix C', () => {
  // Exact by definition there; compared without any slack.
  const exact: readonly (readonly [string, string, number])[] = [
    ['1 gal', 'volume', 3785.411784],
    ['231 in3', 'volume', 3785.411784],
    ['1 in3', 'volume', 16.387064],
    ['1 qt', 'volume', 946.352946],
    ['1 pint', 'volume', 473.176473],
    ['1 cup', 'volume', 236.5882365],
    ['8 fl oz', 'volume', 236.5882365],
    ['1 fl oz', 'volume', 29.5735295625],
    ['2 tbsp', 'volume', 29.5735295625],
    ['6 tsp', 'volume', 29.5735295625],
    ['1 ft3', 'volume', 28316.846592],
    ['1 yd3', 'volume', 764554.857984],
    ['1 lb', 'mass', 453.59237],
    ['1 oz', 'mass', 28.349523125],
    ['1 short ton', 'mass', 907184.74],
    ['1 long ton', 'mass', 1016046.9088],
    ['1 stone', 'mass', 6350.29318],
    ['1 in', 'length', 2.54],
    ['1 ft', 'length', 30.48],
    ['1 yd', 'length', 91.44],
  ];
  it.each(exact)('%s is exact', (text, kind, value) => {
    expect(parseQuantity(text, kind as 'mass')).toBe(value);
  });

  it('gives the rounded figures printed there: 7.481 gal to the cubic foot, 0.765 m3 to the cubic yard, cup 237 mL', () => {
    expect(convert(1, 'ft3', 'gal').toFixed(3)).toBe('7.481');
    expect(convert(1, 'yd3', 'm3').toFixed(3)).toBe('0.765');
    expect(convert(1, 'cup', 'mL').toFixed(0)).toBe('237');
  });
});

describe('imperial measures', () => {
  // UK Weights and Measures Act 1985, Schedule 1: the gallon is 4.54609 cubic decimetres exactly. Cited from memory.
  it('fits the gallon of 4.54609 L: 8 pints, 4 quarts, 160 fluid ounces', () => {
    for (const text of ['1 imp gal', '8 imp pints', '4 imp qt', '160 imp fl oz'])
      expect(parseQuantity(text, 'volume')).toBe(4546.09);
  });
});

describe('temperature', () => {
  // Fixed points by the definition of the Celsius and Fahrenheit scales (SI Brochure, 9th ed.; -40 is common to both).
  it.each([
    ['32 °F', 0],
    ['212 °F', 100],
    ['-40 °F', -40],
    ['98.6 F', 37],
    ['68 degrees F', 20],
    ['273.15 K', 0],
    ['0 K', -273.15],
    ['-459.67 °F', -273.15],
    ['20 °C', 20],
    ['−5 ℃', -5],
  ])('%s', (text, celsius) => {
    expect(parseQuantity(text, 'temperature')).toBe(celsius);
  });

  it('knows no temperature below absolute zero', () => {
    expect(() => parseQuantity('-274 °C', 'temperature')).toThrow(/field-out-of-range/);
    expect(() => parseQuantity('-460 °F', 'temperature')).toThrow(/field-out-of-range/);
  });
});

describe('density and strength', () => {
  it('1 lb/ft3 is 16.01846337 kg/m3 (from the exact pound and foot)', () => {
    expect(parseQuantity('1 lb/ft3', 'density') * 1000).toBeCloseTo(16.01846337, 8);
    expect(parseQuantity('100 pcf', 'density')).toBeCloseTo(1.601846337, 9);
  });
  it('1 psi is 6.894757 kPa (NIST SP 811, App. B.8, printed with seven digits)', () => {
    expect((parseQuantity('1 psi', 'pressure') * 1000).toFixed(6)).toBe('6.894757');
  });
});
