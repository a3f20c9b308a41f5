import type { AssessmentResult } from './result-schema.js';

const MOST_NAMED = 6;

/** Which figures are the shop's own; the rest are the table's. Null where all are the table's. */
export function ownFigureWords(own: AssessmentResult['ownFigures']): string | null {
  if (own.length === 0) return null;
  const titles = [...new Set(own.map((f) => f.title))];
  const more = titles.length > MOST_NAMED ? [`${titles.length - MOST_NAMED} more`] : [];
  return `Uses your own figures for: ${[...titles.slice(0, MOST_NAMED), ...more].join('; ')}.`;
}
