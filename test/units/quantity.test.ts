import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explain } from '../../src/core/problems/words.js';
import { gramsOf, parseAmount, parseQuantity } from '../../src/core/units/quantity.js';
import { type QuantityKind, spellings } from '../../src/core/units/vocabulary.js';
import { codesOf, problemsOf } from '../support/problems.js';

const mass = (text: unknown): number => parseQuantity(text, 'mass');

describe('numbers as makers write them', () => {
  it.each([
    ['200 g', 200],
    ['200g', 200],
    ['0,5 kg', 500],
    ['1,5 kg', 1500],
    ['12,75 g', 12.75],
    ['0,500 kg', 500],
    ['1.250 kg', 1250],
    ['1234,567 g', 1234.567],
    ['1,234.5 g', 1234.5],
    ['1.234,5 g', 1234.5],
    ['1,234,567 g', 1234567],
    ['1.234.567 g', 1234567],
    ['1 234 g', 1234],
    ['1\u202f234,5 g', 1234.5],
    ["1'234.5 g", 1234.5],
    ['.5 kg', 500],
    ['1e3 g', 1000],
    ['2.5E-1 kg', 250],
    ['+5 g', 5],
    ['½ kg', 500],
    ['1½ kg', 1500],
    ['1 1/2 kg', 1500],
    ['1-1/2 kg', 1500],
    ['3/4 kg', 750],
    ['11/2 kg', 5500],
    ['2 lb 8 oz', 2.5 * 453.59237],
    ['2 lb, 8 oz', 2.5 * 453.59237],
    ['2 lb and 8 oz', 2.5 * 453.59237],
    ['1 kg 200 g', 1200],
  ])('%s', (text, grams) => {
    expect(mass(text)).toBe(grams);
  });

  it.each(['1,234 g', '12,345 kg', '999,000 g'])(
    '%s could be a thousand or a decimal, so it is refused with both',
    (text) => {
      const [problem] = problemsOf(() => mass(text));
      expect(problem).toMatchObject({ code: 'quantity-ambiguous', found: text });
      const number = text.split(' ')[0]!;
      expect(problem!.hint).toContain(`“${number.replace(',', '')}” or “${number.replace(',', '.')}”`);
    },
  );
});

describe('units as makers write them', () => {
  it.each([
    ['8 fl oz', 'volume', 236.5882365],
    ["1/2''", 'length', 1.27],
    ['1/2′′', 'length', 1.27],
    ["5' 6''", 'length', 66 * 2.54],
    ['8 fl. oz.', 'volume', 236.5882365],
    ['8 Fluid Ounces', 'volume', 236.5882365],
    ['500 ML', 'volume', 500],
    ['1 ltr', 'volume', 1000],
    ['3 cups', 'volume', 709.7647095],
    ['1 cu-in', 'volume', 16.387064],
    ['1 in³', 'volume', 16.387064],
    ['1 in^3', 'volume', 16.387064],
    ['1 cubic foot', 'volume', 28316.846592],
    ['10 cc', 'volume', 10],
    ['5 lbs.', 'mass', 5 * 453.59237],
    ['5 KG', 'mass', 5000],
    ['3"', 'length', 7.62],
    ['2\' 6"', 'length', 76.2],
    ['5 ft 3 in', 'length', 160.02],
    ['80 mm', 'length', 8],
    ['90 mins', 'setTime', 90],
    ['1 h 30 min', 'setTime', 90],
    ['1h30min', 'setTime', 90],
    ['3 days', 'time', 72],
    ['90 s', 'setTime', 1.5],
    ['5 %', 'fraction', 0.05],
    ['5 per cent', 'fraction', 0.05],
    ['0.05 fraction', 'fraction', 0.05],
    ['1600 kg per m3', 'density', 1.6],
    ['2.65 g/mL', 'density', 2.65],
  ] as const)('%s', (text, kind, value) => {
    expect(parseQuantity(text, kind)).toBeCloseTo(value, 9);
  });

  it('reads every spelling it lists, and plurals of none mean another dimension', () => {
    const kinds: readonly QuantityKind[] = [
      'mass',
      'volume',
      'length',
      'time',
      'temperature',
      'fraction',
      'density',
      'pressure',
    ];
    let read = 0;
    for (const kind of kinds) {
      for (const word of spellings(kind as 'mass')) {
        expect(parseQuantity(`300 ${word}`, kind), word).toEqual(expect.any(Number));
        read += 1;
      }
    }
    expect(read).toBeGreaterThan(200);
  });

  it('refuses a bare share below one, which is as likely a fraction as percent', () => {
    const share = (text: unknown) => parseQuantity(text, 'fraction', undefined, { assume: '%' });
    for (const text of [0.06, '0.06', '0,06'])
      expect(problemsOf(() => share(text)).map(explain)).toEqual([
        `This number can be read in two ways: found “${text}”, expected a share such as “5 %”. Write “0.06 %” or “6 %”.`,
      ]);
    expect([share('0.06 %'), share('6 %'), share('0.06 fraction')]).toEqual([0.0006, 0.06, 0.06]);
  });

  it('takes a bare number only where a unit is assumed', () => {
    expect(parseQuantity(200, 'mass', undefined, { assume: 'g' })).toBe(200);
    expect(parseQuantity('200', 'mass', undefined, { assume: 'lb' })).toBe(90718.474);
    expect(parseQuantity(5, 'fraction', undefined, { assume: '%' })).toBe(0.05);
    expect(parseQuantity(1, 'fraction', undefined, { assume: '%' })).toBe(0.01);
    expect(parseQuantity(0, 'fraction', undefined, { assume: '%' })).toBe(0);
    expect(parseQuantity('200 oz', 'mass', undefined, { assume: 'g' })).toBe(5669.904625);
    const [problem] = problemsOf(() => mass(200));
    expect(explain(problem!)).toBe(
      'Found “200”, expected a mass such as “200 g” or “7 oz”. A number needs its unit here.',
    );
  });
});

