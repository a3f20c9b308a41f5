import { gather } from '../problems/gather.js';
import { type ColumnRule, type CsvCell, csvLine, readCsv } from '../reading/csv.js';
import { type CsvHead, firstRow } from '../reading/csv-head.js';

/**
 * The record of pours: a CSV a spreadsheet opens, one row a pour, or several rows with the same name in `pour` that
 * together tell of one: a later weighing is a later row, so that nothing written is ever written over.
 */
export const POUR_COLUMNS = [
  'pour',
  'date',
  'brief',
  'blend',
  'batch g',
  'pieces',
  'room C',
  'room %',
  'set min',
  'demould min',
  'weights',
  'flow',
  'bubbles',
  'cracks',
  'note',
] as const;
export type PourColumn = (typeof POUR_COLUMNS)[number];

/** Headings makers give the same columns. */
export const POUR_RULES: Readonly<Record<PourColumn, ColumnRule>> = {
  pour: { also: ['no', 'number', 'id'] },
  date: { also: ['day'] },
  brief: { also: ['recipe', 'file'] },
  blend: { also: ['mix', 'materials', 'ingredients'] },
  'batch g': { also: ['batch', 'batch grams', 'batch weight', 'mixed'] },
  pieces: { also: ['count', 'cast'] },
  'room C': { also: ['room °c', 'room', 'temperature', 'room temperature', 'celsius'] },
  'room %': { also: ['humidity', 'room humidity', 'rh', 'rh %'] },
  'set min': { also: ['set', 'initial set', 'set minutes'] },
  'demould min': { also: ['demould', 'demoulded', 'demold min', 'demould minutes'] },
  weights: { also: ['weight', 'weighings', 'weights g'] },
  flow: { also: ['flow by eye'] },
  bubbles: {},
  cracks: {},
  note: { also: ['notes', 'remark', 'remarks', 'comment', 'comments'] },
};

/** Columns of tables that count their rows too. */
const OF_ANOTHER = /price|cost|sieve/i;

/**
 * The column that makes a table a record of pours; undefined where it is another table. A record names what was poured, or
 * its pours by that word. Under “no” or “id” any table counts its rows: one that has more of a pour than a note beside them,
 * and nothing of a price list or a sieve analysis, is a record too.
 */
export function tellingColumn({ headings, meanings, columns }: CsvHead<PourColumn>): PourColumn | undefined {
  const named = (['brief', 'blend'] as const).find((column) => columns.includes(column));
  if (named !== undefined || !columns.includes('pour')) return named;
  const byItsWord = headings[meanings.indexOf('pour')]!.toLowerCase() === 'pour';
  const more = columns.some((column) => column !== 'pour' && column !== 'note');
  return byItsWord || (more && !headings.some((heading) => OF_ANOTHER.test(heading))) ? 'pour' : undefined;
}

/** What one new row says; what is not said stays empty. */
export type PourRow = Readonly<Partial<Record<PourColumn, CsvCell>>>;

/** First row and its line end for a new record. */
export const newRecord = (): string => `${csvLine(POUR_COLUMNS, ',')}\n`;

/** A spreadsheet that writes semicolons writes decimal commas, and would take a 18.5 for the eighteenth of May. */
function cellFor(cell: CsvCell, delimiter: string): CsvCell {
  if (typeof cell === 'number' && delimiter === ';') return String(cell).replace('.', ',');
  return typeof cell === 'string' ? cell.trim() : cell;
}

/**
 * One row in a file's own order of columns and with its own delimiter, columns of the maker's own left empty; no line end.
 * Throws InputProblems field-missing for what the file has no column for.
 */
export function pourLine(row: PourRow, text: string, file: string): string {
  const { meanings, columns, delimiter } = readCsv(firstRow(text), file, POUR_RULES);
  const all = gather();
  for (const column of POUR_COLUMNS) {
    const cell = row[column];
    if (cell === undefined || cell === null || cell === '' || columns.includes(column)) continue;
    const hint = `add a column “${column}” to the first row of the file`;
    all.add({ code: 'field-missing', severity: 'error', where: { file, path: column }, hint });
  }
  all.finish();
  return csvLine(
    meanings.map((column) => (column === undefined ? '' : cellFor(row[column], delimiter))),
    delimiter,
  );
}
