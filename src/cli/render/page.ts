import styles from 'ansi-styles';
import stringWidth from 'fast-string-width';
import { wrapAnsi } from 'fast-wrap-ansi';
import { NO_BREAK, unparted } from '../../core/units/unparted.js';

export type Align = 'left' | 'right';

const INKS = ['bold', 'dim', 'red', 'green', 'yellow'] as const;
type Paint = Readonly<Record<(typeof INKS)[number], (text: string) => string>>;

const paintOf = (colour: boolean): Paint =>
  Object.fromEntries(
    INKS.map((ink) => {
      const { open, close } = styles[ink];
      return [ink, (text: string) => (colour ? `${open}${text}${close}` : text)];
    }),
  ) as Paint;

/** A sheet of text for one terminal width: headings, paragraphs, plain tables (a head may have lines). Colour never carries meaning alone. */
export interface Sheet {
  readonly width: number;
  readonly paint: Paint;
  heading(text: string): void;
  line(text?: string): void;
  paragraph(text: string, indent?: number, hanging?: number): void;
  table(rows: readonly (readonly string[])[], align?: readonly Align[], head?: readonly string[]): void;
  text(): string;
}

const INDENT = 2;
const GAP = 2;

/** A column a letter. Nearly every text is such, and measuring others takes a fortieth of the command. */
const PLAIN = /^[ -~¡-¬®-ÿ]*$/;
/** Columns that a text takes on a terminal, colours left out. */
const wide = (text: string): number => (PLAIN.test(text) ? text.length : stringWidth(text));
/** A text in lines of at most so many columns, but for longer words and figures, which keep their units. */
const inLines = (text: string, width: number): string[] =>
  PLAIN.test(text) && text.length <= width
    ? [text.trim()]
    : wrapAnsi(unparted(text), width).replaceAll(NO_BREAK, ' ').split('\n');
/** Spaces that a text begins with: a cell set in under another. */
const leading = (text: string): number => text.length - text.trimStart().length;
const longestWord = (text: string): number =>
  leading(text) +
  Math.max(
    0,
    ...unparted(text)
      .split(/[ \n]+/)
      .map(wide),
  );
/** Columns of a text that may have lines of its own. */
const widest = (text: string): number => Math.max(...text.split('\n').map(wide));

/**
 * Widths of a table's columns: as they come where there is room, else columns of words are folded, the widest first, as
 * far as their longest word. null where that is not enough.
 */
function fittedWidths(rows: readonly (readonly string[])[], align: readonly Align[], room: number): number[] | null {
  const columns = Math.max(0, ...rows.map((row) => row.length));
  const measured = (of: (text: string) => number): number[] =>
    Array.from({ length: columns }, (_v, c) => Math.max(1, ...rows.map((row) => of(row[c] ?? ''))));
  const widths = measured(widest);
  const least = measured(longestWord).map((w, c) => (align[c] === 'right' ? widths[c]! : w));
  let over = widths.reduce((s, w) => s + w, GAP * (columns - 1)) - room;
  while (over > 0) {
    const most = Math.max(...widths.map((w, c) => (w > least[c]! ? w : 0)));
    if (most === 0) return null;
    widths[widths.findIndex((w, c) => w === most && w > least[c]!)]! -= 1;
    over -= 1;
  }
  return widths;
}

/** A row whose table is wider than the sheet: "grey portland cement: one piece 423 g, weigh out 1799 g". */
function inOneLine([first = '', ...rest]: readonly string[], head: readonly string[] | undefined): string {
  const named = rest.map((cell, c) =>
    [head?.[c + 1]?.replaceAll('\n', ' ') ?? '', cell].filter((word) => word !== '').join(' '),
  );
  return [first, named.filter((word) => word !== '').join(', ')].filter((word) => word !== '').join(': ');
}

/** The lines of one row of a table, its cells folded to their columns. */
function folded(
  cells: readonly string[],
  widths: readonly number[],
  align: readonly Align[],
  paintCell: (text: string) => string,
): string[] {
  const parts = widths.map((width, c) => {
    const cell = cells[c] ?? '';
    const inset = leading(cell);
    const lines = inLines(cell.trimStart(), width - inset);
    return lines.map((text) => `${' '.repeat(inset)}${text}`);
  });
  const height = Math.max(...parts.map((part) => part.length));
  return Array.from({ length: height }, (_v, line) =>
    parts
      .map((part, c) => {
        const text = part[line] ?? '';
        const space = ' '.repeat(widths[c]! - wide(text));
        // Paint around nothing would still be printed.
        const shown = wide(text) === 0 ? '' : paintCell(text);
        return align[c] === 'right' ? `${space}${shown}` : `${shown}${space}`;
      })
      .join(' '.repeat(GAP)),
  );
}

export function sheet(columns: number | null, colour: boolean): Sheet {
  const width = Math.max(32, Math.min(columns ?? 88, 100));
  const paint = paintOf(colour);
  const lines: string[] = [];
  return {
    width,
    paint,
    heading(text) {
      if (lines.length > 0) lines.push('');
      lines.push(...inLines(text, width).map(paint.bold));
    },
    line(text = '') {
      lines.push(text);
    },
    paragraph(text, indent = 0, hanging = indent) {
      inLines(text, width - hanging).forEach((part, i) => {
        lines.push(`${' '.repeat(i === 0 ? indent : hanging)}${part}`);
      });
    },
    table(rows, align = [], head) {
      const all = head === undefined ? rows : [head, ...rows];
      const widths = fittedWidths(all, align, width - INDENT);
      if (widths === null) {
        for (const row of rows) this.paragraph(inOneLine(row, head), INDENT, 2 * INDENT);
        return;
      }
      const row = (cells: readonly string[], paintCell = (text: string) => text) =>
        lines.push(...folded(cells, widths, align, paintCell).map((text) => `${' '.repeat(INDENT)}${text}`.trimEnd()));
      if (head !== undefined) row(head, paint.dim);
      for (const cells of rows) row(cells);
    },
    text: () => `${lines.join('\n')}\n`,
  };
}
