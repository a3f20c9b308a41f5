import { NO_REASONS, reasonsWords } from '../../core/report/reasons-words.js';
import type { ProposalResult } from '../../core/report/result-schema.js';
import type { View } from './assessment.js';
import type { Sheet } from './page.js';

/** Materials listed at most; the JSON has them all. */
const MOST_ENTRIES = 12;

/** What holds the blend back, and the prices at which others would come in. */
export function renderReasons(page: Sheet, result: ProposalResult, view: View): void {
  const { reasons } = result;
  if (reasons === undefined) return;
  page.heading('WHAT HOLDS IT BACK');
  if (reasons === null) {
    page.paragraph(NO_REASONS, 2);
    return;
  }
  const words = reasonsWords(result.objective, reasons, view.wording);
  if (words.free === null) page.table(words.held);
  else page.paragraph(words.free, 2);
  page.heading('WHAT IT DOES WITHOUT');
  if (words.noEntries !== null) {
    page.paragraph(words.noEntries, 2);
    return;
  }
  page.table(words.entries.slice(0, MOST_ENTRIES));
  const more = words.entries.length - MOST_ENTRIES;
  if (more > 0) page.paragraph(`and ${more} more (--json lists them)`, 2);
}
