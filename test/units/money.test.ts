import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oneCurrency, parseMoney, parsePrice, pricePerGram, printMoney } from '../../src/core/units/money.js';
import { codesOf, problemsOf } from '../support/problems.js';

describe('a price per pack', () => {
  it.each([
    ['27.50 per 55 lb', '27.5', null, { grams: 24947.58035 }],
    ['1.20 EUR/kg', '1.2', 'EUR', { grams: 1000 }],
    ['4.90 per 500 mL', '4.9', null, { cm3: 500 }],
    ['€3.20 for 1 L', '3.2', 'EUR', { cm3: 1000 }],
    ['4,90 € / 500 mL', '4.9', 'EUR', { cm3: 500 }],
    ['£12 per 8 fl oz', '12', 'GBP', { cm3: 236.5882365 }],
    ['USD 27.50 / 25-kg bag', '27.5', 'USD', { grams: 25000 }],
    ['3/1/2 cup', '3', null, { cm3: 118.29411825 }],
    ['1.234,50 EUR per tonne', '1234.5', 'EUR', { grams: 1e6 }],
    ['0.10 per g', '0.1', null, { grams: 1 }],
    ['5 per lb', '5', null, { grams: 453.59237 }],
    ['$5 per lb', '5', '$', { grams: 453.59237 }],
    ['¥500 per kg', '500', '¥', { grams: 1000 }],
    ['49 kr. per 5 kg', '49', 'kr', { grams: 5000 }],
    ['0 per 1 L', '0', null, { cm3: 1000 }],
  ])('%s', (text, amount, currency, pack) => {
    expect(parsePrice(text)).toEqual({ amount, currency, pack });
  });

  it('reads price, pack and currency that stand apart', () => {
    expect(parsePrice({ price: '27,50', pack: '55 lb', currency: 'usd' })).toEqual({
      amount: '27.5',
      currency: 'USD',
      pack: { grams: 24947.58035 },
    });
    expect(parsePrice({ price: 4.9, pack: 'kg' })).toEqual({ amount: '4.9', currency: null, pack: { grams: 1000 } });
  });

  it('a sign several currencies share is the shop’s, if it can be', () => {
    expect(parsePrice('$3 per kg', undefined, { currency: 'CAD' }).currency).toBe('CAD');
    expect(parsePrice('3 per kg', undefined, { currency: 'EUR' }).currency).toBe('EUR');
    expect(codesOf(() => parsePrice('$3 per kg', undefined, { currency: 'EUR' }))).toEqual(['currency-mixed']);
    expect(codesOf(() => parsePrice('£3 per kg', undefined, { currency: 'EUR' }))).toEqual(['currency-mixed']);
    expect(codesOf(() => parsePrice('£3 EUR per kg'))).toEqual(['currency-mixed']);
    expect(codesOf(() => parsePrice('$3 EUR per kg'))).toEqual(['currency-mixed']);
  });

  it('is a currency by itself where no shop says which, and goes with each that it may stand for', () => {
    expect(parseMoney('$0.50', undefined, { currency: '$' }).currency).toBe('$');
    expect(parseMoney('0.50', undefined, { currency: '$' }).currency).toBe('$');
    expect(parseMoney('0.50 CAD', undefined, { currency: '$' }).currency).toBe('CAD');
    expect(parsePrice({ price: '$3', pack: 'kg', currency: 'CAD' }).currency).toBe('CAD');
    expect(parsePrice({ price: 3, pack: 'kg', currency: '$' }).currency).toBe('$');
    expect(parsePrice({ price: 3, pack: 'kg', currency: '$' }, undefined, { currency: 'CAD' }).currency).toBe('CAD');
    expect(codesOf(() => parseMoney('0.50 EUR', undefined, { currency: '$' }))).toEqual(['currency-mixed']);
    expect(codesOf(() => parseMoney('50 kr', undefined, { currency: '$' }))).toEqual(['currency-mixed']);
    expect(codesOf(() => parsePrice({ price: 3, pack: 'kg', currency: '$' }, undefined, { currency: 'EUR' }))).toEqual([
      'currency-mixed',
    ]);
  });

  it.each([
    ['-3 per kg', 'field-out-of-range'],
    ['3 per -1 kg', 'amount-not-positive'],
    ['3 per 0 kg', 'amount-not-positive'],
    ['1,234 per kg', 'quantity-ambiguous'],
    ['5 EUR', 'quantity-unreadable'],
    ['5 per', 'quantity-unreadable'],
    ['per kg', 'quantity-unreadable'],
    ['five per kg', 'quantity-unreadable'],
    ['5 per metre', 'unit-wrong-kind'],
    ['5 per kg per day', 'unit-unknown'],
    ['5 per constructor', 'unit-unknown'],
    ['5 USD EUR per kg', 'quantity-unreadable'],
    ['1e400 per kg', 'field-out-of-range'],
    ['=cmd()', 'quantity-unreadable'],
    ['', 'quantity-unreadable'],
    ['9'.repeat(500), 'quantity-unreadable'],
  ])('%s is refused', (text, code) => {
    expect(codesOf(() => parsePrice(text))).toEqual([code]);
  });
});

