import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCsv, writeCsv } from '../../src/core/reading/csv.js';
import { codesOf, problemsOf } from '../support/problems.js';

const RULES = {
  material: { also: ['item'], required: true },
  price: { required: true },
  'in stock': { also: ['stock'] },
  note: {},
} as const;
const read = (text: string) => readCsv(text, 'prices.csv', RULES);
const cells = (text: string) =>
  read(text).rows.map((row) => [row.line, row.cells.material, row.cells.price, row.cells.note]);

describe('reading a table', () => {
  it.each([
    ['commas', 'material,price,note\nsand,5,a\nlime,6,b\n'],
    ['semicolons', 'material;price;note\nsand;5;a\nlime;6;b\n'],
    ['tabs', 'material\tprice\tnote\nsand\t5\ta\nlime\t6\tb\n'],
    ['Windows line ends', 'material,price,note\r\nsand,5,a\r\nlime,6,b\r\n'],
    ['old line ends', 'material,price,note\rsand,5,a\rlime,6,b\r'],
    ['a byte-order mark', '\ufeffmaterial,price,note\nsand,5,a\nlime,6,b'],
    ['other order and headings', 'Note,PRICE,Item\na,5,sand\nb,6,lime\n'],
    ['quotes', '"material","price","note"\n"sand","5","a"\n"lime","6","b"\n'],
    ['spaces and empty end columns', ' material , price , note ,,\n sand , 5 , a ,,\n lime , 6 , b ,,\n'],
  ])('%s', (_, text) => {
    expect(cells(text)).toEqual([
      [2, 'sand', '5', 'a'],
      [3, 'lime', '6', 'b'],
    ]);
  });

  it('keeps the line of every row through blanks, remarks, the sep= line and cells of several lines', () => {
    const text =
      'sep=;\n# invented prices\nmaterial;price;note\n\nsand;4,50;"two\nlines, and a ""quote"""\n# old\nlime;6;\n';
    expect(read(text).delimiter).toBe(';');
    expect(cells(text)).toEqual([
      [5, 'sand', '4,50', 'two\nlines, and a "quote"'],
      [8, 'lime', '6', ''],
    ]);
  });

  it('is not misled by decimal commas', () => {
    expect(cells('material;price\na;1,50\nb;2,50\nc;3,50')).toEqual([
      [2, 'a', '1,50', ''],
      [3, 'b', '2,50', ''],
      [4, 'c', '3,50', ''],
    ]);
  });

  it('is not misled by commas inside a quoted heading', () => {
    expect(cells('"note, of, any, kind, that, is, long, or, short";material;price\nx;sand;5')).toEqual([
      [2, 'sand', '5', ''],
    ]);
  });

  it('keeps columns it does not know, whatever they are called', () => {
    const table = read('material,__proto__,price,supplier\nsand,evil,5,yard\n');
    expect(table.rows[0]!.others).toEqual([
      ['__proto__', 'evil'],
      ['supplier', 'yard'],
    ]);
    expect(table.columns).toEqual(['material', 'price']);
    expect(({} as Record<string, unknown>).evil).toBeUndefined();
  });

  it('warns of a heading that is nearly a known one', () => {
    expect(read('material,price,in stok\nsand,5,1').problems).toMatchObject([
      { code: 'field-unknown', severity: 'warning', found: 'in stok', nearest: 'in stock' },
    ]);
  });
});

