import { describe, expect, it } from 'vitest';
import type { Quantity } from '../../src/core/blend/property.js';
import { roundTicks } from '../../src/core/report/ticks.js';
import { printQuantity } from '../../src/core/units/print.js';
import { convert, parseQuantity } from '../../src/core/units/quantity.js';
import type { QuantityKind } from '../../src/core/units/vocabulary.js';
import { seededRandom } from '../support/random-programs.js';

/** What is written at a tick is where it stands, and is round in the units it is written in. */

const US = { system: 'us', currency: 'USD' } as const;
const METRIC = { system: 'metric', currency: 'EUR' } as const;
const texts = (...asked: Parameters<typeof roundTicks>): string[] => roundTicks(...asked).map((t) => t.text);

/** Kind that its print is read back as, ends of what castings have. */
const KINDS: readonly (readonly [Quantity, QuantityKind, number, number])[] = [
  ['mass', 'mass', 20, 9000],
  ['volume', 'volume', 40, 9000],
  ['density', 'density', 0.5, 2.6],
  ['set-time', 'setTime', 4, 6000],
  ['days', 'time', 0.5, 60],
  ['strength', 'pressure', 0.5, 90],
  ['temperature', 'temperature', 18, 95],
];

describe('ticks of an axis', () => {
  it('are round in the units shown', () => {
    expect(texts('strength', [9, 57], 5, US)).toEqual(
      ['2000', '3000', '4000', '5000', '6000', '7000', '8000'].map((n) => `${n} psi`),
    );
    expect(texts('mass', [480, 1250], 5, US).slice(0, 4)).toEqual(['1 lb 4 oz', '1 lb 8 oz', '1 lb 12 oz', '2 lb']);
    expect(texts('temperature', [21, 63], 5, US)).toEqual(['80 °F', '100 °F', '120 °F', '140 °F']);
    expect(texts('set-time', [100, 700], 5, METRIC)).toEqual(['2 h', '4 h', '6 h', '8 h', '10 h']);
    expect(texts('set-time', [25, 3000], 4, METRIC, true)[0]).toBe('30 min');
    expect(texts('money', [0.301, 0.42], 5, METRIC)[0]).toBe('0.32 EUR');
    expect(texts('ratio', [0.35, 0.62], 5, METRIC)).toEqual(['0.35', '0.40', '0.45', '0.50', '0.55', '0.60']);
  });

  it('are read back as the very place they stand at, one word a place, in any span', () => {
    const random = seededRandom(6);
    let seen = 0;
    for (let i = 0; i < 700; i++) {
      const [quantity, kind, least, most] = KINDS[i % KINDS.length]!;
      const low = Math.exp(random.between(Math.log(least), Math.log(most / 1.3)));
      const high = Math.min(most, low * random.between(1.2, 30));
      const log = high / low > 20;
      const wording = i % 2 === 0 ? US : METRIC;
      const ticks = roundTicks(quantity, [low, high], 5, wording, log);
      expect(ticks.length).toBeLessThanOrEqual(10);
      expect(new Set(ticks.map((t) => t.text)).size).toBe(ticks.length);
      for (const { value, text } of ticks) {
        const days = quantity === 'days' ? 24 : 1;
        expect(parseQuantity(text, kind) / (days * value), `${quantity} ${text}`).toBeCloseTo(1, 9);
        expect(value).toBeGreaterThanOrEqual(low * (1 - 1e-9));
        expect(value).toBeLessThanOrEqual(high * (1 + 1e-9));
        seen++;
      }
    }
    expect(seen).toBeGreaterThan(2000);
  });

  it('tell a pound per square inch as its definition does', () => {
    // 1 lbf/in² by the pound of 0.45359237 kg, standard gravity and the inch of 25.4 mm (NIST SP 811, from memory).
    const psi = (0.45359237 * 9.80665) / 0.0254 ** 2 / 1e6;
    for (const { value, text } of roundTicks('strength', [3, 50], 5, US))
      expect(value / (Number.parseFloat(text) * psi)).toBeCloseTo(1, 9);
    expect(printQuantity(convert(3000, 'psi', 'MPa'), 'pressure', US)).toBe('3000 psi');
  });

  it('are none where an axis has no length', () => {
    expect(roundTicks('mass', [5, 5], 4, METRIC)).toEqual([]);
  });
});
