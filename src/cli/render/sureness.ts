import { propertyById } from '../../core/blend/properties/index.js';
import { printProperty, printWindow } from '../../core/report/print.js';
import type { ProposalResult } from '../../core/report/result-schema.js';
import type { View } from './assessment.js';
import type { Sheet } from './page.js';

const percent = (chance: number): string => `${Math.round(100 * chance)} %`;

/** How sure the blend was asked to be, whether it is, and what that took. */
export function renderSureness(page: Sheet, result: ProposalResult, { wording }: View): void {
  const { sureness } = result;
  if (sureness === undefined) return;
  const { wanted, reached, chance, held, unsure, sure } = sureness;
  page.heading(`ALL TARGETS AT ONCE, ${percent(wanted)} SURE`);
  if (chance === null) {
    page.paragraph('The brief sets no targets, so there is nothing to be sure of.', 2);
    return;
  }
  page.paragraph(
    reached
      ? `It is: all targets hold together in ${percent(chance)} of 2,000 draws that the search did not see.`
      : `No blend found is so sure. The surest holds all targets together in ${percent(chance)} of 2,000 draws.`,
    2,
  );
  for (const h of held) {
    const window = (limit: number) =>
      printWindow(h.property, h.side === 'min' ? limit : null, h.side === 'max' ? limit : null, wording);
    page.paragraph(
      `held to ${h.name} ${window(Number(h.to.toPrecision(3)))}, where the brief says ${window(h.limit)}`,
      4,
      6,
    );
  }
  if (unsure === null || sure === null) return;
  const { property, aim } = result.objective;
  const [now, before] = [printProperty(property, sure, wording), printProperty(property, unsure, wording)];
  if (now === before) return;
  page.paragraph(
    `${aim}: ${propertyById(property)!.name} ${now}, where the blend that only just meets the brief has ${before}`,
    2,
  );
}
