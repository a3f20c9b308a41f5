import { printMoney } from '../../core/index.js';
import { percent, wordingOf } from '../parts/words.js';
import type { Told } from '../worker/told.js';
import { tonesOf } from './bands.js';

/** Where the money of one piece goes: a bar, dearest first, and the same in words. */
export function Costs({ told }: { readonly told: Told }) {
  const { currency } = wordingOf(told);
  const tones = tonesOf(told);
  const parts = told.result.blend
    .flatMap((i) => {
      const cost = told.costs[i.material];
      return cost == null || cost <= 0 ? [] : [{ id: i.material, name: i.name, cost }];
    })
    .sort((a, b) => b.cost - a.cost);
  const total = parts.reduce((s, p) => s + p.cost, 0);
  const lacking = told.result.blend.filter((i) => told.costs[i.material] === null).map((i) => i.name);
  if (total === 0) return null;
  let x = 0;
  return (
    <figure class="chart">
      <figcaption>
        Materials of a piece: {printMoney(total.toFixed(6), currency)}
        {lacking.length > 0 && <small> without {lacking.join(', ')} (no price)</small>}
      </figcaption>
      <svg class="bar" viewBox="0 0 340 26" preserveAspectRatio="none" aria-hidden="true">
        {parts.map((p) => {
          const width = (340 * p.cost) / total;
          const at = x;
          x += width;
          return (
            <rect key={p.id} x={at} y="0" width={Math.max(0, width - 1)} height="26" fill={tones.get(p.id) ?? '#999'} />
          );
        })}
      </svg>
      <ul class="key">
        {parts.map((p) => (
          <li key={p.id}>
            <svg class="chip" viewBox="0 0 10 10" aria-hidden="true">
              <rect width="10" height="10" rx="2" fill={tones.get(p.id) ?? '#999'} />
            </svg>
            {p.name}
            <span>
              {printMoney(p.cost.toFixed(4), currency, 3)} <small>{percent(p.cost / total)}</small>
            </span>
          </li>
        ))}
      </ul>
    </figure>
  );
}
