import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_COSTS } from '../../src/core/brief/costs.js';
import { breakEven, type Contender, wholePackBreakEven, wholePackCost } from '../../src/core/shop/compare.js';
import { buildUp, type PriceCase } from '../../src/core/shop/price.js';
import { alternatives, levers, type Need } from '../../src/core/shop/price-levers.js';
import type { Pack } from '../../src/core/shop/price-packs.js';
import { Sum } from '../../src/core/shop/sums.js';

const BAGS: readonly Pack[] = [
  { text: '5 kg', grams: 5000, amount: '9.80' },
  { text: '25 kg', grams: 25_000, amount: '31.00' },
];

/** Invented: a piece of 500 g, mould wear of 0.40, half of what is cast fails. */
const caseOf = (more: Partial<PriceCase['costs']> = {}, amount = '31.00', grams = 25_000): PriceCase => ({
  parts: [{ material: 'plaster', name: 'plaster', colour: false, pieceGrams: 500, pack: { amount, grams } }],
  waste: 0,
  costs: { ...NO_COSTS, mould: { price: '24', pours: 60 }, ...more },
  dryWeight: null,
  batchPieces: 4,
});

const contender = (input: PriceCase, once = '0', packs: readonly Pack[] = BAGS): Contender => ({
  built: buildUp(input),
  once: new Sum(once),
  needs: [{ material: 'plaster', name: 'plaster', grams: 500 / (1 - input.costs.breakage), packs }],
  breakage: input.costs.breakage,
});

describe('break-even between two blends', () => {
  it('weighs what is spent once against what each piece saves, by hand', () => {
    // 0.62 + 0.40 = 1.02 a piece against 2.00 + 0.40 = 2.40: 1.38 saved, so 20.00 once is back after 14.49, from 15 on.
    const lean = contender(caseOf(), '20');
    const dear = contender(caseOf({}, '4.00', 1000));
    expect(breakEven(lean, dear)).toEqual({ cheaper: 0, from: 15, upTo: null });
    expect(breakEven(dear, lean)).toEqual({ cheaper: 1, from: 15, upTo: null });
    expect(breakEven(contender(caseOf()), dear)).toEqual({ cheaper: 0, from: 1, upTo: null });
    expect(breakEven(dear, dear)).toEqual({ cheaper: null, from: null, upTo: null });
  });

  it('counts whole packs, failed pieces too', () => {
    const half = contender(caseOf({ breakage: 0.5 }));
    // 10 sold pieces take 20 pours: 10 kg of plaster and 20 x 0.40 of mould. 2 x 5 kg = 19.60; + 8.00.
    expect(wholePackCost(half, 10).toFixed()).toBe('27.6');
    expect(wholePackCost(contender(caseOf(), '3'), 10).toFixed()).toBe('16.8'); // 9.80 + 4.00 + 3
  });

  it('finds the last number at which the other was cheaper', () => {
    let [exercised, waves] = [0, 0];
    const one = fc.record({
      once: fc.integer({ min: 0, max: 60 }),
      price: fc.integer({ min: 1, max: 60 }),
      grams: fc.constantFrom(2000, 3000, 7000),
    });
    fc.assert(
      fc.property(one, one, fc.integer({ min: 1, max: 60 }), (x, y, upTo) => {
        const make = ({ once, price, grams }: typeof x) =>
          contender(caseOf({}, String(price), grams), String(once), [{ text: 'p', grams, amount: String(price) }]);
        const [a, b] = [make(x), make(y)];
        const run = Math.ceil(upTo / 3);
        const even = wholePackBreakEven(a, b, upTo, run);
        const costs = Array.from(
          { length: upTo },
          (_v, i) => [wholePackCost(a, i + 1), wholePackCost(b, i + 1)] as const,
        );
        const [runA, runB] = costs[run - 1]!;
        expect(even.atRun).toBe(runA.eq(runB) ? null : runA.lt(runB) ? 0 : 1);
        const [endA, endB] = costs.at(-1)!;
        if (endA.eq(endB)) {
          expect(even.cheaper).toBeNull();
          return;
        }
        const other =
          even.cheaper === 0
            ? ([p, q]: (typeof costs)[number]) => q.lt(p)
            : ([p, q]: (typeof costs)[number]) => p.lt(q);
        expect(even.cheaper).toBe(endA.lt(endB) ? 0 : 1);
        const lastOther = costs.map(other).lastIndexOf(true) + 1;
        expect(even.from).toBe(lastOther + 1);
        const firstOwn = costs.findIndex(([p, q]) => (even.cheaper === 0 ? p.lt(q) : q.lt(p))) + 1;
        expect(even.first).toBe(firstOwn < even.from! ? firstOwn : null);
        exercised += lastOther > 0 ? 1 : 0;
        waves += even.first === null ? 0 : 1;
      }),
      { numRuns: 300, seed: 8 },
    );
    expect(exercised).toBeGreaterThan(25);
    expect(waves).toBeGreaterThan(5);
  });
});

describe('what saves most', () => {
  const input: PriceCase = {
    ...caseOf({
      labour: { rate: '15', minutes: 12, batchMinutes: 20 },
      packing: { cost: '0.90', weight: 100 },
      postage: [
        { upTo: 500, price: '4.10' },
        { upTo: 1000, price: '5.50' },
      ],
      fee: { share: 0.1, each: '0.20' },
      breakage: 0.2,
    }),
    dryWeight: { value: 450, low: 450, high: 450 },
  };

  it('ranks a tenth less of each, by hand', () => {
    const list = levers(input, new Sum('20'));
    const of = Object.fromEntries(list.map((l) => [l.id, l.saves.toFixed(6)]));
    expect(of).toEqual({
      postage: '0.550000', // 450 + 100 g go for 5.50
      labour: '0.531250', // 17 min at 15/h = 4.25; a tenth, over 0.8 for failed pieces
      fee: '0.220000', // (20 x 0.1 + 0.20)/10
      // failed: 5.27 x 0.2/0.8 = 1.3175; at 18 %: 5.27 x 0.18/0.82 = 1.156829
      breakage: '0.160671',
      packing: '0.090000',
      'price:plaster': '0.077500', // 0.62/10/0.8
      mould: '0.050000',
    });
    const ranked = ['postage', 'labour', 'fee', 'breakage', 'packing', 'price:plaster', 'mould'];
    expect(list.map((l) => l.id)).toEqual(ranked);
  });

  it('knows larger packs, the next lighter step and the larger batch', () => {
    const needs: Need[] = [{ material: 'plaster', name: 'plaster', grams: 625, packs: BAGS }];
    const found = alternatives(input, needs, 40);
    // 25 kg: one large 31.00 or five small 49.00: 18.00 over 40 pieces. Twice the batch: 2.5 min at 15/h over 0.8.
    expect(found.map((a) => [a.kind, a.saves.toFixed()])).toEqual([
      ['lighter', '1.4'],
      ['batch', '0.78125'],
      ['packs', '0.45'],
    ]);
    expect(found[0]).toMatchObject({ grams: 50, upTo: 500 });
    expect(alternatives(input, needs, 4).some((a) => a.kind === 'packs')).toBe(false);
  });
});