describe('sums of money', () => {
  it('are exact decimals', () => {
    expect(parseMoney('0.1').amount).toBe('0.1');
    expect(parseMoney('12345678901.23 EUR').amount).toBe('12345678901.23');
    expect(parseMoney(0.3).amount).toBe('0.3');
    expect(codesOf(() => parseMoney('5 per kg'))).toEqual(['quantity-unreadable']);
    expect(codesOf(() => parseMoney(null))).toEqual(['field-wrong-type']);
  });
  it('print to the smallest coin, half up', () => {
    expect(printMoney('1.005', 'EUR')).toBe('1.01 EUR');
    expect(printMoney('27.5', null)).toBe('27.50');
    expect(printMoney('499.5', 'JPY')).toBe('500 JPY');
    expect(printMoney('0.01234', 'EUR', 4)).toBe('0.0123 EUR');
    expect(printMoney('0.5', '$')).toBe('$0.50');
    expect(printMoney('0.5', 'kr')).toBe('0.50 kr');
  });
  it('of several prices need one currency', () => {
    const price = (currency: string | null) => ({ amount: '1', currency });
    expect(oneCurrency([price(null), price('EUR'), price('EUR')])).toBe('EUR');
    expect(oneCurrency([price(null)])).toBeNull();
    expect(oneCurrency([price('$'), price('$'), price(null)])).toBe('$');
    expect(oneCurrency([price('$'), price('CAD')])).toBe('CAD');
    for (const other of ['EUR', '¥'])
      expect(codesOf(() => oneCurrency([price('$'), price(other)]))).toEqual(['currency-mixed']);
    expect(problemsOf(() => oneCurrency([price('EUR'), price('USD')]))[0]).toMatchObject({
      code: 'currency-mixed',
      found: 'EUR, USD',
    });
  });
});

describe('price per gram', () => {
  it('takes the density for a pack by volume', () => {
    expect(pricePerGram(parsePrice('27.50 per 55 lb'))).toBeCloseTo(27.5 / 24947.58035, 15);
    expect(pricePerGram(parsePrice('4.90 per 500 mL'), 1.05)).toBe(4.9 / 525);
    expect(codesOf(() => pricePerGram(parsePrice('4.90 per 500 mL')))).toEqual(['material-density-missing']);
  });
  it('does not depend on the units the pack is written in', () => {
    let cases = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99999 }), fc.integer({ min: 1, max: 500 }), (cents, pounds) => {
        const price = (cents / 100).toFixed(2);
        const inPounds = pricePerGram(parsePrice(`${price} per ${pounds} lb`));
        const inOunces = pricePerGram(parsePrice(`${price} per ${pounds * 16} oz`));
        expect(Math.abs(inOunces / inPounds - 1)).toBeLessThan(1e-14);
        cases += 1;
      }),
      { numRuns: 500, seed: 6 },
    );
    expect(cases).toBe(500);
  });
});
