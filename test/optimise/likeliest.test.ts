import { describe, expect, it } from 'vitest';
import type { Flagged } from '../../src/core/optimise/flags.js';
import { likeliest } from '../../src/core/optimise/likeliest.js';
import type { LinearProgram } from '../../src/core/optimise/lp/types.js';

const flags = (count: number, kept: readonly number[] = [], most = (_i: number) => 1): Flagged[] =>
  Array.from({ length: count }, (_v, i) => ({
    material: i,
    least: 0.1,
    most: most(i),
    counted: true,
    kept: kept.includes(i),
  }));

/** One gram in all, at `prices` a gram: the cheapest alone is the optimum, and the others' reduced costs are what they cost more. */
const oneGram = (prices: readonly number[], sense: 'min' | 'max' = 'min'): LinearProgram => ({
  columns: prices.map((_p, j) => ({ name: String(j), upper: 2 })),
  rows: [{ name: 'a gram', coefficients: prices.map(() => 1), low: 1, high: 1 }],
  sense,
  objective: prices,
});

const chosen = (flagged: readonly Flagged[], sought: LinearProgram, at: readonly number[]) =>
  likeliest(flagged, sought, at).map((f) => f.material);
const none = (count: number): number[] => new Array<number>(count).fill(0);
const upTo = (count: number): number[] => Array.from({ length: count }, (_v, i) => i);

describe('the ingredients of a long shelf that are chosen among', () => {
  it('are all of twenty-two, whatever they cost', () => {
    expect(chosen(flags(22), oneGram(upTo(22)), none(22))).toEqual(upTo(22));
  });

  it('are the twenty-two that come nearest to being worth it, in the order of the shelf', () => {
    // Prices fall along the shelf: the first three of twenty-five are the dearest.
    const prices = upTo(25).map((i) => 25 - i);
    expect(chosen(flags(25), oneGram(prices), none(25))).toEqual(upTo(25).slice(3));
    expect(chosen(flags(25), oneGram(prices, 'max'), none(25))).toEqual(upTo(22));
  });

  it('count what a full share costs, not a gram', () => {
    // The last costs most a gram, but hardly a hundredth of one could go in.
    const prices = upTo(24).map((i) => 1 + i);
    const most = (i: number) => (i === 23 ? 0.001 : 1);
    expect(chosen(flags(24, [], most), oneGram(prices), none(24))).toEqual([...upTo(21), 23]);
  });

  it('hold what the blend has, what the optimum has and what stays anyway, however dear', () => {
    const prices = upTo(26).map((i) => 1 + i);
    const at = none(26);
    at[25] = 0.2;
    expect(chosen(flags(26, [24]), oneGram(prices), at)).toEqual([...upTo(20), 24, 25]);
    const capped: LinearProgram = {
      ...oneGram(prices),
      columns: prices.map((_p, j) => ({ name: String(j), upper: 2, ...(j === 23 ? { lower: 0.5 } : {}) })),
    };
    expect(chosen(flags(26), capped, none(26))).toEqual([...upTo(21), 23]);
  });

  it('are all, where the rows have no optimum', () => {
    const impossible = { ...oneGram(upTo(25)), rows: [{ name: 'no', coefficients: upTo(25).map(() => 0), low: 1 }] };
    expect(chosen(flags(25), impossible, none(25))).toEqual(upTo(25));
  });
});
