import { beforeAll, describe, expect, it } from 'vitest';
import { uniform } from '../../src/core/blend/sampling.js';
import type { Column, LinearProgram, Row } from '../../src/core/optimise/lp/types.js';
import { type Need, packsFor } from '../../src/core/shop/order-packs.js';
import type { Pack } from '../../src/core/shop/price-packs.js';
import { highsReference, type ReferenceSolver } from '../support/highs-reference.js';

const pack = (text: string, grams: number, amount: string): Pack => ({ text, grams, amount });
const once = (grams: number): Need['uses'] => [{ day: 0, grams }];
const bought = (need: Need) => packsFor(need).buy.map((b) => `${b.count} x ${b.pack.text}`);

/** Invented packs and prices; the answers are worked by hand. */
describe('packs by hand', () => {
  const bags = [pack('5 kg', 5000, '9.80'), pack('25 kg', 25_000, '31.00')];

  it('takes the large bag as soon as it costs no more than the small ones', () => {
    // 3 small bags 29.40, 4 cost 39.20: the large one pays from 15 kg on.
    expect(bought({ uses: once(15_000), stock: 0, packs: bags, keeps: null })).toEqual(['3 x 5 kg']);
    expect(bought({ uses: once(15_001), stock: 0, packs: bags, keeps: null })).toEqual(['1 x 25 kg']);
    const both = packsFor({ uses: once(30_000), stock: 0, packs: bags, keeps: null });
    expect(both.buy.map((b) => [b.count, b.pack.text])).toEqual([
      [1, '5 kg'],
      [1, '25 kg'],
    ]);
    expect(both.cost.toFixed()).toBe('40.8');
    expect(both).toMatchObject({ needed: 30_000, leftover: 0, spoilt: 0, proven: true });
  });

  it('uses what is on the shelf first, and buys nothing when that is enough', () => {
    expect(packsFor({ uses: once(4000), stock: 4000, packs: bags, keeps: null }).buy).toEqual([]);
    expect(bought({ uses: once(9000), stock: 4000, packs: bags, keeps: null })).toEqual(['1 x 5 kg']);
    expect(packsFor({ uses: once(9500), stock: 4000, packs: bags, keeps: null })).toMatchObject({
      needed: 5500,
      leftover: 4500,
    });
  });

  it('adds coins exactly', () => {
    const cents = [pack('10 g', 10, '0.1')];
    expect(packsFor({ uses: once(30), stock: 0, packs: cents, keeps: null }).cost.toFixed()).toBe('0.3');
  });

  it('of two ways that cost the same takes the one that leaves less', () => {
    const twins = [pack('2 kg', 2000, '4.00'), pack('3 kg', 3000, '4.00'), pack('9 kg', 9000, '8.00')];
    // 2 kg + 3 kg, or two of 3 kg, or one of 9 kg: all 8.00; 5 kg is just enough.
    expect(packsFor({ uses: once(5000), stock: 0, packs: twins, keeps: null })).toMatchObject({ leftover: 0 });
  });

  it('opens a fresh pack when the old one no longer keeps, and says what is spoilt', () => {
    // 1 kg on day 0 and 1 kg on day 20. Kept 30 days a 5 kg bag serves both; kept 7 days each day needs a bag of its own.
    const uses = [
      { day: 0, grams: 1000 },
      { day: 20, grams: 1000 },
    ];
    expect(bought({ uses, stock: 0, packs: bags, keeps: 30 })).toEqual(['1 x 5 kg']);
    const short = packsFor({ uses, stock: 0, packs: bags, keeps: 7 });
    expect(short.buy.map((b) => b.count)).toEqual([2]);
    // 4 kg of the first bag are past their days when the order ends; the rest of the second still keeps.
    expect(short).toMatchObject({ leftover: 8000, spoilt: 4000 });
    // The same with the shelf: what lies there counts as opened at the start and does not reach day 20.
    expect(packsFor({ uses, stock: 2000, packs: bags, keeps: 7 })).toMatchObject({ needed: 1000, leftover: 4000 });
    expect(packsFor({ uses, stock: 2000, packs: bags, keeps: 30 }).buy).toEqual([]);
  });

  it('refuses to buy from nothing', () => {
    expect(() => packsFor({ uses: once(1), stock: 0, packs: [], keeps: null })).toThrow(RangeError);
  });
});