describe('mass and volume are never taken for each other', () => {
  it('an ounce where a volume is asked for is refused with the word that was meant', () => {
    const [problem] = problemsOf(() =>
      parseQuantity('8 oz', 'volume', { file: 'brief.yaml', line: 4, path: 'mould.water' }),
    );
    expect(problem).toMatchObject({ code: 'unit-wrong-kind', found: '8 oz', where: { line: 4 } });
    expect(explain(problem!)).toContain('write “fl oz” for fluid ounces');
  });
  it('and the other way about', () => {
    expect(problemsOf(() => mass('8 fl oz'))[0]).toMatchObject({
      code: 'unit-wrong-kind',
      hint: expect.stringContaining('“oz”'),
    });
  });
  it('the example of the developers’ page', () => {
    const where = { file: 'brief.yaml', line: 12, path: 'targets.dry-weight.max' };
    expect(explain(problemsOf(() => parseQuantity('200 mL', 'mass', where))[0]!)).toBe(
      'brief.yaml line 12, targets.dry-weight.max: found “200 mL”, expected a mass such as “200 g” or “7 oz”.',
    );
  });
  it('an amount keeps which of the two it is, and a volume needs the density', () => {
    expect(parseAmount('8 oz')).toEqual({ grams: 226.796185 });
    expect(parseAmount('8 fl oz')).toEqual({ cm3: 236.5882365 });
    expect(gramsOf({ cm3: 500 }, 1.05)).toBe(525);
    expect(gramsOf({ grams: 500 }, undefined)).toBe(500);
    expect(codesOf(() => gramsOf({ cm3: 500 }, undefined))).toEqual(['material-density-missing']);
    expect(codesOf(() => parseAmount('5 cm'))).toEqual(['unit-wrong-kind']);
  });
});

