import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvLine } from '../../src/core/reading/csv.js';
import { dayOf } from '../../src/core/shop/order-calendar.js';
import { blendText, readBlend, readWeights, weightsText } from '../../src/core/shop/pours-cells.js';
import { newRecord, POUR_COLUMNS, type PourColumn, type PourRow, pourLine } from '../../src/core/shop/pours-columns.js';
import { nextName, readPours } from '../../src/core/shop/pours-record.js';
import { codesOf, problemsOf } from '../support/problems.js';

const HEAD = newRecord();
const record = (...rows: string[]): string => `${HEAD}${rows.join('\n')}\n`;
const row = (cells: PourRow): string => pourLine(cells, HEAD, 'pours.csv');

describe('reading a record', () => {
  it('reads a pour in core units', () => {
    const text = record(
      row({
        pour: '3',
        date: '2026-05-02',
        brief: 'planter.yaml',
        blend: 'casting-plaster 300; water 180',
        'batch g': '1.2 kg',
        pieces: '2',
        'room C': '68 °F',
        'room %': '45',
        'set min': '18',
        'demould min': '1 h 5 min',
        weights: '3 d: 249 g; 1h 285',
        note: 'first try, "good"',
      }),
    );
    const { pours, problems } = readPours(text, 'pours.csv');
    expect(problems).toEqual([]);
    expect(pours).toHaveLength(1);
    expect(pours[0]).toMatchObject({
      name: '3',
      date: dayOf('2026-05-02'),
      brief: 'planter.yaml',
      batchGrams: 1200,
      pieces: 2,
      humidity: 0.45,
      setMinutes: 18,
      demouldMinutes: 65,
      weights: [
        { hours: 1, grams: 285 },
        { hours: 72, grams: 249 },
      ],
      note: 'first try, "good"',
    });
    expect(pours[0]!.celsius).toBeCloseTo(20, 9);
  });

  it('refuses a table that is no record of pours', () => {
    const [problem] = problemsOf(() => readPours('a,b\n1,2\n', 'prices.csv'));
    expect(problem).toMatchObject({ code: 'field-missing', where: { file: 'prices.csv', line: 1 }, found: 'a, b' });
    // Of a record's own columns a price list has the note.
    const found = 'material, pack, price, note';
    expect(problemsOf(() => readPours(`${found}\n`, 'prices.csv'))).toMatchObject([{ code: 'field-missing', found }]);
  });

  it('writes decimal commas beside semicolons, as the spreadsheet does that wrote them, and reads them back', () => {
    const head = 'pour;room C;batch g;weights\n';
    const line = pourLine({ pour: '1', 'room C': 18.5, 'batch g': 1200, weights: '1 h: 330.5' }, head, 'pours.csv');
    expect(line).toBe('1;18,5;1200;1 h: 330.5');
    const [pour] = readPours(`${head}${line}\n`, 'pours.csv').pours;
    expect(pour).toMatchObject({ celsius: 18.5, batchGrams: 1200, weights: [{ hours: 1, grams: 330.5 }] });
  });

  it('joins the rows of one pour, in the order of time, and lets the later word count', () => {
    const text = record(
      row({ pour: 'a', weights: '72 h: 291', 'set min': 20, note: 'first' }),
      row({ pour: 'b', weights: '1 h: 100' }),
      row({ pour: 'a', weights: '3 h: 314', 'set min': 22, cracks: 'fine', note: 'then' }),
    );
    const { pours, problems } = readPours(text, 'pours.csv');
    expect(pours.map((p) => p.name)).toEqual(['a', 'b']);
    expect(pours[0]).toMatchObject({
      setMinutes: 22,
      cracks: 'fine',
      note: 'first; then',
      weights: [
        { hours: 3, grams: 314 },
        { hours: 72, grams: 291 },
      ],
    });
    expect(problems).toMatchObject([
      { code: 'field-duplicate', severity: 'note', where: { line: 4, path: 'set min' } },
    ]);
  });

  it('gives a row without a name its line', () => {
    const { pours } = readPours(record(row({ note: 'x' }), row({ note: 'y' })), 'pours.csv');
    expect(pours.map((p) => p.name)).toEqual(['line 2', 'line 3']);
  });

  it('leaves out a row that was cut off, and says so: half a number is worse than none', () => {
    const whole = row({ pour: '1', weights: '1 h: 285' });
    const { pours, problems } = readPours(record(whole, '2,2026-05-02,,,,,,,,,1 h: 31'), 'pours.csv');
    expect(pours.map((p) => p.name)).toEqual(['1']);
    expect(problems).toMatchObject([{ code: 'csv-malformed', severity: 'warning', where: { line: 3 } }]);
  });

  it('names every cell it cannot read, with its line', () => {
    const text = record(
      row({ pour: '1', date: '31.12.2026', pieces: '2.5', weights: 'heavy' }),
      row({ pour: '2', 'room C': 'warm', 'set min': '5 g' }),
    );
    const problems = problemsOf(() => readPours(text, 'pours.csv'));
    expect(problems.filter((p) => p.severity === 'error').map((p) => [p.where?.line, p.where?.path])).toEqual([
      [2, 'weights'],
      [2, 'date'],
      [2, 'pieces'],
      [3, 'room C'],
      [3, 'set min'],
    ]);
  });

  it('counts on from the largest number', () => {
    const names = (...pours: string[]) =>
      nextName(readPours(record(...pours.map((pour) => row({ pour, note: 'x' }))), 'f').pours);
    expect(nextName([])).toBe('1');
    expect(names('7', 'spring', '3')).toBe('8');
  });
});

