import { describe, expect, it } from 'vitest';
import { shopOf } from '../support/bench-shelf.js';
import { codesOf, problemsOf } from '../support/problems.js';

describe('what the shop file says about prices', () => {
  it('reads every field into core units, money as it was written', () => {
    const { costs, bowl, currency } = shopOf({
      currency: 'USD',
      bowl: '5 lb',
      labour: { rate: '18.50 USD', minutes: 9, 'batch-minutes': '1/2 h' },
      sealer: { price: '18.00 per 16 fl oz', use: '0.2 fl oz' },
      mould: { price: 24, pours: 60 },
      packing: { cost: 0.8, weight: '4 oz' },
      postage: [
        { 'up-to': '2 lb', price: '7,20' },
        { 'up-to': '1 lb', price: '$5.10' },
      ],
      fee: { share: '6.5 %', each: '0.25' },
      margin: 15,
      breakage: '10 %',
    });
    expect(currency).toBe('USD');
    expect(bowl).toEqual({ grams: 2267.96185 });
    expect(costs).toMatchObject({
      labour: { rate: '18.5', minutes: 9, batchMinutes: 30 },
      sealer: { amount: '18' },
      mould: { price: '24', pours: 60 },
      packing: { cost: '0.8' },
      fee: { share: 0.065, each: '0.25' },
      margin: 0.15,
      breakage: 0.1,
    });
    expect(costs.packing!.weight).toBeCloseTo(113.398, 3);
    expect(costs.postage.map((s) => [Math.round(s.upTo), s.price])).toEqual([
      [454, '5.1'],
      [907, '7.2'],
    ]);
  });

  it('takes the currency the sums name, and refuses two', () => {
    expect(shopOf({ labour: { rate: '15 EUR', minutes: 1 } }).currency).toBe('EUR');
    expect(codesOf(() => shopOf({ currency: 'EUR', labour: { rate: '15 GBP', minutes: 1 } }))).toEqual([
      'currency-mixed',
    ]);
    expect(codesOf(() => shopOf({ mould: { price: '9 GBP', pours: 5 }, packing: { cost: '1 EUR' } }))).toEqual([
      'currency-mixed',
    ]);
  });

  it('gathers every mistake with its place', () => {
    const problems = problemsOf(() =>
      shopOf({
        bowl: '2 min',
        labour: { rate: 'plenty', minutes: '5 kg' },
        sealer: { price: '18 per 500 mL', use: '3 g' },
        postage: [
          { 'up-to': '500 g', price: 4 },
          { 'up-to': '0.5 kg', price: 5 },
        ],
        breakage: '100 %',
      }),
    );
    expect(problems.map((p) => [p.code, p.where?.path])).toEqual([
      ['quantity-unreadable', 'labour.rate'],
      ['unit-wrong-kind', 'labour.minutes'],
      ['unit-wrong-kind', 'sealer.use'],
      ['field-duplicate', 'postage.1.up-to'],
      ['field-out-of-range', 'breakage'],
      ['unit-wrong-kind', 'bowl'],
    ]);
  });

  it('refuses a fee and a margin that leave nothing to cover the cost', () => {
    expect(codesOf(() => shopOf({ fee: { share: '60 %' }, margin: '40 %' }))).toEqual(['field-out-of-range']);
  });
});
