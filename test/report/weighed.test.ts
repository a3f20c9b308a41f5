import { describe, expect, it } from 'vitest';
import { onScale, printBatch, printFine, printOnStep } from '../../src/core/report/weighed.js';
import { convert } from '../../src/core/units/quantity.js';

const oz = (n: number): number => convert(n, 'oz', 'g');

describe('an amount that is weighed out', () => {
  it.each([
    // Invented briefs that an acceptance test found printed as 16 lb, 8 lb 9 oz and 41.63 kg.
    [oz(255.7), oz(0.1), 'us', '15 lb 15.7 oz'],
    [oz(137.3), oz(0.1), 'us', '8 lb 9.3 oz'],
    [41634, 1, 'metric', '41.634 kg'],
    [oz(1600.3), oz(0.1), 'us', '100 lb 0.3 oz'],
    [oz(256), oz(0.1), 'us', '16 lb 0.0 oz'],
    [oz(15.99), oz(0.01), 'us', '15.99 oz'],
    [12345, 5, 'metric', '12.345 kg'],
    [7.1, 0.1, 'metric', '7.1 g'],
    // A scale of the other system: as fine as it takes to tell one step from the next.
    [7249, 1, 'us', '15 lb 15.70 oz'],
    [oz(16.4), oz(0.1), 'metric', '465 g'],
  ] as const)('%f g on steps of %f in %s units is %s', (grams, step, system, words) => {
    expect(printOnStep(grams, step, system)).toBe(words);
  });

  it('is the same on the sheet and on the card, where the scale counts in the units of the sheet', () => {
    for (const [step, system] of [
      [oz(0.1), 'us'],
      [oz(0.25), 'us'],
      [1, 'metric'],
      [0.1, 'metric'],
      [20, 'metric'],
    ] as const)
      for (let steps = 1; steps < 40_000; steps = Math.ceil(steps * 1.7)) {
        const batchGrams = steps * step;
        const sheet = printBatch({ batchGrams, step }, step, system);
        expect(sheet).toBe(onScale(batchGrams, step));
        // Nothing but this step reads so.
        expect(sheet).not.toBe(onScale(batchGrams + step, step));
      }
  });

  it('is told as it is written in a recipe, to the step of the scale and in three figures or more', () => {
    expect(printBatch({ batchGrams: 4.25, step: null }, 1, 'metric')).toBe('4.25 g');
    expect(printBatch({ batchGrams: 1700, step: null }, 1, 'metric')).toBe('1700 g');
    expect(printBatch({ batchGrams: oz(255.7), step: null }, oz(0.1), 'us')).toBe('15 lb 15.7 oz');
    expect(printFine(64.52, 1, 'metric')).toBe('64.5 g');
  });
});
