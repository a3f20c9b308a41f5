import papa from 'papaparse';
import { gather } from '../problems/gather.js';
import { nearestWord } from '../problems/nearest.js';
import { type Problem, refuse, type Where } from '../problems/problem.js';

export interface ColumnRule {
  /** Other headings that mean this column. Case, hyphens and underscores do not count. */
  readonly also?: readonly string[];
  /** The file must have the column. Whether a cell may be empty is the reader's own matter. */
  readonly required?: boolean;
}

export interface CsvRow<C extends string> {
  /** 1-based line the row begins on. */
  readonly line: number;
  /** Every known column; '' where the file has no such column or cell. */
  readonly cells: Readonly<Record<C, string>>;
  /** Cells of columns this reader does not know, by heading, so that a rewrite keeps them. */
  readonly others: readonly (readonly [string, string])[];
  /** Cells the row has, empty ones at its end included; fewer than the headings when it was cut off or written short. */
  readonly width: number;
}

export interface CsvTable<C extends string> {
  readonly file: string;
  readonly delimiter: string;
  /** Headings as written, in the file's order. */
  readonly headings: readonly string[];
  /** What each heading means, in the file's order; undefined for headings this reader does not know. */
  readonly meanings: readonly (C | undefined)[];
  /** Known columns the file has, in the file's order. */
  readonly columns: readonly C[];
  readonly rows: readonly CsvRow<C>[];
  /** Notes such as a heading that is not known. */
  readonly problems: readonly Problem[];
  where(row: CsvRow<C>, column?: C): Where;
}

export interface CsvLimits {
  readonly size?: number;
  readonly rows?: number;
}

const USUAL_LIMITS: Required<CsvLimits> = { size: 2_000_000, rows: 20_000 };
const MOST_PROBLEMS = 20;
const MOST_COLUMNS = 100;
const LONGEST_FOUND = 200;
const DELIMITERS = [',', ';', '\t'] as const;

interface RawRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/**
 * Reads a table whose first row names its columns, in any order, with commas, semicolons or tabs between the cells.
 *
 * Empty rows and rows that begin with # are skipped; extra columns are kept. Throws InputProblems with every bad row at
 * once: csv-malformed, field-missing (a required column), field-duplicate (a heading twice), file-empty, file-too-large.
 */
export function readCsv<C extends string>(
  text: string,
  file: string,
  rules: Readonly<Record<C, ColumnRule>>,
  limits: CsvLimits = {},
): CsvTable<C> {
  const allowed = { ...USUAL_LIMITS, ...limits };
  if (text.length > allowed.size) {
    const expected = `at most ${allowed.size} characters`;
    refuse({ code: 'file-too-large', where: { file }, found: `${text.length} characters`, expected });
  }
  const noted = gather();
  const { body, stated } = withoutPreamble(text);
  const delimiter = stated ?? delimiterOf(body);
  const raw = rawRows(body, delimiter, allowed.rows, file, noted.add);
  const [head, ...rest] = raw;
  if (!head) return refuse({ code: 'file-empty', where: { file } });

  const headings = head.cells.map((cell) => cell.trim());
  while (headings.at(-1) === '') headings.pop();
  if (headings.length > MOST_COLUMNS) {
    const expected = `at most ${MOST_COLUMNS} columns`;
    refuse({ code: 'csv-malformed', where: { file, line: head.line }, found: `${headings.length} columns`, expected });
  }
  const known = headings.map((heading) => columnOf(heading, rules));
  noteHeadings(headings, known, rules, { file, line: head.line }, noted.add);

  const rows = rest.map((row): CsvRow<C> => {
    const spare = row.cells.slice(headings.length).filter((cell) => cell.trim() !== '');
    if (spare.length > 0) {
      const hint = `this row has ${row.cells.length} cells, the first row has ${headings.length}; put a cell that holds “${delimiter}” in double quotes`;
      noted.add({ code: 'csv-malformed', severity: 'error', where: { file, line: row.line }, hint });
    }
    const cell = (i: number): string => unguarded((row.cells[i] ?? '').trim());
    const columns = Object.keys(rules) as C[];
    const cells = Object.fromEntries(
      columns.map((column) => [column, known.includes(column) ? cell(known.indexOf(column)) : '']),
    );
    const others = headings.flatMap((heading, i) => (known[i] === undefined ? [[heading, cell(i)] as const] : []));
    return { line: row.line, cells: cells as Record<C, string>, others, width: row.cells.length };
  });

  return {
    file,
    delimiter,
    headings,
    meanings: known,
    columns: known.filter((column) => column !== undefined),
    rows,
    problems: noted.finish(),
    where: (row, column) => ({ file, line: row.line, ...(column !== undefined && { path: column }) }),
  };
}

/** A byte-order mark, and the line "sep=;" that some spreadsheets put first. One kind of line end is left. */
function withoutPreamble(text: string): { body: string; stated?: string } {
  const body = text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n');
  const stated = /^sep=([,;\t])\n/i.exec(body);
  // The line stays as an empty one, so that line numbers do not move.
  return stated ? { body: body.slice(stated[0].length - 1), stated: stated[1]! } : { body };
}

