import papa from 'papaparse';

export interface ReadTable {
  readonly data: readonly Readonly<Record<string, string>>[];
  readonly errors: readonly unknown[];
  readonly meta: { readonly fields?: readonly string[] };
}

/** The program declares of papaparse only what it uses itself; the tests read with its own headings. */
const parse = papa.parse as unknown as (text: string, config: object) => ReadTable;

/** A CSV with a heading, read by papaparse and not by the program's own reader. */
export const readTable = (text: string): ReadTable => parse(text, { header: true, skipEmptyLines: true });
