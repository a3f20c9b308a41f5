import { InputProblems } from '../problems/problem.js';
import { type ColumnRule, readCsv } from './csv.js';

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

/** The known columns that the first row of a text names; none where it cannot be the first row of a table. */
export function columnsNamed<C extends string>(text: string, rules: Readonly<Record<C, ColumnRule>>): readonly C[] {
  try {
    return readCsv(firstRow(text), 'the first row', rules).columns;
  } catch (error) {
    if (error instanceof InputProblems) return [];
    throw error;
  }
}
