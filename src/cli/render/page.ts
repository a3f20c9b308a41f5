import Table from 'cli-table3';
import pc from 'picocolors';
import wrapAnsi from 'wrap-ansi';

export type Align = 'left' | 'right';

/** A sheet of text for one terminal width: headings, paragraphs, plain tables. Colour never carries meaning alone. */
export interface Sheet {
  readonly width: number;
  readonly paint: ReturnType<typeof pc.createColors>;
  heading(text: string): void;
  line(text?: string): void;
  paragraph(text: string, indent?: number, hanging?: number): void;
  table(rows: readonly (readonly string[])[], align?: readonly Align[], head?: readonly string[]): void;
  text(): string;
}

const NO_LINES = {
  top: '',
  'top-mid': '',
  'top-left': '',
  'top-right': '',
  bottom: '',
  'bottom-mid': '',
  'bottom-left': '',
  'bottom-right': '',
  left: '',
  'left-mid': '',
  mid: '',
  'mid-mid': '',
  right: '',
  'right-mid': '',
  middle: '  ',
};

export function sheet(columns: number | null, colour: boolean): Sheet {
  const width = Math.max(32, Math.min(columns ?? 88, 100));
  const paint = pc.createColors(colour);
  const lines: string[] = [];
  return {
    width,
    paint,
    heading(text) {
      if (lines.length > 0) lines.push('');
      lines.push(paint.bold(text));
    },
    line(text = '') {
      lines.push(text);
    },
    paragraph(text, indent = 0, hanging = indent) {
      const wrapped = wrapAnsi(text, width - hanging, { hard: false, trim: true }).split('\n');
      wrapped.forEach((part, i) => {
        lines.push(`${' '.repeat(i === 0 ? indent : hanging)}${part}`);
      });
    },
    table(rows, align = [], head) {
      const table = new Table({
        chars: NO_LINES,
        style: { 'padding-left': 0, 'padding-right': 0, head: [], border: [] },
        colAligns: [...align],
        ...(head ? { head: head.map((h) => paint.dim(h)) } : {}),
      });
      for (const row of rows) table.push([...row]);
      for (const row of table.toString().split('\n')) lines.push(`  ${row.trimEnd()}`);
    },
    text: () => `${lines.join('\n')}\n`,
  };
}
