import type { Assessment } from '../blend/assess.js';
import type { Problem } from '../problems/problem.js';

/** A piece this far from its mould, as a share of it, is seen. */
const SEEN = 0.03;

/** A blend that steps of the scale leave short of its mould, or over. `mould` [cm3]; null: a batch by itself. */
export function unfilledMould({ properties }: Assessment, mould: number | null): Problem[] {
  const volume = properties.find((p) => p.property === 'fresh-volume')?.value ?? null;
  if (mould === null || volume === null || Math.abs(volume / mould - 1) <= SEEN) return [];
  return [
    {
      code: 'mould-unfilled',
      severity: 'warning',
      found: `a mix of ⟦${Number(volume.toPrecision(3))} mL⟧ for a mould of ⟦${Number(mould.toPrecision(3))} mL⟧`,
      hint: 'the steps of the scale are too coarse for so small a batch: weigh finer, or more pieces at once',
    },
  ];
}
