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
  const wayOf = (c: Colliding, binder: string | undefined): string => {
    const of = binder === undefined ? '' : ` (${binder})`;
    if (c.reachable !== null)
      return `${window(c.property, c.side, reachableLimit(c.side, c.reachable, { property: c.property, system }))} can be had${of}`;
    if (c.why !== undefined) return `nothing but ${c.why} can be had${of}`;
    if (c.without !== undefined)
      return `if it is given up the rest can be had (${binder === undefined ? '' : `${binder}: `}${c.without})`;
    return 'to give it up would not be enough';
  };
  if (colliding.length === 0) page.paragraph('Even without targets no blend can be had of these materials.', 2);
  const sets = [...new Set(colliding.map((c) => c.set))].map((n) => colliding.filter((c) => c.set === n));
  for (const set of sets) {
    page.paragraph(leadOf(set, sets.length === 1), 2);
    for (const c of set) {
      const binder = result.systems.find((s) => s.system === c.system)?.name;
      page.paragraph(`${c.name} ${window(c.property, c.side, c.limit)}: ${wayOf(c, binder)}`, 4, 6);
    }
  }
  if (sets.length > 1) page.paragraph('Each is told as if the others had given way.', 2);
  const { materials, together } = ways;
  if (materials.length > 0) page.paragraph('Or take one of these in, with which it can be met as it is:', 2);
  for (const m of materials) {
    const most = m.mostPrice === null ? '' : `, if it costs at most ${printPriceByMass(m.mostPrice, view.wording)}`;
    page.paragraph(`${m.name}: ${m.why}${most}`, 4, 6);
  }
  if (together.length > 0) page.paragraph('Or take all of these in, with which together it can be met as it is:', 2);
  for (const m of together) page.paragraph(`${m.name}: ${m.why}`, 4, 6);
}

type Colliding = WaysOutResult['colliding'][number];

/** What is wrong with a set of targets, and whether giving way in one of them frees the brief. */
function leadOf(set: readonly Colliding[], alone: boolean): string {
  if (set.length === 1) return alone ? 'This cannot be had here:' : 'This cannot be had here, whatever else gives way:';
  const helps = set.filter((c) => c.reachable !== null || c.why !== undefined || c.without !== undefined).length;
  if (helps === 0) return 'These cannot hold together:';
  const any = helps === set.length ? 'any one' : 'one';
  return `These cannot hold together. Give way in ${any} of them, as far as said, and ${alone ? 'the brief' : 'they'} can be met:`;
}
