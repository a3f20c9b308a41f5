import type { AssessmentResult } from '../../core/report/result-schema.js';
import type { Sheet } from './page.js';

/** Warnings of a blend beside the blend itself; a refusal is told as one, before all others. */
export function warningLines(page: Sheet, warnings: AssessmentResult['warnings'], indent = 0): void {
  const refusals = warnings.filter((w) => w.severity === 'error');
  for (const { severity, message } of [...refusals, ...warnings.filter((w) => w.severity !== 'error')]) {
    const mark = severity === 'error' ? page.paint.red('DO NOT CAST THIS') : page.paint.yellow(severity.toUpperCase());
    page.paragraph(`${mark} ${message}`, indent, indent + 2);
  }
}
