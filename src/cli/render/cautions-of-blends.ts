import { cautionsTogether } from '../../core/report/cautions-together.js';
import type { AssessmentResult } from '../../core/report/result-schema.js';
import { cautionList } from './cautions.js';
import type { Sheet } from './page.js';

type Cautioned = Pick<AssessmentResult, 'cautions'>;

/** The cautions of all blends that a sheet shows, numbered as it numbers them; those of a few say of which. */
export function cautionsOfBlends(page: Sheet, first: Cautioned, others: readonly Cautioned[], full: boolean): void {
  if (others.length === 0) {
    cautionList(page, first.cautions, { full });
    return;
  }
  const blends = [first, ...others];
  const only = (id: string): string | null => {
    const having = blends.flatMap((b, i) => (b.cautions.cautions.some((c) => c.id === id) ? [i + 1] : []));
    if (having.length === blends.length) return null;
    const last = having.at(-1)!;
    return having.length === 1 ? `blend ${last} only` : `blends ${having.slice(0, -1).join(', ')} and ${last} only`;
  };
  const all = cautionsTogether(blends.map((b) => b.cautions));
  cautionList(page, all, { full, only, of: `of this blend (1) and its alternatives (2 to ${blends.length})` });
}
