import type { BuildUp } from './price.js';
import type { Need } from './price-levers.js';
import { cheapestPacks } from './price-packs.js';
import { Sum, sum } from './sums.js';

/** A blend to set against others. */
export interface Contender {
  readonly built: BuildUp;
  /** Spent once before the first piece: moulds, trial pours, a tool. */
  readonly once: Sum;
  /** What each sold piece takes of what is bought by the pack. */
  readonly needs: readonly Need[];
  /** Share of the pieces that fail. */
  readonly breakage: number;
}

/** From how many pieces on one of two is the cheaper. */
export interface BreakEven {
  /** 0 or 1: the one that is cheaper in the long run; null: the same for any number. */
  readonly cheaper: 0 | 1 | null;
  /** Fewest pieces from which it never costs more; 1: from the first. */
  readonly from: number | null;
  /** Pieces looked at; null: for ever. */
  readonly upTo: number | null;
}

/** Of staircases, which may cross often. */
export interface PackBreakEven extends BreakEven {
  /** Fewest pieces for which it is cheaper already, now and then, before `from`; null: none. */
  readonly first: number | null;
  /** 0 or 1: the one that is cheaper for the run; null: the same. */
  readonly atRun: 0 | 1 | null;
}

/** Fixed against variable cost: once + pieces x cost of a piece, without end. */
export function breakEven(a: Contender, b: Contender): BreakEven {
  const [ta, tb] = [a.built.total, b.built.total];
  if (ta.eq(tb) && a.once.eq(b.once)) return { cheaper: null, from: null, upTo: null };
  const aCheaper = ta.lt(tb) || (ta.eq(tb) && a.once.lt(b.once));
  const [lean, dear] = aCheaper ? [a, b] : [b, a];
  const more = lean.once.minus(dear.once);
  const gain = dear.built.total.minus(lean.built.total);
  const from = more.lte(0) ? 1 : Math.max(1, more.div(gain).ceil().toNumber());
  return { cheaper: aCheaper ? 0 : 1, from, upTo: null };
}

const BOUGHT = new Set(['materials', 'colour']);

/** What so many sold pieces cost when every material is bought in whole packs from an empty shelf. */
export function wholePackCost(contender: Contender, pieces: number): Sum {
  const { built, once, needs, breakage } = contender;
  const byTheGram = sum(built.lines.filter((line) => BOUGHT.has(line.group)).map((line) => line.amount));
  const rest = built.total.minus(byTheGram.div(new Sum(1).minus(breakage)));
  const packs = sum(needs.map((need) => cheapestPacks(need.grams * pieces, need.packs).cost));
  return once.plus(rest.times(pieces)).plus(packs);
}

/**
 * The same with whole packs, piece by piece up to `upTo`, and for a `run` of no more. The sums are staircases and may cross
 * often; `from` is the number after the last at which the other was cheaper.
 */
export function wholePackBreakEven(a: Contender, b: Contender, upTo: number, run: number): PackBreakEven {
  const sign = (n: number): number => wholePackCost(a, n).comparedTo(wholePackCost(b, n));
  const cheaper = (order: number): 0 | 1 | null => (order === 0 ? null : order < 0 ? 0 : 1);
  const [last, atRun] = [sign(upTo), cheaper(sign(run))];
  if (last === 0) return { cheaper: null, from: null, upTo, first: null, atRun };
  let from = upTo;
  while (from > 1 && sign(from - 1) !== -last) from -= 1;
  let first = 1;
  while (first < from && sign(first) !== last) first += 1;
  return { cheaper: cheaper(last), from, upTo, first: first < from ? first : null, atRun };
}
