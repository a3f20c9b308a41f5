import { curvesOf, envelopeAt, place, plotRange } from '../../core/sieve/curves.js';
import type { SieveResult } from '../../core/sieve/sieve-schema.js';
import { SIEVE_AXIS, sieveMark } from '../../core/sieve/words.js';
import type { UnitSystem } from '../../core/units/print.js';
import type { Sheet } from './page.js';

const ROWS = 20;
const LEFT = 5;

/**
 * The curves in signs, size on a logarithmic axis. Dots are the envelope of ASTM C33; where curves cross, the one listed
 * last is on top.
 */
export function sievePlot(page: Sheet, result: SieveResult, system: UnitSystem): void {
  const range = plotRange(result);
  const columns = Math.min(72, page.width - LEFT - 4);
  const sizeAt = (column: number): number => range.finest * (range.coarsest / range.finest) ** (column / (columns - 1));
  const rowOf = (passing: number): number => Math.round((1 - passing / 100) * ROWS);
  const cells = Array.from({ length: ROWS + 1 }, () => Array.from({ length: columns }, () => ' '));
  for (let column = 0; column < columns; column++) {
    const limits = envelopeAt(sizeAt(column));
    if (limits === null) continue;
    for (let row = rowOf(limits.high); row <= rowOf(limits.low); row++) cells[row]![column] = '·';
  }
  const curves = curvesOf(result);
  for (const { sign, passing } of [...curves.filter((c) => c.sign === '='), ...curves.filter((c) => c.sign !== '=')]) {
    for (let column = 0; column < columns; column++) cells[rowOf(passing(sizeAt(column)))]![column] = sign;
  }
  cells.forEach((row, i) => {
    const percent = 100 * (1 - i / ROWS);
    const label = percent % 20 === 0 ? String(percent) : '';
    page.line(`${label.padStart(LEFT)} │${row.join('').trimEnd()}`);
  });
  page.line(`${' '.repeat(LEFT)} └${'─'.repeat(columns)}`);
  page.line(`${' '.repeat(LEFT + 2)}${axis(columns, system, (size) => place(size, range)).trimEnd()}`);
  page.paragraph(`percent passing against ${SIEVE_AXIS[system]} (logarithmic)`, LEFT + 2);
  const keys = curves.map((c) => `${c.sign} ${c.name}`);
  page.paragraph([...keys, '· envelope of ASTM C33'].join('   '), LEFT + 2);
}

const MARKS = [0.075, 0.15, 0.3, 0.6, 1.18, 2.36, 4.75, 9.5] as const;

function axis(columns: number, system: UnitSystem, placed: (size: number) => number): string {
  const line = Array.from({ length: columns + 6 }, () => ' ');
  let free = 0;
  for (const mark of MARKS) {
    const text = sieveMark(mark, system);
    const start = Math.max(0, Math.round(placed(mark) * (columns - 1)) - Math.floor(text.length / 2));
    if (start < free || start + text.length > line.length) continue;
    for (let i = 0; i < text.length; i++) line[start + i] = text[i]!;
    free = start + text.length + 1;
  }
  return line.join('');
}
