import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestPacks, type Pack, packBreakEven } from '../../src/core/shop/price-packs.js';

const pack = (text: string, grams: number, amount: string): Pack => ({ text, grams, amount });
const bought = (need: number, packs: readonly Pack[]) =>
  cheapestPacks(need, packs).packs.map((b) => `${b.count} x ${b.pack.text}`);

/** Invented packs; answers by hand. */
const BAGS = [pack('5 kg', 5000, '9.80'), pack('25 kg', 25_000, '31.00')];

describe('cheapest whole packs, by hand', () => {
  it('takes the large pack once it costs no more than the small ones', () => {
    // 3 small 29.40, 4 small 39.20.
    expect(bought(15_000, BAGS)).toEqual(['3 x 5 kg']);
    expect(bought(15_001, BAGS)).toEqual(['1 x 25 kg']);
    const mixed = cheapestPacks(31_000, BAGS);
    // 25 kg + 2 x 5 kg = 50.60; 2 x 25 kg = 62.00; 7 x 5 kg = 68.60.
    expect([mixed.cost.toFixed(), mixed.left, mixed.proven]).toEqual(['50.6', 4000, true]);
  });

  it('buys nothing for nothing, and no pack more for floating dust', () => {
    expect(cheapestPacks(0, BAGS)).toMatchObject({ packs: [], left: 0 });
    expect(bought(5000 * (1 + 1e-13), BAGS)).toEqual(['1 x 5 kg']);
  });

  it('stays quick where packs of one price per gram leave countless ways', () => {
    const same = [pack('7 g', 7, '7'), pack('11 g', 11, '11'), pack('13 g', 13, '13')];
    expect(cheapestPacks(1_000_000, same).cost.toNumber()).toBeLessThan(1_000_014);
    const free = [pack('7 g', 7, '0'), pack('11 g', 11, '0')];
    expect(cheapestPacks(1_000_000, free).cost.toNumber()).toBe(0);
  });
});

describe('small or large packs, by hand', () => {
  it('finds where the large pack begins to pay, and from where it always does', () => {
    // Large pays above 15 kg; at 25-30 kg two large (62.00) cost more than 6 small (58.80), above 30 kg never again:
    // 50-60 kg three large 93.00 against 11 small 107.80.
    expect(packBreakEven(BAGS[0]!, BAGS[1]!)).toEqual({ above: 30_000, first: 15_000 });
  });

  it('says never where the large pack is dearer by the gram', () => {
    // 2 kg for 5.00 or 1 kg for 2.00: two small are always cheaper.
    expect(packBreakEven(pack('1 kg', 1000, '2.00'), pack('2 kg', 2000, '5.00'))).toEqual({ above: null, first: null });
    // 5 kg for 11.00 against 2 kg for 4.00: dearer by the gram, yet cheaper than three small for 4-5 kg.
    expect(packBreakEven(pack('2 kg', 2000, '4.00'), pack('5 kg', 5000, '11.00'))).toMatchObject({
      above: null,
      first: 4000,
    });
  });
});

describe('packs against other ways of finding them', () => {
  const packs = fc.array(
    fc.record({
      text: fc.constant('p'),
      grams: fc.integer({ min: 1, max: 14 }),
      amount: fc.integer({ min: 0, max: 40 }).map(String),
    }),
    { minLength: 1, maxLength: 4 },
  );

  it('costs what the table of all smaller needs says', () => {
    let exercised = 0;
    fc.assert(
      fc.property(packs, fc.integer({ min: 0, max: 70 }), (list, need) => {
        // Least cost of at least x grams, gram by gram: the textbook dynamic programme.
        const least = [0];
        for (let x = 1; x <= need; x++) {
          least[x] = Math.min(...list.map((p) => Number(p.amount) + least[Math.max(0, x - p.grams)]!));
        }
        const answer = cheapestPacks(need, list);
        expect(answer.proven).toBe(true);
        expect(answer.cost.toNumber()).toBe(least[need]);
        const held = answer.packs.reduce((s, b) => s + b.count * b.pack.grams, 0);
        expect(held - need).toBe(answer.left);
        expect(held).toBeGreaterThanOrEqual(need);
        exercised += need > 0 ? 1 : 0;
      }),
      { numRuns: 1500, seed: 3 },
    );
    expect(exercised).toBeGreaterThan(1400);
  });

  it('breaks even where counting gram by gram says so', () => {
    const two = fc.record({
      s: fc.integer({ min: 1, max: 12 }),
      p: fc.integer({ min: 1, max: 12 }),
      more: fc.integer({ min: 1, max: 30 }),
      P: fc.integer({ min: 1, max: 40 }),
    });
    let exercised = 0;
    fc.assert(
      fc.property(two, ({ s, p, more, P }) => {
        const [small, large] = [pack('s', s, String(p)), pack('l', s + more, String(P))];
        const gain = (p * large.grams) / s - P;
        // Beyond this need the saving has paid for a whole large pack; counted so far it is the whole truth.
        const end = gain > 0 ? Math.ceil((P / gain + 2) * large.grams) : 6 * s * large.grams;
        if (end > 20_000) return;
        let dearer = 0;
        let first: number | null = null;
        for (let x = 1; x <= end; x++) {
          const [a, b] = [Math.ceil(x / s) * p, Math.ceil(x / large.grams) * P];
          if (b > a) dearer = x;
          if (first === null && b <= a) first = x;
        }
        const even = packBreakEven(small, large);
        expect(even.first === null ? null : Math.floor(even.first) + 1).toBe(first);
        if (gain > 0) {
          expect(even.above).toBe(dearer);
          exercised += 1;
        } else expect(even.above).toBe(null);
      }),
      { numRuns: 1000, seed: 4 },
    );
    expect(exercised).toBeGreaterThan(300);
  });
});
