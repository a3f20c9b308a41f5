import { describe, expect, it } from 'vitest';
import { inOrder, shuffled } from '../../../src/core/optimise/lp/shuffle.js';

describe('a fixed shuffle', () => {
  it('holds each number once, and is the same for the same seed', () => {
    for (let length = 0; length < 12; length++) {
      const order = shuffled(length, length);
      expect([...order].sort((a, b) => a - b)).toEqual(inOrder(length));
      expect(shuffled(length, length)).toEqual(order);
    }
    expect(inOrder(4)).toEqual([0, 1, 2, 3]);
  });

  it('gives every order of four about as often', () => {
    const seen = new Map<string, number>();
    for (let seed = 0; seed < 4800; seed++) {
      const order = shuffled(4, seed).join('');
      seen.set(order, (seen.get(order) ?? 0) + 1);
    }
    expect(seen.size).toBe(24);
    // 200 each; the standard deviation of one count is 13.8.
    for (const count of seen.values()) expect(Math.abs(count - 200)).toBeLessThan(70);
  });

  it('is the one that mulberry32 gives, written out once more in another language with whole numbers of any size', () => {
    expect(shuffled(10, 1)).toEqual([7, 8, 3, 2, 1, 5, 9, 4, 0, 6]);
    expect(shuffled(10, 2)).toEqual([0, 9, 4, 1, 6, 5, 3, 8, 2, 7]);
    expect(shuffled(8, 0xdeadbeef)).toEqual([3, 0, 2, 5, 6, 4, 1, 7]);
    expect(shuffled(8, -5)).toEqual([6, 1, 2, 4, 7, 5, 0, 3]);
  });
});
