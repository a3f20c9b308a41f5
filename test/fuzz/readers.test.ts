import { describe, expect, it } from 'vitest';
import { InputProblems } from '../../src/core/problems/problem.js';
import { READERS } from './readers.js';
import { THROUGH } from './through.js';
import { fuzz, type Tally, watch } from './watch.js';

const tally = (): Tally => ({ cases: 0, taken: 0, refused: 0, slowest: 0 });

describe('every reader', () => {
  it.each(READERS.map((r) => [r.name, r] as const))('%s takes its good texts', (_, reader) => {
    for (const seed of reader.seeds) expect(() => reader.read(seed)).not.toThrow();
  });

  it('takes or refuses 5,000 spoilt texts: no crash, no hang, nothing of the language changed', () => {
    const tallies = [...fuzz(5000, 4000).values()];
    expect(tallies.reduce((sum, t) => sum + t.cases, 0)).toBe(5000);
    // Both sides were really met: texts spoilt so mildly that they still read, and texts that do not.
    for (const t of tallies) {
      expect(t.refused).toBeGreaterThan(40);
      expect(t.taken).toBeGreaterThan(5);
    }
  }, 60_000);
});

describe('what is done with what was read', () => {
  it('bears 60 spoilt texts: plans, fits and proposals', () => {
    const tallies = [...fuzz(60, 4100, THROUGH, 20_000).values()];
    expect(tallies.reduce((sum, t) => sum + t.taken, 0)).toBeGreaterThan(15);
  }, 120_000);
});

describe('the watch itself', () => {
  const reader = (read: (text: string) => unknown) => ({ name: 'this', seeds: [''], read });
  it.each<[string, (text: string) => unknown, RegExp]>([
    ['a crash', () => JSON.parse('{'), /crashed/],
    ['a number that is none', () => ({ a: [1, Number.NaN] }), /NaN at answer.a.1/],
    [
      'an object of the language changed',
      () => Object.defineProperty(Object.prototype, 'x', { value: 1, configurable: true }),
      /changed/,
    ],
    [
      'a refusal without an error',
      () => {
        throw new InputProblems([]);
      },
      /without an error/,
    ],
  ])('sees %s', (_, read, words) => {
    try {
      expect(() => watch(reader(read), '', tally())).toThrow(words);
    } finally {
      delete (Object.prototype as { x?: number }).x;
    }
  });
});
