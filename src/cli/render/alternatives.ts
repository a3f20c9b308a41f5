import { propertyById } from '../../core/blend/properties/index.js';
import { chanceWords } from '../../core/report/chance-words.js';
import { fineDifference } from '../../core/report/gain-words.js';
import type { AlternativeResult, ProposalResult } from '../../core/report/result-schema.js';
import { printToldOf } from '../../core/report/told-figures.js';
import { printBatch } from '../../core/report/weighed.js';
import type { View } from './assessment.js';
import { stopLines } from './cautions.js';
import type { Sheet } from './page.js';
import { warningLines } from './warnings.js';

/** Properties told of each side at most; the JSON has them all. */
const MOST_TRADES = 4;

/** Blends of other ingredients, each with what it gains and gives up against the first. */
export function renderAlternatives(page: Sheet, result: ProposalResult, view: View): void {
  const { alternatives } = result;
  if (alternatives === undefined) return;
  page.heading('ALTERNATIVES');
  if (alternatives.length === 0) page.paragraph('The shelf gives no other blend that meets the brief.', 2);
  alternatives.forEach((one, i) => {
    alternative(page, one, i + 2, result, view);
  });
}

function alternative(page: Sheet, one: AlternativeResult, rank: number, first: ProposalResult, view: View): void {
  const { property, aim } = first.objective;
  const { wording } = view;
  const value = printToldOf(one, property, one.weighed, wording);
  const head = `${page.paint.bold(`${rank}  ${one.systemName}`)}: ${aim} ${propertyById(property)!.name} ${value}`;
  page.paragraph(head, 2, 5);
  stopLines(page, one.cautions, 5);
  warningLines(page, one.warnings, 5);
  page.paragraph(one.blend.map((i) => `${i.name} ${printBatch(i, first.batch.step, wording.system)}`).join(', '), 5);
  const words = (is: 'gain' | 'loss'): string[] =>
    one.trades
      .filter((t) => t.is === is)
      .slice(0, MOST_TRADES)
      .map(
        (t) =>
          `${t.name} ${fineDifference(t.property, Math.abs(t.difference), wording)} ${t.difference > 0 ? 'more' : 'less'}`,
      );
  const [gains, losses] = [words('gain'), words('loss')];
  if (losses.length > 0) page.paragraph(`gives up: ${losses.join(', ')}`, 5, 7);
  if (gains.length > 0) page.paragraph(`gains: ${gains.join(', ')}`, 5, 7);
  if (one.jointChance !== null) {
    page.paragraph(
      `all targets at once: ${chanceWords(one.jointChance)} (the first: ${chanceWords(first.jointChance)})`,
      5,
      7,
    );
  }
}
