import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Sum, shownLines, sum, toCoins } from '../../src/core/shop/sums.js';
import { currencyDecimals } from '../../src/core/units/currency.js';

const exact = (texts: readonly string[]) => texts.map((t) => new Sum(t));

describe('lines that add up to their total', () => {
  it('gives the lacking coins to the lines that lost most', () => {
    // Worked by hand: 0.335 + 0.333 + 0.332 = 1.000; cut to cents 0.33 each, one cent lacks, the first line lost most.
    const { lines, total } = shownLines(exact(['0.335', '0.333', '0.332']), 2);
    expect(total.toFixed()).toBe('1');
    expect(lines.map((l) => l.toFixed(2))).toEqual(['0.34', '0.33', '0.33']);
  });

  it('prints 0.1 + 0.2 as 0.3, and yen without decimals', () => {
    expect(shownLines(exact(['0.1', '0.2']), 2).total.toFixed()).toBe('0.3');
    const yen = shownLines(exact(['10.4', '10.4', '10.4']), 0);
    expect([yen.total.toFixed(), ...yen.lines.map((l) => l.toFixed())]).toEqual(['31', '11', '10', '10']);
  });

  // Published: Sabin, Cement and Concrete, art. 288 (facts: proportioning, worked example 14), cost of a mortar:
  // 3.46 at 1.10 and 0.72 at 0.60 and mixing 1.00, printed 3.80 + 0.43 + 1.00 = 5.23. Sabin cuts each line; exact it is
  // 5.238, which rounds to 5.24. Our lines must add up to our total, be within a cent of his, and not be his by accident.
  it('stays within a cent of a published sum whose lines were cut', () => {
    const lines = [new Sum('3.46').times('1.10'), new Sum('0.72').times('0.60'), new Sum('1.00')];
    expect(sum(lines).toFixed()).toBe('5.238');
    const shown = shownLines(lines, 2);
    expect(shown.total.toFixed()).toBe('5.24');
    expect(sum(shown.lines).toFixed()).toBe('5.24');
    const printed = ['3.80', '0.43', '1.00'];
    shown.lines.forEach((line, i) => {
      expect(line.minus(printed[i]!).abs().lte('0.01')).toBe(true);
    });
    const cut = lines.map((l) => l.toDecimalPlaces(2, Sum.ROUND_FLOOR));
    expect(sum(cut).toFixed()).toBe('5.23');
  });

  it('adds up for any lines, none a coin away from its exact amount', () => {
    let exercised = 0;
    const amount = fc
      .tuple(fc.integer({ min: 0, max: 99_999_999 }), fc.integer({ min: 0, max: 7 }))
      .map(([n, scale]) => new Sum(n).div(new Sum(10).pow(scale)));
    fc.assert(
      fc.property(fc.array(amount, { minLength: 1, maxLength: 25 }), fc.constantFrom(0, 2, 3), (lines, decimals) => {
        const coin = new Sum(10).pow(-decimals);
        const shown = shownLines(lines, decimals);
        expect(sum(shown.lines).eq(shown.total)).toBe(true);
        expect(shown.total.eq(toCoins(sum(lines), decimals))).toBe(true);
        shown.lines.forEach((line, i) => {
          expect(line.minus(lines[i]!).abs().lt(coin)).toBe(true);
          expect(line.div(coin).isInteger()).toBe(true);
        });
        exercised += 1;
      }),
      { numRuns: 500, seed: 11 },
    );
    expect(exercised).toBe(500);
  });
});

describe('decimals of a currency', () => {
  it('knows hundredths, whole coins, thousandths and smaller', () => {
    // ISO 4217, list of 2025-02-04.
    expect(['EUR', 'USD', 'HUF', 'JPY', 'KRW', 'KWD', 'TND', 'CLF'].map(currencyDecimals)).toEqual([
      2, 2, 2, 0, 0, 3, 3, 4,
    ]);
    expect(currencyDecimals(null)).toBe(2);
  });

  it('never shows more decimals than the standard where the engine, which follows the till, shows fewer', () => {
    const codes = Intl.supportedValuesOf('currency');
    const till = (currency: string) =>
      new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2;
    let compared = 0;
    for (const code of codes) {
      const own = currencyDecimals(code);
      if (own !== 2 && code !== 'IQD') expect([code, till(code)]).toEqual([code, own]);
      expect(till(code), code).toBeLessThanOrEqual(own);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(150);
  });
});
