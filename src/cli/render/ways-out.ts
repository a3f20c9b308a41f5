import { reachableLimit } from '../../core/report/gain-words.js';
import { printPriceByMass, printWindow } from '../../core/report/print.js';
import type { WaysOutResult } from '../../core/report/reasons-schema.js';
import type { ProposalResult } from '../../core/report/result-schema.js';
import type { View } from './assessment.js';
import type { Sheet } from './page.js';

/** Which targets collide, how far each would have to give way, and which material would help. */
export function renderWaysOut(page: Sheet, result: ProposalResult, ways: WaysOutResult, view: View): void {
  const window = (property: string, side: 'min' | 'max', limit: number): string =>
    printWindow(property, side === 'min' ? limit : null, side === 'max' ? limit : null, view.wording);
  const { system } = view.wording;
  const { colliding } = ways;
  if (colliding.length === 0) page.paragraph('Even without targets no blend can be had of these materials.', 2);
  else {
    const lead =
      colliding.length === 1
        ? 'This cannot be had here:'
        : 'These cannot hold together. Give way in any one of them, as far as said, and the brief can be met:';
    page.paragraph(lead, 2);
  }
  for (const c of colliding) {
    const binder = result.systems.find((s) => s.system === c.system)?.name;
    const of = binder === undefined ? '' : ` (${binder})`;
    const way =
      c.reachable !== null
        ? `${window(c.property, c.side, reachableLimit(c.side, c.reachable, { property: c.property, system }))} can be had${of}`
        : c.why !== undefined
          ? `nothing but ${c.why} can be had${of}`
          : 'to give it up would not be enough';
    page.paragraph(`${c.name} ${window(c.property, c.side, c.limit)}: ${way}`, 4, 6);
  }
  const { materials, together } = ways;
  if (materials.length > 0) page.paragraph('Or take one of these in, with which it can be met as it is:', 2);
  for (const m of materials) {
    const most = m.mostPrice === null ? '' : `, if it costs at most ${printPriceByMass(m.mostPrice, view.wording)}`;
    page.paragraph(`${m.name}: ${m.why}${most}`, 4, 6);
  }
  if (together.length > 0) page.paragraph('Or take all of these in, with which together it can be met as it is:', 2);
  for (const m of together) page.paragraph(`${m.name}: ${m.why}`, 4, 6);
}