describe('hostile and mistaken quantities', () => {
  it.each([
    ['1e400 g', 'field-out-of-range'],
    ['1e13 g', 'field-out-of-range'],
    ['-5 g', 'field-out-of-range'],
    ['−5 g', 'field-out-of-range'],
    ['5 g g', 'unit-unknown'],
    ['5 g 3 g', 'quantity-unreadable'],
    ['3 oz 2 lb', 'quantity-unreadable'],
    ['2 lb -3 oz', 'unit-unknown'],
    ['constructor', 'quantity-unreadable'],
    ['5 constructor', 'unit-unknown'],
    ['5 __proto__', 'unit-unknown'],
    ['5 toString', 'unit-unknown'],
    ['', 'quantity-unreadable'],
    ['   ', 'quantity-unreadable'],
    ['g', 'quantity-unreadable'],
    ['5.', 'quantity-unreadable'],
    ['5. g', 'quantity-unreadable'],
    ['1.2.3 g', 'quantity-unreadable'],
    ['1,2,3 g', 'quantity-unreadable'],
    ['1/0 g', 'quantity-unreadable'],
    ['1 3/2 g', 'quantity-unreadable'],
    ['1/2/3 g', 'unit-unknown'],
    ['0x10 g', 'unit-unknown'],
    ['5*3 g', 'unit-unknown'],
    ['5 g^2', 'unit-unknown'],
    ['5 kg/m3', 'unit-wrong-kind'],
    ['(5) g', 'quantity-unreadable'],
    ['5 g; rm -rf /', 'unit-unknown'],
    ['NaN g', 'quantity-unreadable'],
    ['Infinity g', 'quantity-unreadable'],
    ['1 ton', 'unit-unknown'],
    ['5 T', 'unit-unknown'],
    ['5 gr', 'unit-unknown'],
    ['5 months', 'unit-unknown'],
    [`${'9'.repeat(2000)} g`, 'quantity-unreadable'],
    [null, 'field-wrong-type'],
    [[5, 'g'], 'field-wrong-type'],
    [{ g: 5 }, 'field-wrong-type'],
    [true, 'field-wrong-type'],
    [Number.NaN, 'field-out-of-range'],
    [Number.POSITIVE_INFINITY, 'field-out-of-range'],
  ])('%s', (text, code) => {
    expect(codesOf(() => mass(text))).toEqual([code]);
  });

  it('zero is a mass, unless it must be more', () => {
    expect(mass('0 g')).toBe(0);
    expect(codesOf(() => parseQuantity('0 g', 'mass', undefined, { positive: true }))).toEqual(['amount-not-positive']);
    // So small that what is divided by it is no number any more.
    expect(codesOf(() => parseQuantity('5e-324 kg', 'mass', undefined, { positive: true }))).toEqual([
      'amount-not-positive',
    ]);
  });

  it('says what a word with two meanings may be, and the nearest unit of a misspelt one', () => {
    expect(problemsOf(() => mass('2 tons'))[0]!.hint).toContain('short ton');
    expect(problemsOf(() => mass('200 gramms'))[0]!.nearest).toBe('grams');
    expect(problemsOf(() => parseQuantity('2 tabelspoons', 'volume'))[0]!.nearest).toBe('tablespoons');
  });

  it('never fails otherwise than by a problem, whatever the text', () => {
    const alphabet = fc.constantFrom(...'0123456789.,/-+eE \'"½°%³gGkKmMlLoOzZftincp\u0000\u202e#*^()'.split(''));
    const pieces = fc.constantFrom(
      '1',
      '20',
      '.5',
      ',5',
      '1/2',
      '½',
      ' ',
      'g',
      ' lb',
      ' oz',
      ' mL',
      ' %',
      ' °F',
      '/',
      'e3',
      '-',
      'cm3',
    );
    const texts = fc.oneof(fc.string(), fc.string({ unit: alphabet, maxLength: 30 }), fc.string({ unit: 'grapheme' }), {
      weight: 4,
      arbitrary: fc.array(pieces, { minLength: 1, maxLength: 3 }).map((parts) => parts.join('')),
    });
    let refused = 0;
    let read = 0;
    fc.assert(
      fc.property(
        texts,
        fc.constantFrom<QuantityKind>('mass', 'volume', 'temperature', 'density', 'fraction'),
        (text, kind) => {
          try {
            expect(Number.isFinite(parseQuantity(text, kind, undefined, kind === 'mass' ? { assume: 'g' } : {}))).toBe(
              true,
            );
            read += 1;
          } catch (error) {
            expect((error as Error).name).toBe('InputProblems');
            refused += 1;
          }
        },
      ),
      { numRuns: 3000, seed: 20 },
    );
    expect(refused).toBeGreaterThan(1000);
    expect(read).toBeGreaterThan(60);
  });
});
