import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PROPERTIES, propertyById } from '../../src/core/blend/properties/index.js';
import { readLimit } from '../../src/core/brief/read-targets.js';
import { reachableLimit, stepOf, stepWords } from '../../src/core/report/gain-words.js';
import { printWindow } from '../../src/core/report/print.js';
import { convert } from '../../src/core/units/quantity.js';
import { between, property } from '../science/counting.js';

const METRIC = { system: 'metric', currency: 'EUR' } as const;
const US = { system: 'us', currency: 'USD' } as const;
const psi = (n: number): number => convert(n, 'psi', 'MPa');

describe('a step of a limit', () => {
  it.each([
    ['strength', 15, '1 MPa', '200 psi'],
    ['strength', 5, '0.5 MPa', '50 psi'],
    ['strength', psi(3000), '2 MPa', '200 psi'],
    ['dry-weight', 1350, '100 g', '2 oz'],
    ['dry-weight', 430, '20 g', '1 oz'],
    ['dry-weight', 30_000, '2000 g', '5 lb'],
    ['fresh-density', 1.6, '0.1 g/cm3', '5 lb/ft3'],
    ['peak-temperature', 60, '5.0 °C', '10 °F'],
    ['fresh-volume', 500, '50 mL', '1 fl oz'],
    ['demould-time', 60, '5 min', '5 min'],
    ['water-to-binder', 0.5, '0.050', '0.050'],
  ] as const)('on %s of %f is round as it is shown: %s, %s', (id, limit, metric, us) => {
    const { quantity } = propertyById(id)!;
    expect(stepWords(id, stepOf(quantity, limit, 'metric'), METRIC)).toBe(metric);
    expect(stepWords(id, stepOf(quantity, limit, 'us'), US)).toBe(us);
  });
});

describe('a limit that can be had', () => {
  it.each([
    ['strength', 'min', 6.894, 'at least 6.89 MPa', 'at least 999 psi'],
    ['strength', 'max', 6.894, 'at most 6.9 MPa', 'at most 1000 psi'],
    ['dry-weight', 'max', 1071.2, 'at most 1080 g', 'at most 2 lb 5.8 oz'],
    ['peak-temperature', 'max', 54.31, 'at most 54.4 °C', 'at most 130 °F'],
    ['cost', 'max', 0.4512, 'at most 0.452 EUR', 'at most 0.452 USD'],
  ] as const)('on %s, %s %f, is round as it is shown: %s, %s', (id, side, value, metric, us) => {
    const words = (wording: typeof METRIC | typeof US): string => {
      const limit = reachableLimit(side, value, { property: id, system: wording.system });
      return printWindow(id, side === 'min' ? limit : null, side === 'max' ? limit : null, wording);
    };
    expect(words(METRIC)).toBe(metric);
    expect(words(US)).toBe(us);
  });

  it('is kept by the value, read back from its words', () => {
    property(
      fc.tuple(fc.constantFrom(...PROPERTIES), between(0.5, 3000), fc.constantFrom(3, 4), fc.boolean(), fc.boolean()),
      ([p, value, digits, least, us]) => {
        // Times of more than two days are printed by the hundredth, and money by the cent or three figures.
        if (['set-time', 'days', 'money'].includes(p.quantity)) return false;
        const wording = us ? US : METRIC;
        const side = least ? 'min' : 'max';
        const limit = reachableLimit(side, value, { property: p.id, system: wording.system, digits });
        const words = printWindow(p.id, least ? limit : null, least ? null : limit, wording);
        const read = readLimit(words.replace(/^at \w+ /, ''), p.quantity, wording.currency, {});
        const beyond = least ? read - value : value - read;
        expect(beyond, `${p.id} ${value}: ${words}`).toBeLessThanOrEqual(1e-9 * value);
        return true;
      },
      2000,
      1000,
    );
  });
});
