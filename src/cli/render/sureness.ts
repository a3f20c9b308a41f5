import type { ProposalResult } from '../../core/report/result-schema.js';
import { surenessWords } from '../../core/report/sureness-words.js';
import type { View } from './assessment.js';
import type { Sheet } from './page.js';

/** How sure the blend was asked to be, whether it is, and what that took. */
export function renderSureness(page: Sheet, result: ProposalResult, { wording }: View): void {
  const words = surenessWords(result, wording);
  if (words === null) return;
  page.heading(words.title.toUpperCase());
  page.paragraph(words.outcome, 2);
  for (const line of words.held) page.paragraph(line, 4, 6);
  if (words.cost !== null) page.paragraph(words.cost, 2);
}