describe('cells', () => {
  it('reads weighings as makers write them', () => {
    for (const text of ['3 d: 249', '3d:249 g', '72h=249', '72 249', '3 days: 0.249 kg', '72 h 249g'])
      expect(readWeights(text), text).toEqual([{ hours: 72, grams: 249 }]);
    expect(readWeights('1,5 h: 285,5')).toEqual([{ hours: 1.5, grams: 285.5 }]);
    expect(readWeights(' 1h:1 ; | 2h:2\n3h:3').map((w) => w.hours)).toEqual([1, 2, 3]);
    expect(readWeights('')).toEqual([]);
    for (const text of ['285', 'h: 285', '1 h: -3', '1 kg: 3', '1 h: 3 h', '1 h: 0'])
      expect(
        problemsOf(() => readWeights(text)),
        text,
      ).not.toHaveLength(0);
  });

  it('reads back what it writes', () => {
    let cases = 0;
    const weighing = fc.record({
      hours: fc.integer({ min: 0, max: 1_000_000 }).map((n) => n / 1000),
      grams: fc.integer({ min: 1, max: 10_000_000 }).map((n) => n / 1000),
    });
    fc.assert(
      fc.property(fc.array(weighing, { maxLength: 8 }), (weights) => {
        cases++;
        expect(readWeights(weightsText(weights))).toEqual(weights);
      }),
    );
    expect(cases).toBe(100);
  });

  it('reads a blend by ids, with or without units', () => {
    expect(readBlend('silica-sand-fine 150; casting-plaster: 0.3 kg ;water = 75 g')).toEqual({
      'silica-sand-fine': '150 g',
      'casting-plaster': '0.3 kg',
      water: '75 g',
    });
    const parts = [
      { material: { id: 'lime-nhl-3-5' }, grams: 123.4564 },
      { material: { id: 'water' }, grams: 50 },
      { material: { id: 'citric-acid' }, grams: 0 },
    ];
    expect(blendText(parts)).toBe('lime-nhl-3-5 123.456; water 50');
    expect(readBlend(blendText(parts))).toEqual({ 'lime-nhl-3-5': '123.456 g', water: '50 g' });
    expect(codesOf(() => readBlend('plaster'))).toEqual(['quantity-unreadable']);
  });
});