/** Seeded needs: one to four packs, dearer by the gram the smaller they are, a few of them oddly priced. */
function randomNeed(seed: number, days: number): Need {
  const next = uniform(seed);
  const whole = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  const packs = Array.from({ length: whole(1, 4) }, (_v, i): Pack => {
    const grams = [500, 1000, 2000, 5000, 10_000, 20_000, 25_000, 24_948][whole(0, 7)]!;
    const cents = Math.max(1, Math.round(grams ** 0.85 * (0.05 + 0.1 * next()) * (1 + i / 10)));
    return pack(`${grams} g (${i})`, grams, (cents / 100).toFixed(2));
  });
  let day = 0;
  const uses = Array.from({ length: days }, () => {
    day += whole(1, 9);
    return { day, grams: whole(1, 60_000) / days };
  });
  const amount = uses.reduce((s, u) => s + u.grams, 0);
  const stock = next() < 0.4 ? whole(0, Math.floor(amount)) : 0;
  return { uses, stock, packs, keeps: days === 1 ? null : whole(1, 8) };
}

/**
 * The same question in the words of the other solver, built without the code under test: packs of each sort opened on
 * each day, grams handed on from a day's packs, and from the shelf, to later days within their life.
 */
function model({ uses, packs, stock, keeps }: Need): LinearProgram {
  const columns: Column[] = [];
  const objective: number[] = [];
  const opened = uses.map(() => [] as number[]);
  uses.forEach((_u, d) => {
    for (const p of packs) {
      opened[d]!.push(columns.length);
      columns.push({ name: `open ${p.text} ${d}`, integer: true, upper: 500 });
      objective.push(Number(p.amount));
    }
  });
  const moved: { from: number | 'shelf'; to: number; column: number }[] = [];
  const origins: (number | 'shelf')[] = ['shelf', ...uses.map((_u, i) => i)];
  for (const from of origins) {
    uses.forEach((use, to) => {
      const age = use.day - uses[from === 'shelf' ? 0 : from]!.day;
      const allowed = age >= 0 && (keeps === null || age <= keeps || from === to || (from === 'shelf' && to === 0));
      if (!allowed) return;
      moved.push({ from, to, column: columns.length });
      columns.push({ name: `from ${from} to ${to}` });
      objective.push(0);
    });
  }
  const line = (entries: readonly (readonly [number, number])[]): number[] => {
    const coefficients = columns.map(() => 0);
    for (const [column, value] of entries) coefficients[column] = value;
    return coefficients;
  };
  const rows: Row[] = [
    {
      name: 'shelf',
      coefficients: line(moved.filter((m) => m.from === 'shelf').map((m) => [m.column, 1])),
      high: stock,
    },
    ...uses.map(
      (_u, d): Row => ({
        name: `bag ${d}`,
        coefficients: line([
          ...opened[d]!.map((column, p) => [column, -packs[p]!.grams] as const),
          ...moved.filter((m) => m.from === d).map((m) => [m.column, 1] as const),
        ]),
        high: 0,
      }),
    ),
    ...uses.map(
      (use, d): Row => ({
        name: `use ${d}`,
        coefficients: line(moved.filter((m) => m.to === d).map((m) => [m.column, 1])),
        low: use.grams,
      }),
    ),
  ];
  return { columns, rows, sense: 'min', objective };
}

/** Source: the independent solver HiGHS (npm highs), on models written anew above. */
describe('packs against another solver', () => {
  let reference: ReferenceSolver;
  beforeAll(async () => {
    reference = await highsReference();
  });

  it('costs the same in one stretch', () => {
    let mixed = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const need = randomNeed(seed, 1);
      const ours = packsFor(need);
      const theirs = reference(model(need), { integers: true });
      expect(theirs.status).toBe('optimal');
      expect(ours.proven).toBe(true);
      expect(Math.abs(ours.cost.toNumber() - theirs.objective), `seed ${seed}`).toBeLessThan(1e-6);
      const grams = ours.buy.reduce((s, b) => s + b.count * b.pack.grams, 0);
      expect(grams + Math.min(need.stock, need.uses[0]!.grams)).toBeGreaterThanOrEqual(
        need.uses[0]!.grams * (1 - 1e-6),
      );
      if (ours.buy.length > 1) mixed++;
    }
    expect(mixed).toBeGreaterThan(20);
  });

  it('costs the same when opened packs do not keep', () => {
    let fresh = 0;
    for (let seed = 1; seed <= 80; seed++) {
      // Few enough days that none are gathered, so that both speak of the same days.
      const need = randomNeed(seed, 4);
      const ours = packsFor(need);
      const theirs = reference(model(need), { integers: true });
      expect(theirs.status).toBe('optimal');
      if (!ours.proven) expect(ours.cost.toNumber()).toBeGreaterThanOrEqual(theirs.objective - 1e-6);
      else expect(Math.abs(ours.cost.toNumber() - theirs.objective), `seed ${seed}`).toBeLessThan(1e-6);
      const lasting = packsFor({ ...need, keeps: null });
      expect(lasting.cost.lte(ours.cost)).toBe(true);
      if (lasting.cost.lt(ours.cost)) fresh++;
    }
    expect(fresh).toBeGreaterThan(20);
  });
});
