import { Sum } from './sums.js';

/** A pack on sale: money (plain decimal) for so many grams. */
export interface Pack {
  readonly amount: string;
  readonly grams: number;
  /** The pack in the maker's words. */
  readonly text: string;
}

export interface Bought {
  readonly packs: readonly { readonly pack: Pack; readonly count: number }[];
  readonly cost: Sum;
  /** g bought beyond what is needed. */
  readonly left: number;
  /** False: packs of nearly one price per gram left too many ways to try them all; nothing cheaper was found. */
  readonly proven: boolean;
}

/** Ways tried before the search gives up. Shops that sell three sizes need a few dozen. */
const MOST_TRIES = 2000;

/** Grams this close over a pack still come out of it: floating dust, not a pack more. */
const DUST = 1e-9;

const packsFor = (need: number, pack: Pack): number => Math.max(0, Math.ceil((need / pack.grams) * (1 - DUST)));

/**
 * The cheapest whole packs of one material that hold what is needed.
 *
 * Depth first over how many of each pack, cheapest per gram first, with the price per gram of the packs still to come as
 * the bound. packs: at least one; need: g, >= 0.
 */
export function cheapestPacks(need: number, packs: readonly Pack[]): Bought {
  const sorted = [...packs].sort((a, b) => perGram(a).comparedTo(perGram(b)) || b.grams - a.grams);
  let best: { readonly counts: readonly number[]; readonly cost: Sum } | undefined;
  let tries = 0;
  const beaten = (bound: Sum): boolean => best !== undefined && (tries > MOST_TRIES || bound.gte(best.cost));
  const search = (i: number, lacking: number, spent: Sum, counts: readonly number[]): void => {
    tries += 1;
    const pack = sorted[i]!;
    const all = packsFor(lacking, pack);
    const next = sorted[i + 1];
    for (let count = all; count >= (next === undefined ? all : 0); count--) {
      const left = Math.max(0, lacking - count * pack.grams);
      const cost = spent.plus(new Sum(pack.amount).times(count));
      // A last pack that is hardly used can cost more than the next size; below that, fewer of the cheaper only costs more.
      if (beaten(next === undefined ? cost : cost.plus(perGram(next).times(left)))) {
        if (count < all) return;
        continue;
      }
      if (count === all) best = { counts: [...counts, count], cost };
      else search(i + 1, left, cost, [...counts, count]);
    }
  };
  search(0, need, new Sum(0), []);
  const { counts, cost } = best!;
  const bought = sorted.map((pack, i) => ({ pack, count: counts[i] ?? 0 })).filter(({ count }) => count > 0);
  const held = bought.reduce((s, { pack, count }) => s + count * pack.grams, 0);
  return { packs: bought, cost, left: Math.max(0, held - need), proven: tries <= MOST_TRIES };
}

export const perGram = (pack: Pack): Sum => new Sum(pack.amount).div(pack.grams);

/** From how much on one pack is never dearer than another, both bought whole. */
export interface PackBreakEven {
  /**
   * g: whoever needs more than this never pays more for the larger pack. 0: it is never dearer; null: it is dearer per
   * gram, or the two come so close that no quantity decides.
   */
  readonly above: number | null;
  /** g: the first need at which the larger pack is cheaper or the same; null: never. Waves come between the two. */
  readonly first: number | null;
}

/** Beyond so many large packs the two are called equal. */
const MOST_LARGE = 100_000;

/**
 * Break-even between buying only small packs and only large ones. Of k large packs (k - 1 < need/large <= k) the cost is
 * k P; the small ones cost no less as soon as ceil(need/small) >= k P/p. Both are staircases, so the large pack can be
 * cheaper, dearer and cheaper again; `above` is where that ends.
 */
export function packBreakEven(small: Pack, large: Pack): PackBreakEven {
  const [p, P] = [new Sum(small.amount), new Sum(large.amount)];
  const gain = p.times(large.grams).div(small.grams).minus(P);
  if (p.isZero() || P.isZero()) return { above: P.isZero() ? 0 : null, first: P.isZero() ? 0 : null };
  let above = 0;
  let first: number | null = null;
  // Beyond this many large packs the saving per pack has paid for one large pack that is hardly used.
  const bound = gain.gt(0) ? P.div(gain).plus(1).ceil().toNumber() : 0;
  const last = gain.gt(0) ? Math.min(bound, MOST_LARGE) : 1;
  for (let k = 1; k <= last; k++) {
    const enough = P.times(k).div(p).ceil().toNumber();
    const from = (k - 1) * large.grams;
    const dearerTo = Math.min(k * large.grams, (enough - 1) * small.grams);
    if (dearerTo > from * (1 + DUST)) above = dearerTo;
    if (first === null && dearerTo < k * large.grams * (1 - DUST)) first = Math.max(from, dearerTo);
  }
  return { above: gain.gt(0) && bound <= MOST_LARGE ? above : gain.isZero() && above === 0 ? 0 : null, first };
}
