import { limitWords, notWeighedWords, partsWords } from '../../core/report/choice-words.js';
import type { ProposalResult } from '../../core/report/result-schema.js';
import type { View } from './assessment.js';
import type { Sheet } from './page.js';

/** What limits of ingredients and whole-number parts made of the blend. */
export function choiceLines(page: Sheet, result: ProposalResult, { wording }: View): void {
  const parts = partsWords(result, wording);
  if (parts !== null && parts.by === null) for (const line of parts.lines) page.paragraph(page.paint.yellow(line), 2);
  if (parts !== null && parts.by !== null) {
    page.line();
    page.paragraph(`${page.paint.bold('IN PARTS')} ${parts.by}: ${parts.numbers}`, 2, 4);
    for (const line of parts.lines) page.paragraph(line, 4);
  }
  const limit = limitWords(result, wording);
  if (limit !== null) page.paragraph(limit, 2);
}

/** Why a blend that exists is not weighed out: the scale, whole numbers, or too few ingredients. */
export function whyNotWeighed(page: Sheet, result: ProposalResult, { wording }: View): void {
  const words = notWeighedWords(result, wording);
  if (words === null) return;
  page.paragraph(words.lead, 2);
  for (const line of words.lines) page.paragraph(line, 4);
  if (words.after !== '') page.paragraph(words.after, 2);
}
