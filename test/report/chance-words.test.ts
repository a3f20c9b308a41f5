import { describe, expect, it } from 'vitest';
import { chanceWords } from '../../src/core/report/chance-words.js';

describe('a chance', () => {
  it.each([
    [null, ''],
    [1, 'sure'],
    [0.003, 'no chance'],
    [0.038, '4 % sure'],
    [0.112, '10 % sure'],
    // One blend by 2,000 draws and by fewer.
    [0.68, '70 % sure'],
    [0.7, '70 % sure'],
    [0.9, '90 % sure'],
    [0.93, '93 % sure'],
    [0.98, '98 % sure'],
  ])('of %f is told no finer than its draws bear: %s', (chance, words) => {
    expect(chanceWords(chance)).toBe(words);
  });
});
