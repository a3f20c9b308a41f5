import { stopsIn } from '../../core/report/barred.js';
import type { AssessmentResult } from '../../core/report/result-schema.js';
import type { Sheet } from './page.js';

const WORD = { stop: 'STOP', warn: 'WARNING', caution: 'CAUTION', info: 'NOTE' } as const;

type CautionSet = AssessmentResult['cautions'];

interface Shown {
  readonly full: boolean;
  /** Whose cautions they are, where the sheet shows several blends. */
  readonly of?: string;
  /** What a caution is marked with that only some of the blends raise. */
  readonly only?: (id: string) => string | null;
}

/** What bars a blend, beside the blend itself: nobody need look for it at the foot of a sheet. */
export function stopLines(page: Sheet, set: CautionSet, indent = 0): void {
  for (const stop of stopsIn(set)) page.paragraph(`${page.paint.red('STOP')} ${stop.short}`, indent, indent + 2);
}

/** The cautions, gravest first. They can be shortened to a line each; none can be left out. */
export function cautionList(page: Sheet, set: CautionSet, { full, of, only }: Shown): void {
  const { bold, red, yellow, dim } = page.paint;
  page.heading(of === undefined ? 'CAUTIONS' : `CAUTIONS ${of}`);
  for (const caution of set.cautions) {
    const tone =
      caution.severity === 'stop' || caution.severity === 'warn' ? red : caution.severity === 'caution' ? yellow : bold;
    const text = full
      ? `${caution.title}. ${caution.text} ${dim(`Why here: ${caution.because}. Source: ${caution.source}.`)}`
      : caution.short;
    const mark = only?.(caution.id) ?? null;
    page.paragraph(`${tone(WORD[caution.severity])} ${text}${mark === null ? '' : ` (${mark})`}`, 2, 4);
  }
  page.line();
  for (const aid of set.firstAid) page.paragraph(`${bold(aid.when)}: ${aid.act}`, 2, 4);
  page.line();
  page.paragraph(bold(set.closing), 2);
}
