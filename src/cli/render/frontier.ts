import { frontierAxes } from '../../core/report/frontier-axes.js';
import type { FrontierResult } from '../../core/report/frontier-schema.js';
import { printProperty } from '../../core/report/print.js';
import type { View } from './assessment.js';
import { cautionList, stopLines } from './cautions.js';
import type { Sheet } from './page.js';

const ROWS = 18;
const SIGNS = ['o', 'x', '+', '*', '#', '@'] as const;
/** Rows of the table; the files and the JSON have every point. */
const LISTED = 9;

export function renderFrontier(page: Sheet, result: FrontierResult, view: View): void {
  const { of, against, points, systems } = result;
  page.line(page.paint.bold(result.title));
  const invented = result.invented ? 'invented example · ' : '';
  page.paragraph(page.paint.dim(`${invented}${of.name} against ${against.name} · before rounding to the scale`));
  if (result.cautions !== null && points.every((p) => p.barred)) stopLines(page, result.cautions);
  if (points.length === 0) {
    page.line();
    page.paragraph('No blend meets the brief, so there is nothing to trade: propose tells what collides.', 2);
    return;
  }
  if (points.length === 1) {
    page.line();
    page.paragraph('One blend is best at both: there is nothing to trade.', 2);
  } else {
    page.line();
    plot(page, result, view);
  }
  page.line();
  const say = (property: string, value: number): string => printProperty(property, value, view.wording);
  const nameOf = (id: string): string => systems.find((s) => s.system === id)!.name;
  page.table(
    spread(points, LISTED).map((p) => [say(of.property, p.of), say(against.property, p.against), nameOf(p.system)]),
    ['right', 'right', 'left'],
    [of.name, against.name, 'binder'],
  );
  if (points.length > LISTED)
    page.paragraph(`${LISTED} of ${points.length} points; --csv, --svg and --json have them all`, 2);
  if (result.cautions !== null) {
    cautionList(page, result.cautions, { full: view.fullCautions, of: 'of any of these blends' });
  }
}

/** So many of a list, evenly, the ends among them. */
const spread = <T>(list: readonly T[], count: number): T[] =>
  list.length <= count
    ? [...list]
    : Array.from({ length: count }, (_v, i) => list[Math.round((i * (list.length - 1)) / (count - 1))]!);

/** The points in signs, one sign a binder system. */
function plot(page: Sheet, result: FrontierResult, view: View): void {
  const { points, systems } = result;
  const axes = frontierAxes(result, view.wording, { x: 5, y: 5 });
  const gutter = Math.max(...axes.y.ticks.map((t) => t.text.length));
  const columns = Math.max(16, Math.min(72, page.width - gutter - 4));
  const cells = Array.from({ length: ROWS }, () => new Array<string>(columns).fill(' '));
  const signOf = (system: string): string => SIGNS[systems.findIndex((s) => s.system === system) % SIGNS.length]!;
  for (const p of points) {
    const row = Math.round((1 - axes.y.place(p.of)) * (ROWS - 1));
    cells[row]![Math.round(axes.x.place(p.against) * (columns - 1))] = signOf(p.system);
  }
  const labels = new Map(axes.y.ticks.map((t) => [Math.round((1 - t.at) * (ROWS - 1)), t.text]));
  page.line(`  ${axes.y.title}`);
  cells.forEach((row, i) => {
    page.line(`  ${(labels.get(i) ?? '').padStart(gutter)} │${row.join('').trimEnd()}`);
  });
  page.line(`  ${' '.repeat(gutter)} └${'─'.repeat(columns)}`);
  page.line(`  ${' '.repeat(gutter + 2)}${axisLine(axes.x.ticks, columns)}`);
  page.paragraph(axes.x.title, gutter + 4);
  if (systems.length > 1) page.paragraph(systems.map((s) => `${signOf(s.system)} ${s.name}`).join('   '), gutter + 4);
}

/** Tick words under their places, as many as do not run into each other. */
function axisLine(ticks: readonly { readonly at: number; readonly text: string }[], columns: number): string {
  let line = '';
  for (const { at, text } of ticks) {
    const middle = Math.round(at * (columns - 1)) - Math.floor(text.length / 2);
    const start = Math.max(0, Math.min(middle, columns - text.length));
    if (start < line.length + (line === '' ? 0 : 1)) continue;
    line = line.padEnd(start) + text;
  }
  return line;
}
