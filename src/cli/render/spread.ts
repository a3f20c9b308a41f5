import type { PropertyResult, VerdictResult } from '../../core/report/result-schema.js';
import { spreadWords } from '../../core/report/spread-words.js';
import type { Sheet } from './page.js';

export { spreadWords };

const isUnsure = ({ chance }: VerdictResult): boolean => chance !== null && chance > 0.005 && chance < 0.995;

/** For each target that may go either way, the figures it hangs on. */
export function whatChancesHangOn(
  page: Sheet,
  targets: readonly VerdictResult[],
  properties: readonly PropertyResult[],
): void {
  const lines = targets.filter(isUnsure).flatMap((target) => {
    const property = properties.find((p) => p.property === target.property);
    return property === undefined || property.contributors.length === 0
      ? []
      : [`${property.name}: ${spreadWords(property)}`];
  });
  if (lines.length === 0) return;
  page.paragraph('What those chances hang on:', 2);
  for (const line of lines) page.paragraph(line, 4, 6);
}