/** The delimiter that splits the heading row most; decimal commas further down cannot mislead it. */
function delimiterOf(body: string): string {
  const heading = body.split('\n', 50).find((line) => line.trim() !== '' && !line.startsWith('#')) ?? '';
  const bare = heading.replace(/"[^"]*"/g, '');
  const counts = DELIMITERS.map((mark) => bare.split(mark).length);
  return DELIMITERS[counts.indexOf(Math.max(...counts))] ?? ',';
}

function rawRows(
  body: string,
  delimiter: string,
  most: number,
  file: string,
  note: (problem: Problem) => void,
): readonly RawRow[] {
  const rows: RawRow[] = [];
  let line = 1;
  let start = 0;
  let noted = 0;
  papa.parse(body, {
    delimiter,
    newline: '\n',
    step({ data, errors, meta }, parser) {
      const where = { file, line };
      for (let i = start; i < meta.cursor; i++) if (body.charCodeAt(i) === 10) line += 1;
      start = meta.cursor;
      if (errors.length > 0) {
        const open = errors.some((error) => error.code === 'MissingQuotes');
        const hint = open
          ? 'a double quote is opened here and not closed'
          : 'write a double quote inside a cell as two: ""';
        note({ code: 'csv-malformed', severity: 'error', where, hint });
        noted += 1;
      }
      if (rows.length > most)
        note({ code: 'file-too-large', severity: 'error', where, expected: `at most ${most} rows` });
      if (rows.length > most || noted >= MOST_PROBLEMS) parser.abort();
      const blank = data.every((cell) => cell.trim() === '');
      if (!blank && !data[0]?.trimStart().startsWith('#')) rows.push({ line: where.line, cells: data });
    },
  });
  return rows;
}

const tidy = (heading: string): string =>
  heading
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');

function columnOf<C extends string>(heading: string, rules: Readonly<Record<C, ColumnRule>>): C | undefined {
  const sought = tidy(heading);
  return (Object.keys(rules) as C[]).find((column) =>
    [column, ...(rules[column].also ?? [])].some((word) => tidy(word) === sought),
  );
}

function noteHeadings<C extends string>(
  headings: readonly string[],
  known: readonly (C | undefined)[],
  rules: Readonly<Record<C, ColumnRule>>,
  where: Where,
  note: (problem: Problem) => void,
): void {
  const columns = Object.keys(rules) as C[];
  const absent = columns.filter((column) => !known.includes(column));
  headings.forEach((heading, i) => {
    if (known[i] !== undefined && known.indexOf(known[i]) < i)
      note({ code: 'field-duplicate', severity: 'error', where, found: heading, hint: 'two columns mean the same' });
    if (known[i] !== undefined || heading === '') return;
    const nearest = nearestWord(heading, absent);
    if (nearest !== undefined) note({ code: 'field-unknown', severity: 'warning', where, found: heading, nearest });
  });
  const needed = absent.filter((column) => rules[column].required);
  if (needed.length > 0) {
    const hint = `the first row must name the columns ${columns.filter((column) => rules[column].required).join(', ')}`;
    const found = headings.join(', ').slice(0, LONGEST_FOUND);
    for (const column of needed)
      note({ code: 'field-missing', severity: 'error', where: { ...where, path: column }, found, hint });
  }
}

/** First letters that make a spreadsheet run a cell as a formula, plain and full-width. */
const FORMULA = /^\s*[=+\-@＝＋－＠\t\r\n]/;
const PLAIN_NUMBER = /^[+-]?\d+(?:[.,]\d+)?(?:[eE][+-]?\d+)?$/;

/** A leading apostrophe makes a spreadsheet show the cell as text. Cells that already begin so get one more. */
const guarded = (cell: string): string =>
  FORMULA.test(cell.replace(/^'+/, '')) && !PLAIN_NUMBER.test(cell) ? `'${cell}` : cell;

const unguarded = (cell: string): string =>
  cell.startsWith("'") && FORMULA.test(cell.replace(/^'+/, '')) ? cell.slice(1) : cell;

export type CsvCell = string | number | null | undefined;

const cellText = (value: CsvCell): string | number => {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? value : '';
  return guarded(value);
};

/** One row as text, without its line end, for a table that exists already; guarded and quoted as writeCsv does. */
export const csvLine = (cells: readonly CsvCell[], delimiter: string): string =>
  papa.unparse([cells.map(cellText)], { delimiter, newline: '\n' });

/**
 * A table as text, one heading row, cells quoted where needed and no cell a spreadsheet would run as a formula. readCsv
 * takes the guard off again. Numbers are written with a decimal point; what is not a finite number is left empty.
 */
export function writeCsv<C extends string>(
  rows: readonly Readonly<Partial<Record<C, CsvCell>>>[],
  columns: readonly C[],
  delimiter: ',' | ';' | '\t' = ',',
): string {
  const table = [columns.map(guarded), ...rows.map((row) => columns.map((column) => cellText(row[column])))];
  return `${papa.unparse(table, { delimiter, newline: '\n' })}\n`;
}