describe('what is refused', () => {
  it('rows with too many cells and bad quotes, all at once, with their lines', () => {
    const problems = problemsOf(() => read('material,price\nsand,1,50\nlime,6\nbad,"x"y\ngood,5\nopen,"5\n'));
    expect(problems.map(({ code, where }) => [code, where?.line])).toEqual([
      ['csv-malformed', 4],
      ['csv-malformed', 2],
    ]);
    expect(problems[1]!.hint).toContain('double quotes');
  });
  it('a missing column, a column twice, no rows at all', () => {
    expect(problemsOf(() => read('materiel,cost\nsand,5'))).toMatchObject([
      { code: 'field-unknown', nearest: 'material' },
      { code: 'field-missing', where: { path: 'material', line: 1 } },
      { code: 'field-missing', where: { path: 'price' } },
    ]);
    expect(codesOf(() => read('material,item,price\na,b,1'))).toEqual(['field-duplicate']);
    expect(codesOf(() => read(''))).toEqual(['file-empty']);
    expect(codesOf(() => read('\n\n# nothing\n'))).toEqual(['file-empty']);
  });
  it('files meant to hurt', () => {
    expect(codesOf(() => read(`material,price\n${'a,1\n'.repeat(12_500_000)}`))).toEqual(['file-too-large']);
    expect(codesOf(() => read(`material,price\n${'a,1\n'.repeat(30_000)}`))).toEqual(['file-too-large']);
    expect(codesOf(() => read(`material,price\n${'"a"b\n'.repeat(100_000)}`)).length).toBeLessThan(30);
    expect(codesOf(() => read(`${'a,'.repeat(100_000)}b\n`))).toEqual(['csv-malformed']);
    expect(codesOf(() => read('"'.repeat(500_001)))).toContain('csv-malformed');
  });
  it('never otherwise than by a problem', () => {
    const pieces = fc.constantFrom(
      'material',
      'price',
      ',',
      ';',
      '\t',
      '\n',
      '\r\n',
      '"',
      '""',
      'a',
      '1,5',
      '#',
      '=',
      "'",
      'sep=;',
      '\ufeff',
      '\u0000',
    );
    let cases = 0;
    let tables = 0;
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 40 }), fc.boolean(), (parts, headed) => {
        cases += 1;
        try {
          tables += read((headed ? 'material,price\n' : '') + parts.join('')).rows.length > 0 ? 1 : 0;
        } catch (error) {
          expect((error as Error).name).toBe('InputProblems');
        }
      }),
      { numRuns: 2000, seed: 11 },
    );
    expect(cases).toBe(2000);
    expect(tables).toBeGreaterThan(200);
  });
});

describe('writing a table', () => {
  it('guards every cell a spreadsheet would run', () => {
    const evil = [
      '=cmd()',
      '+1+1',
      '-2+3',
      '@SUM(A1)',
      '\t=1',
      ' =1',
      '\r=1',
      '＝1',
      "'=1",
      '=HYPERLINK("http://x","y")',
    ];
    const text = writeCsv(
      evil.map((note) => ({ material: 'a', price: 1, note })),
      ['material', 'price', 'note'],
    );
    const lines = text.trimEnd().split('\n').slice(1);
    for (const line of lines.filter((entry) => entry.startsWith('a,1,'))) expect(line).toMatch(/^a,1,"?'/);
    expect(lines.filter((entry) => entry.startsWith('a,1,'))).toHaveLength(evil.length);
  });
  it('leaves numbers and plain words as they are', () => {
    expect(
      writeCsv(
        [
          { material: 'sand', price: -1.5, note: '-2' },
          { material: 'a,b', price: Number.NaN, note: null },
        ],
        ['material', 'price', 'note'],
      ),
    ).toBe('material,price,note\nsand,-1.5,-2\n"a,b",,\n');
  });
  it('is read back as it was, formulas too, with any delimiter', () => {
    const cell = fc
      .oneof(
        fc.string({ unit: 'grapheme' }),
        fc.constantFrom('=1+1', "'=x", "''@y", '-3', '+a', '"', 'a"b', 'x;y,z\tw'),
      )
      .map((text) => text.replace(/\r\n?/g, '\n').trim());
    let cases = 0;
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.stringMatching(/^[a-z]{1,8}$/), cell), { minLength: 1, maxLength: 6 }),
        fc.constantFrom(',' as const, ';' as const, '\t' as const),
        (rows, delimiter) => {
          const text = writeCsv(
            rows.map(([material, note]) => ({ material, price: 1, note })),
            ['material', 'price', 'note'],
            delimiter,
          );
          const back = read(text);
          expect(back.rows.map((row) => [row.cells.material, row.cells.note])).toEqual(rows);
          cases += 1;
        },
      ),
      { numRuns: 1000, seed: 12 },
    );
    expect(cases).toBe(1000);
  });
});
