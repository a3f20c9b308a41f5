import fc from 'fast-check';
import { wrapAnsi } from 'fast-wrap-ansi';
import { describe, expect, it } from 'vitest';
import { sheet } from '../../src/cli/render/page.js';

const WIDTH = 40;

/** Words and spaces as makers and tables write them, some with letters that take two columns or none. */
const text = fc
  .array(fc.constantFrom('sand', 'a', 'plaster,', 'lightweight', '2.4 g/cm3', 'é', '×·', '漆', '', ' ', '(beta)'), {
    maxLength: 14,
  })
  .map((words) => words.join(' '));

describe('paragraphs', () => {
  it('are folded as the wrapping library folds them, a figure with its unit, whether they fit as they are or not', () => {
    let [fits, folds] = [0, 0];
    fc.assert(
      fc.property(text, (words) => {
        const page = sheet(WIDTH, false);
        page.paragraph(words);
        const kept = words.replaceAll('2.4 g/cm3', '2.4\u00a0g/cm3');
        const expected = wrapAnsi(kept, WIDTH).replaceAll('\u00a0', ' ');
        expect(page.text()).toBe(`${expected}\n`);
        if (expected.includes('\n')) folds++;
        else fits++;
      }),
      { numRuns: 600, seed: 4 },
    );
    expect(Math.min(fits, folds)).toBeGreaterThan(100);
  });

  it('fill a line to its last column and no further', () => {
    const page = sheet(WIDTH, false);
    page.paragraph(`${'x'.repeat(WIDTH - 2)} y`);
    page.paragraph(`${'x'.repeat(WIDTH - 2)} yz`);
    expect(page.text().split('\n')).toEqual([`${'x'.repeat(WIDTH - 2)} y`, 'x'.repeat(WIDTH - 2), 'yz', '']);
  });
});

describe('tables', () => {
  it('hold words of several columns under a heading, coloured or not', () => {
    const rows = [
      ['Kalk (漆)', '12 g'],
      ['sand', '1 234 g'],
    ];
    const drawn = (colour: boolean): string => {
      const page = sheet(WIDTH, colour);
      page.table(rows, ['left', 'right'], ['material', 'weigh out']);
      return page.text();
    };
    expect(drawn(false)).toBe(
      ['  material   weigh out', '  Kalk (漆)       12 g', '  sand         1 234 g', ''].join('\n'),
    );
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the colours.
    expect(drawn(true).replace(/\u001b\[\d+m/g, '')).toBe(drawn(false));
  });
});
