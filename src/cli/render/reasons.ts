import { propertyById } from '../../core/blend/properties/index.js';
import { gainWords, stepOf, stepWords } from '../../core/report/gain-words.js';
import { printPriceByMass, printWindow } from '../../core/report/print.js';
import type { ReasonsResult } from '../../core/report/reasons-schema.js';
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
    page.paragraph('No blend meets the brief: first see what collides, above.', 2);
    return;
  }
  const { aim, property, exact } = result.objective;
  const gain = (amount: number): string => gainWords(aim, property, amount, exact, view.wording);
  const limits = reasons.heldBack.map((h) => {
    const step = stepOf(propertyById(h.property)!.quantity, h.limit);
    const way = h.side === 'max' ? 'more' : 'less';
    const window = printWindow(
      h.property,
      h.side === 'min' ? h.limit : null,
      h.side === 'max' ? h.limit : null,
      view.wording,
    );
    const kind = h.kind === 'standing' ? ' (kept by every blend)' : '';
    const about = h.agrees ? '' : 'about ';
    return [
      `${h.name}${kind}`,
      window,
      `${stepWords(h.property, step, view.wording)} ${way}: ${about}${gain((h.settledGain ?? h.gain) * step)}`,
    ];
  });
  const doses = reasons.doses.map((d) => {
    const kind = d.kind === 'asked' ? 'as asked' : 'at most';
    return [d.name, `${kind} ${d.percent} % of ${d.of}`, `1 % ${d.better}: ${gain(d.gain)}`];
  });
  const stock = reasons.stock.map((s) => [s.name, 'all on hand is used', `10 g more a piece: ${gain(10 * s.gain)}`]);
  const rows = [...limits, ...doses, ...stock];
  if (rows.length > 0) page.table(rows);
  else page.paragraph('No limit of the brief: this is as good as the shelf gives.', 2);
  renderEntries(page, reasons.entries, view);
}

function renderEntries(page: Sheet, entries: ReasonsResult['entries'], view: View): void {
  const nearness = (e: ReasonsResult['entries'][number]): number => (e.price === null ? 0 : e.entersAt! / e.price);
  const sound = entries
    .filter((e) => e.entersAt !== null && e.checked === true)
    .sort((a, b) => nearness(b) - nearness(a));
  page.heading('WHAT IT DOES WITHOUT');
  if (sound.length === 0) {
    const words = entries.some((e) => e.entersAt !== null)
      ? 'No price alone would bring another material in.'
      : 'Prices play no part: cost neither is the objective nor holds it back.';
    page.paragraph(words, 2);
    return;
  }
  const price = (perGram: number): string => printPriceByMass(perGram, view.wording);
  page.table(
    sound.slice(0, MOST_ENTRIES).map((e) => {
      const now = e.price === null ? 'price not known' : price(e.price);
      const other = e.system === null ? '' : ' (another binder then)';
      return [e.name, now, `comes in below ${price(e.entersAt!)}${other}`];
    }),
  );
  if (sound.length > MOST_ENTRIES) page.paragraph(`and ${sound.length - MOST_ENTRIES} more (--json lists them)`, 2);
}
