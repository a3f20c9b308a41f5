/** A point of a chart in its own units. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface ChartOptions {
  readonly width: number;
  readonly height: number;
  /** Drawn as dots, in the order of x. */
  readonly line: readonly Point[];
  /** Drawn as o, over everything else. */
  readonly marks: readonly Point[];
  /** Drawn across the whole width as dashes. */
  readonly level: number;
  readonly yText: (y: number) => string;
  readonly xText: (x: number) => string;
}

/** A small chart in plain characters, so that any terminal, printer or screen reader takes it. */
export function chart({ width, height, line, marks, level, yText, xText }: ChartOptions): string[] {
  const xs = line.map((p) => p.x);
  const ys = [...line.map((p) => p.y), ...marks.map((p) => p.y), level];
  const [left, right] = [Math.min(0, ...xs), Math.max(...xs)];
  const spread = Math.max(...ys) - Math.min(...ys) || 1;
  const [bottom, top] = [Math.min(...ys) - 0.04 * spread, Math.max(...ys) + 0.04 * spread];
  const labels = Array.from({ length: height }, (_v, row) =>
    row % 3 === 0 || row === height - 1 ? yText(top - (row / (height - 1)) * (top - bottom)) : '',
  );
  const gutter = Math.max(...labels.map((l) => l.length));
  const columns = Math.max(10, width - gutter - 2);
  const cells = Array.from({ length: height }, () => new Array<string>(columns).fill(' '));
  const put = (column: number, y: number, sign: string): void => {
    const row = Math.round(((top - y) / (top - bottom)) * (height - 1));
    const cell = cells[row];
    if (cell !== undefined && column >= 0 && column < columns) cell[column] = sign;
  };
  const columnAt = (x: number): number => Math.round(((x - left) / (right - left)) * (columns - 1));
  for (let c = 0; c < columns; c++) if (c % 2 === 0) put(c, level, '-');
  for (let c = 0; c < columns; c++) put(c, between(line, left + (c / (columns - 1)) * (right - left)), '.');
  for (const mark of marks) put(columnAt(mark.x), mark.y, 'o');
  const axis = [left, (left + right) / 2, right].map(xText);
  const middle = Math.max(1, Math.floor((columns - axis[0]!.length - axis[1]!.length - axis[2]!.length) / 2));
  return [
    ...cells.map((row, i) => `${labels[i]!.padStart(gutter)} |${row.join('').trimEnd()}`),
    `${' '.repeat(gutter)} +${'-'.repeat(columns)}`,
    `${' '.repeat(gutter + 2)}${axis.join(' '.repeat(middle))}`,
  ];
}

/** Straight between the two points around x. */
function between(line: readonly Point[], x: number): number {
  const after = line.findIndex((p) => p.x >= x);
  const [a, b] = [line[Math.max(0, after - 1)], line[after < 0 ? line.length - 1 : after]];
  if (a === undefined || b === undefined) return Number.NaN;
  return a.x === b.x ? b.y : a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y);
}
