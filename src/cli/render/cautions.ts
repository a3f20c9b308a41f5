import type { AssessmentResult } from '../../core/report/result-schema.js';
import type { Sheet } from './page.js';

const WORD = { stop: 'STOP', warn: 'WARNING', caution: 'CAUTION', info: 'NOTE' } as const;

/** The cautions, gravest first. They can be shortened to a line each; none can be left out. */
export function cautionList(page: Sheet, set: AssessmentResult['cautions'], full: boolean): void {
  const { bold, red, yellow, dim } = page.paint;
  page.heading('CAUTIONS');
  for (const caution of set.cautions) {
    const tone =
      caution.severity === 'stop' || caution.severity === 'warn' ? red : caution.severity === 'caution' ? yellow : bold;
    const text = full
      ? `${caution.title}. ${caution.text} ${dim(`Why here: ${caution.because}. Source: ${caution.source}.`)}`
      : caution.short;
    page.paragraph(`${tone(WORD[caution.severity])} ${text}`, 2, 4);
  }
  page.line();
  for (const aid of set.firstAid) page.paragraph(`${bold(aid.when)}: ${aid.act}`, 2, 4);
  page.line();
  page.paragraph(bold(set.closing), 2);
}
