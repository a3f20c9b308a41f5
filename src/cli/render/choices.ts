import { propertyById } from '../../core/blend/properties/index.js';
import { printDifference, printProperty, printWindow, significant } from '../../core/report/print.js';
import type { ProposalResult } from '../../core/report/result-schema.js';
import { printQuantity } from '../../core/units/print.js';
import type { View } from './assessment.js';
import type { Sheet } from './page.js';

const nameOf = (result: ProposalResult, id: string): string => result.blend.find((i) => i.material === id)?.name ?? id;

/** What limits of ingredients and whole-number parts made of the blend. */
export function choiceLines(page: Sheet, result: ProposalResult, view: View): void {
  partsLines(page, result, view);
  const { limits } = result;
  if (limits === null || limits.without === null) return;
  const { property, exact } = result.objective;
  const [here, without] = [exact, limits.without].map((v) => printProperty(property, v, view.wording));
  const why =
    limits.ingredients === null
      ? `with no ingredient below ${printQuantity(limits.leastDose, 'mass', { system: view.wording.system })}`
      : `with at most ${limits.ingredients} dry ingredients`;
  const cost = here === without ? `${here} as without` : `${here}, without that ${without}`;
  page.paragraph(`${why}: ${propertyById(property)!.name} ${cost}`, 2);
}

function partsLines(page: Sheet, result: ProposalResult, view: View): void {
  const { parts } = result;
  if (parts === null) return;
  if (!parts.found) {
    page.paragraph(page.paint.yellow('Nothing in this blend can be counted out in parts; it is weighed.'), 2);
    return;
  }
  const { system } = view.wording;
  const numbers = parts.parts.map((p) => `${p.parts} ${p.name}`).join(' : ');
  const size =
    parts.by === 'mass'
      ? printQuantity(parts.part, 'mass', { system })
      : `${printQuantity(significant(parts.part, 3), 'volume', { system })} of loose stuff (${significant(parts.scoops!, 2)} scoops)`;
  page.line();
  page.paragraph(`${page.paint.bold(`IN PARTS by ${parts.by === 'mass' ? 'weight' : 'scoop'}`)}: ${numbers}`, 2, 4);
  page.paragraph(`one part is ${size} for this batch`, 4);
  if (parts.apart.length > 0) {
    page.paragraph(`weigh beside them: ${parts.apart.map((id) => nameOf(result, id)).join(', ')}`, 4);
  }
  const { property, weighed } = result.objective;
  const [here, without] = [weighed, parts.without].map((v) => printProperty(property, v, view.wording));
  page.paragraph(
    here === without
      ? `whole numbers lose nothing that shows: ${here}`
      : `whole numbers: ${propertyById(property)!.name} ${here}, without them ${without}`,
    4,
  );
  const worst = Math.max(...parts.parts.map((p) => p.error ?? 0));
  if (worst > 0) {
    page.paragraph(
      `a scoop can be off by up to ${Math.round(100 * worst)} %, as loosely or densely as it lies; the chances count that. Weigh where you can.`,
      4,
    );
  }
}

/** Why a blend that exists is not weighed out: the scale, whole numbers, or too few ingredients. */
export function whyNotWeighed(page: Sheet, result: ProposalResult, view: View): void {
  const { coarse, parts, limits } = result;
  if (parts?.found === true && result.conflict === null) {
    page.paragraph('A blend exists, but none in whole-number parts so small keeps every limit.', 2);
    return;
  }
  if (coarse !== null) {
    const mass = (g: number) => printQuantity(g, 'mass', { system: view.wording.system });
    page.paragraph(
      `A blend exists, but no rounding of it to ${mass(coarse.step)} keeps every limit. Too coarse for:`,
      2,
    );
    for (const s of coarse.sides) {
      const [min, max] = s.side === 'min' ? [s.limit, null] : [null, s.limit];
      const by = printDifference(s.property, s.missedBy, view.wording);
      page.paragraph(
        `${propertyById(s.property)!.name} ${printWindow(s.property, min, max, view.wording)}: missed by ${by}`,
        4,
      );
    }
    const finer =
      coarse.stepThatWould === null ? '' : `A scale that tells ${mass(coarse.stepThatWould)} would do, or a`;
    page.paragraph(`${finer === '' ? 'A' : finer} larger batch.`, 2);
    return;
  }
  if (limits?.without != null) {
    const many =
      limits.ingredients === null ? 'doses that can be weighed' : `at most ${limits.ingredients} dry ingredients`;
    const enough = limits.enough === null ? '' : `; ${limits.enough} would do`;
    page.paragraph(`A blend exists, but none of ${many} keeps every limit${enough}.`, 2);
  }
}
