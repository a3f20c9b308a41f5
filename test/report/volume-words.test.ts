import { describe, expect, it } from 'vitest';
import { scoopsOf, volumeWords } from '../../src/core/report/volume-words.js';
import { convert, parseQuantity } from '../../src/core/units/quantity.js';

const water = (grams: number) => ({ material: 'water', litres: grams / 998.2, scoops: 1, volumeError: 0.002 });
const lbOz = (lb: number, oz: number): number => convert(16 * lb + oz, 'oz', 'g');
const METRIC = 'metric' as const;

describe('an amount by volume', () => {
  it('of water has the figures that its weight has, rounded in the unit that is printed', () => {
    // By 0.9982 g/mL, the density of water at 20 °C (as materials/water.yaml has it).
    expect(volumeWords(water(lbOz(5, 6.6)), null, 'us')).toBe('83.2 fl oz');
    expect(volumeWords(water(lbOz(5, 8.7)), null, 'us')).toBe('85.2 fl oz');
    expect(volumeWords(water(1168), null, METRIC)).toBe('1170 mL');
  });

  it('of what lies looser or denser stays at two', () => {
    const cement = { material: 'cement', litres: 6.412, scoops: 27.1, volumeError: 0.28 };
    expect(volumeWords(cement, null, METRIC)).toBe('6400 mL');
    expect(volumeWords(cement, null, 'us')).toBe('1.7 gal');
    expect(volumeWords({ ...cement, volumeError: 0.06 }, null, METRIC)).toBe('6410 mL');
    expect(volumeWords({ ...cement, litres: null }, null, METRIC)).toBe('–');
  });

  it('that is counted out in parts is so many times the part that is told', () => {
    for (const system of [METRIC, 'us'] as const)
      for (const cm3 of [342.2, 57.77, 1234.9])
        for (const count of [1, 2, 6, 7]) {
          const part = { material: 'a', name: 'a', parts: 1, error: 0.3 };
          const parts = {
            ...{ by: 'scoop' as const, found: true, part: cm3, scoops: cm3 / 236.6, apart: [], without: null },
            parts: [part, { ...part, material: 'b', parts: count }],
          } as const;
          const of = (material: string, n: number) =>
            volumeWords(
              { material, litres: (n * cm3) / 1000, scoops: n, volumeError: 0.3 },
              { ...parts, apart: [], parts: [...parts.parts] },
              system,
            );
          const read = (words: string): number => parseQuantity(words, 'volume', {});
          expect(read(of('b', count)) / read(of('a', 1))).toBeCloseTo(count, 2);
        }
  });

  it('has scoops that are so many times the scoops of a part', () => {
    const part = { material: 'a', name: 'a', parts: 6, error: 0.3 };
    const parts = {
      by: 'scoop' as const,
      found: true,
      part: 342,
      scoops: 1.4512,
      apart: [],
      without: null,
      parts: [part],
    };
    const one = { material: 'a', litres: 1, scoops: 8.7072, volumeError: 0.3 };
    expect(scoopsOf(one, parts)).toBe('8.7');
    expect(scoopsOf(one, { ...parts, parts: [{ ...part, parts: 1 }] })).toBe('1.5');
    expect(scoopsOf({ ...one, material: 'b', scoops: 0.03 }, parts)).toBe('<0.1');
  });
});
