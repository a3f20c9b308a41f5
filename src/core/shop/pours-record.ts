import { gather } from '../problems/gather.js';
import { type Problem, refuse, type Where } from '../problems/problem.js';
import { type CsvRow, type CsvTable, readCsv } from '../reading/csv.js';
import { parseQuantity } from '../units/quantity.js';
import type { QuantityKind } from '../units/vocabulary.js';
import { type Day, readDay } from './order-calendar.js';
import { readWeights, type Weighing } from './pours-cells.js';
import { POUR_COLUMNS, POUR_RULES, type PourColumn, tellingColumn } from './pours-columns.js';

/** One pour as its rows tell it, in core units; null where nothing is written. */
export interface Pour {
  readonly name: string;
  readonly date: Day | null;
  /** File of the brief or recipe, from the record's folder. */
  readonly brief: string | null;
  /** Materials and amounts as written. */
  readonly blend: string | null;
  readonly batchGrams: number | null;
  readonly pieces: number | null;
  readonly celsius: number | null;
  /** 0..1. */
  readonly humidity: number | null;
  readonly setMinutes: number | null;
  readonly demouldMinutes: number | null;
  /** In the order of time. */
  readonly weights: readonly Weighing[];
  readonly flow: string;
  readonly bubbles: string;
  readonly cracks: string;
  readonly note: string;
  /** Of its first row. */
  readonly where: Where;
}

export interface PourRecord {
  readonly pours: readonly Pour[];
  readonly problems: readonly Problem[];
}

type Table = CsvTable<PourColumn>;
type Row = CsvRow<PourColumn>;

/**
 * Reads a record of pours. Columns may stand in any order, among others.
 *
 * A row with fewer cells than the first row is left out with a warning: a crash may have cut it off, and half a number is
 * worse than none. Throws InputProblems with every cell that cannot be read.
 */
export function readPours(text: string, file: string): PourRecord {
  const table = readCsv(text, file, POUR_RULES);
  if (tellingColumn(table) === undefined)
    refuse({
      code: 'field-missing',
      where: { file, line: 1 },
      found: table.headings.join(', '),
      expected: `a record of pours, whose first row names columns such as ${POUR_COLUMNS.slice(0, 4).join(', ')}`,
    });
  const all = gather();
  for (const problem of table.problems) all.add(problem);
  const whole = table.rows.filter((row) => {
    if (row.width >= table.headings.length) return true;
    all.add({
      code: 'csv-malformed',
      severity: 'warning',
      where: table.where(row),
      found: `${row.width} cells where the first row has ${table.headings.length}`,
      hint: 'the row looks cut off and is left out; if it is whole, add the empty cells at its end',
    });
    return false;
  });
  const byName = new Map<string, Row[]>();
  whole.forEach((row) => {
    const name = row.cells.pour === '' ? `line ${row.line}` : row.cells.pour;
    byName.set(name, [...(byName.get(name) ?? []), row]);
  });
  const pours = [...byName].flatMap(([name, rows]) => all.attempt(() => pourOf(name, rows, table, all)) ?? []);
  return { pours, problems: all.finish() };
}

function pourOf(name: string, rows: readonly Row[], table: Table, all: ReturnType<typeof gather>): Pour {
  /** The last row that says something wins, and a change of mind is noted. */
  const cell = (column: PourColumn): { text: string; where: Where } => {
    const said = rows.filter((row) => row.cells[column] !== '');
    const last = said.at(-1);
    const first = said[0];
    if (first !== undefined && last !== undefined && first.cells[column] !== last.cells[column]) {
      all.add({
        code: 'field-duplicate',
        severity: 'note',
        where: table.where(last, column),
        found: `${last.cells[column]}, after ${first.cells[column]} in line ${first.line}`,
        hint: `pour ${name}: the later row counts`,
      });
    }
    return { text: (last?.cells[column] ?? '').trim(), where: table.where(last ?? rows[0]!, column) };
  };
  const number = (column: PourColumn, kind: QuantityKind, assume: string): number | null => {
    const { text, where } = cell(column);
    const options = { assume, positive: kind !== 'temperature' && kind !== 'fraction' };
    return text === '' ? null : (all.attempt(() => parseQuantity(text, kind, where, options)) ?? null);
  };
  const words = (column: PourColumn): string => cell(column).text;
  const orNull = (text: string): string | null => (text === '' ? null : text);
  const date = cell('date');
  const weights = rows.flatMap(
    (row) => all.attempt(() => readWeights(row.cells.weights, table.where(row, 'weights'))) ?? [],
  );
  return {
    name,
    date: date.text === '' ? null : (all.attempt(() => readDay(date.text, date.where)) ?? null),
    brief: orNull(words('brief')),
    blend: orNull(words('blend')),
    batchGrams: number('batch g', 'mass', 'g'),
    pieces: piecesOf(cell('pieces'), all),
    celsius: number('room C', 'temperature', '°C'),
    humidity: number('room %', 'fraction', '%'),
    setMinutes: number('set min', 'setTime', 'min'),
    demouldMinutes: number('demould min', 'setTime', 'min'),
    weights: weights.sort((a, b) => a.hours - b.hours),
    flow: words('flow'),
    bubbles: words('bubbles'),
    cracks: words('cracks'),
    note: rows
      .map((row) => row.cells.note.trim())
      .filter((note) => note !== '')
      .join('; '),
    where: table.where(rows[0]!),
  };
}

function piecesOf({ text, where }: { text: string; where: Where }, all: ReturnType<typeof gather>): number | null {
  if (text === '') return null;
  const number = Number(text);
  if (Number.isInteger(number) && number > 0 && number <= 10_000) return number;
  all.add({ code: 'field-wrong-type', severity: 'error', where, found: text, expected: 'a whole number of pieces' });
  return null;
}

/** The next free number among the names of a record. */
export const nextName = (pours: readonly Pour[]): string =>
  String(1 + pours.reduce((most, p) => Math.max(most, /^\d{1,9}$/.test(p.name) ? Number(p.name) : 0), 0));
