import type { Assessment } from '../blend/assess.js';
import type { Problem } from '../problems/problem.js';

/** A piece this far from its mould, as a share of it, is seen; and one that its weights tell of. */
const SEEN = 0.03;
const FELT = 0.01;

/** A blend that steps of the scale leave short of its mould, or over. `mould` [cm3]; null: a batch by itself. */
export function unfilledMould({ properties }: Assessment, mould: number | null): Problem[] {
  const volume = properties.find((p) => p.property === 'fresh-volume')?.value ?? null;
  if (mould === null || volume === null) return [];
  const off = Math.abs(volume / mould - 1);
  if (off <= FELT) return [];
  const side = volume > mould ? 'less' : 'more';
  return [
    {
      code: 'mould-unfilled',
      severity: off > SEEN ? 'warning' : 'note',
      found: `a mix of ⟦${Number(volume.toPrecision(3))} mL⟧ for a mould of ⟦${Number(mould.toPrecision(3))} mL⟧`,
      hint:
        off > SEEN
          ? 'the steps of the scale are too coarse for so small a batch: weigh finer, or more pieces at once'
          : `what is told here is of all the mix; a mould filled just so weighs ${(100 * off).toFixed(0)} % ${side}`,
    },
  ];
}
