import type { RiskResult } from '../../core/report/result-schema.js';
import type { Sheet } from './page.js';

/** What may spoil the piece, a line or two each; low ones last. */
export function riskList(page: Sheet, risks: readonly RiskResult[]): void {
  if (risks.length === 0) return;
  const { red, yellow, dim } = page.paint;
  page.heading('WHAT MAY SPOIL IT');
  for (const { level, text } of risks) {
    const mark = level === 'high' ? red('high') : level === 'some' ? yellow('some') : dim('low ');
    page.paragraph(`${mark}  ${text}`, 2, 8);
  }
}