/** What a maker or a spreadsheet may do to the file: other order, other delimiter, own columns, formulas, quotes. */
describe('files that hands have edited', () => {
  const text = fc.string({ unit: fc.constantFrom(...'ab ,;"\'=+-@\t\nä°1|'), maxLength: 12 });
  const own = fc.constantFrom('Wetter', 'customer', 'shelf no', 'photo', '=SUM(A1)');
  const columns = fc
    .shuffledSubarray([...POUR_COLUMNS], { minLength: POUR_COLUMNS.length })
    .chain((known) =>
      fc
        .array(fc.tuple(own, fc.nat(known.length)), { minLength: 1, maxLength: 3 })
        .map((extra) =>
          extra.reduce<string[]>(
            (all, [name, at], i) => [...all.slice(0, at), `${name} ${i}`, ...all.slice(at)],
            [...known],
          ),
        ),
    );
  const cells = fc.record({ pour: text, flow: text, bubbles: text, cracks: text, note: text });

  it('take the row in their own order and keep every other cell', () => {
    let cases = 0;
    fc.assert(
      fc.property(
        columns,
        fc.constantFrom(',', ';', '\t'),
        fc.array(cells, { minLength: 1, maxLength: 4 }),
        (headings, delimiter, rows) => {
          cases++;
          let file = `${csvLine(headings, delimiter)}\n${csvLine(
            headings.map((_h, i) => (POUR_COLUMNS.includes(headings[i] as PourColumn) ? '' : `kept ${i}`)),
            delimiter,
          )}\n`;
          const before = file;
          rows.forEach((cell, i) => {
            file += `${pourLine({ ...cell, pour: `n${i}` }, file, 'f')}\n`;
          });
          expect(file.startsWith(before)).toBe(true);
          const { pours } = readPours(file, 'f');
          expect(pours.map((p) => p.name)).toEqual(['line 2', ...rows.map((_r, i) => `n${i}`)]);
          rows.forEach((cell, i) => {
            const told = pours[i + 1]!;
            for (const key of ['flow', 'bubbles', 'cracks', 'note'] as const) expect(told[key]).toBe(cell[key].trim());
          });
        },
      ),
      { numRuns: 200 },
    );
    expect(cases).toBe(200);
  });

  it('never get a cell that a spreadsheet would run', () => {
    for (const bad of ['=cmd|x', '+1+1', '@SUM(A1)', '-2+3', '\t=1', '＝1']) {
      const line = row({ pour: '1', note: bad });
      expect(line.endsWith(`,'${bad.trim()}`), line).toBe(true);
      expect(readPours(record(line), 'f').pours[0]!.note).toBe(bad.trim());
    }
  });

  it('are asked for a column they lack, and only when it is needed', () => {
    const lean = 'date;pour;note\n';
    expect(pourLine({ pour: '1', note: 'x' }, lean, 'f')).toBe(';1;x');
    const problems = problemsOf(() => pourLine({ pour: '1', weights: '1 h: 2', cracks: 'fine' }, lean, 'f'));
    expect(problems.map((p) => [p.code, p.where?.path])).toEqual([
      ['field-missing', 'weights'],
      ['field-missing', 'cracks'],
    ]);
  });

  it('can be added to even when a row further down is broken', () => {
    expect(pourLine({ pour: '1', note: 'x' }, 'pour,note\n"open,1\nx,y,z,w\n', 'f')).toBe('1,x');
    expect(pourLine({ pour: '1', note: 'x' }, 'sep=;\n# my pours\n\npour;note\n"', 'f')).toBe('1;x');
    expect(pourLine({ pour: '1', note: 'x' }, '\ufeffsep=\t\r\nnote\tpour\r\n', 'f')).toBe('x\t1');
  });

  it('keep their own words for columns', () => {
    const file = 'No;Notes;Temperature;Set\n7;ok;21,5;18\n';
    expect(readPours(file, 'f').pours[0]).toMatchObject({ name: '7', note: 'ok', celsius: 21.5, setMinutes: 18 });
  });
});
