import { InputProblems } from '../problems/problem.js';
import { type ColumnRule, type CsvTable, readCsv } from './csv.js';

/** The part of a text that holds its first row: what comes after may be broken and does not matter here. */
export function firstRow(whole: string): string {
  const text = whole.replace(/^\ufeff/, '');
  let inQuotes = false;
  let begun = false;
  for (let i = 0; i < text.length; i++) {
    const sign = text[i]!;
    const lineStart = i === 0 || text[i - 1] === '\n';
    if (lineStart && !inQuotes && (sign === '#' || (i === 0 && /^sep=/i.test(text)))) {
      const end = text.indexOf('\n', i);
      if (end < 0) return text;
      i = end;
      continue;
    }
    if (sign === '"') inQuotes = !inQuotes;
    if (sign === '\n' && begun && !inQuotes) return text.slice(0, i + 1);
    if (sign.trim() !== '') begun = true;
  }
  return text;
}

/** What the first row of a table names. */
export type CsvHead<C extends string> = Pick<CsvTable<C>, 'headings' | 'meanings' | 'columns'>;

/** What the first row of a text names; nothing where it cannot be the first row of a table. */
export function headOf<C extends string>(text: string, rules: Readonly<Record<C, ColumnRule>>): CsvHead<C> {
  try {
    return readCsv(firstRow(text), 'the first row', rules);
  } catch (error) {
    if (error instanceof InputProblems) return { headings: [], meanings: [], columns: [] };
    throw error;
  }
}
