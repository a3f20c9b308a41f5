import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { parseMoney, printMoney } from '../../src/core/units/money.js';
import { printQuantity } from '../../src/core/units/print.js';
import { convert, parseQuantity } from '../../src/core/units/quantity.js';

const grams = (text: string): number => parseQuantity(text, 'mass');
const density = (text: string): number => parseQuantity(text, 'density');
const cubicFeet = (cm3: number): number => convert(cm3, 'cm3', 'ft3');

/** The rule of the US handbooks: water weighs 62.4 lb/ft3, so a solid weighs its specific gravity times that. */
const usSolid = (gravity: number): number => gravity * density('62.4 lb/ft3');

describe('absolute volume (Virginia DOT, concrete manual ch. 3, 2011, p. 3-1)', () => {
  it('588 lb of cement of gravity 3.15 is 2.99 ft3', () => {
    expect(cubicFeet(grams('588 lb') / usSolid(3.15))).toBeCloseTo(2.99, 2);
  });
  it('a 94 lb bag is about 0.48 ft3, and solid cement weighs 196.56 lb/ft3', () => {
    expect(cubicFeet(grams('94 lb') / usSolid(3.15))).toBeCloseTo(0.48, 2);
    expect(convert(usSolid(3.15), 'g/cm3', 'lb/ft3')).toBeCloseTo(196.56, 10);
  });
});

describe('quartz sand (Gillette & Hill, Concrete Construction, 1908)', () => {
  it.each([
    [0.35, 107],
    [0.45, 91],
  ])('%f voids is %d lb/ft3', (voids, printed) => {
    const bulk = 2.65 * (1 - voids);
    expect(Math.abs(convert(bulk, 'g/cm3', 'lb/ft3') - printed)).toBeLessThan(0.6);
    expect(printQuantity(bulk, 'density', { system: 'us' })).toMatch(/^(108|91) lb\/ft3$/);
  });
});

describe('free moisture (US Army subcourse EN5466, lesson on moisture correction)', () => {
  it('100.34 lb of free water is 12 gal, which leaves 26.6 of 38.6 gal to add', () => {
    const free = 0.02 * grams('1768 lb') + 0.06 * grams('1083 lb');
    expect(convert(free, 'g', 'lb')).toBeCloseTo(100.34, 10);
    const gallons = convert(free / density('8.33 lb/gal'), 'cm3', 'gal');
    expect(Math.abs(gallons - 12)).toBeLessThan(0.1);
    expect(Math.abs(38.6 - gallons - 26.6)).toBeLessThan(0.1);
  });
});

describe('perlite concrete table, US against SI columns (perlite handbook table 3, within 0.7 % as its columns are rounded)', () => {
  const perCubicMetre = (text: string): number => {
    const [amount = '', per = ''] = text.split(' per ');
    return parseQuantity(amount, 'mass') / 1000 / convert(parseQuantity(per, 'volume'), 'cm3', 'm3');
  };
  const waterShare = (text: string): number => {
    const [amount = '', per = ''] = text.split(' per ');
    return parseQuantity(amount, 'volume') / parseQuantity(per, 'volume');
  };
  it('635 lb/yd3 is 376 kg/m3', () => {
    expect(Math.abs(perCubicMetre('635 lb per 1 yd3') / 376 - 1)).toBeLessThan(0.007);
  });
  it.each([
    ['61 gal per 1 yd3', '0.30'],
    ['59.5 gal per 1 yd3', '0.29'],
    ['54 gal per 1 yd3', '0.27'],
  ])('water %s is %s m3/m3', (text, printed) => {
    expect(waterShare(text).toFixed(2)).toBe(printed);
  });
  it.each([
    ['36 lb/ft3', 576],
    ['30.5 lb/ft3', 488],
    ['22 lb/ft3', 352],
    ['50.5 lb/ft3', 808],
    ['45.5 lb/ft3', 728],
    ['36.5 lb/ft3', 584],
  ])('%s is %d kg/m3', (text, printed) => {
    expect(Math.abs((density(text) * 1000) / printed - 1)).toBeLessThan(0.007);
  });
});

describe('cost of mortar (Sabin, Cement and Concrete, arts. 287-289)', () => {
  it('3.46 at 1.10, 0.72 at 0.60 and 1.00 make 5.23; the book cuts each line to whole cents', () => {
    const lines = [
      new Decimal('3.46').times(parseMoney('$1.10').amount),
      new Decimal('0.72').times(parseMoney('$0.60').amount),
      new Decimal(parseMoney('$1.00').amount),
    ];
    const cut = lines.map((line) => line.toDecimalPlaces(2, Decimal.ROUND_DOWN));
    expect(Decimal.sum(...cut).toFixed()).toBe('5.23');
    expect(Decimal.sum(...lines).toFixed()).toBe('5.238');
    expect(printMoney(Decimal.sum(...lines).toFixed(), 'USD')).toBe('5.24 USD');
  });
});

describe('cup in cubic inches (from HB 44: 231 in3 to the gallon, 16 cups)', () => {
  it('is 14.4375 in3 exactly', () => {
    expect(convert(1, 'cup', 'in3')).toBe(14.4375);
  });
});
