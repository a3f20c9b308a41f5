/**
 * The few calls of papaparse that are used here. The published types pull in Node's and the browser's, which would let
 * those worlds into the pure core.
 */
declare module 'papaparse' {
  interface ParseStep {
    readonly data: readonly string[];
    readonly errors: readonly { readonly code: string; readonly message: string }[];
    /** Characters read so far, this row and its line end included. */
    readonly meta: { readonly cursor: number };
  }
  interface Papa {
    parse(
      text: string,
      config: {
        delimiter: string;
        newline: '\n';
        step: (row: ParseStep, parser: { abort(): void }) => void;
      },
    ): void;
    unparse(rows: readonly (readonly (string | number)[])[], config: { delimiter: string; newline: '\n' }): string;
  }
  const papa: Papa;
  export default papa;
}
