import type { Costs } from '../brief/costs.js';
import { type Posted, postedBy, type WeightRange } from './postage.js';
import { Sum, sum, toCoins, upToCoins } from './sums.js';

/** One ingredient of a piece and what it is bought for. Water and other free things are left out. */
export interface PricedPart {
  readonly material: string;
  readonly name: string;
  /** Counted as colour, not as body. */
  readonly colour: boolean;
  /** g that end up in the piece. */
  readonly pieceGrams: number;
  /** The pack its price goes by: money (plain decimal) for so many grams. */
  readonly pack: { readonly amount: string; readonly grams: number };
}

/** All that the price of one piece depends on. */
export interface PriceCase {
  readonly parts: readonly PricedPart[];
  /** Share of what is mixed that is not cast, 0..<1. */
  readonly waste: number;
  readonly costs: Costs;
  /** g of one dry piece; null: not known, so postage cannot be told. */
  readonly dryWeight: WeightRange | null;
  /** Pieces that share the work on one batch, >= 1. */
  readonly batchPieces: number;
}

export const COST_GROUPS = [
  'materials',
  'colour',
  'mould',
  'labour',
  'failed',
  'sealer',
  'packing',
  'postage',
] as const;
export type CostGroup = (typeof COST_GROUPS)[number];

/** One line of the cost of a piece that is sold. */
export interface CostLine {
  /** Stable within a version: the group, or the group and the material's id. */
  readonly id: string;
  readonly group: CostGroup;
  readonly name: string;
  /** Exact, not rounded to coins. */
  readonly amount: Sum;
  /** g of the material that are used up for one piece, waste included; null for what is not a material. */
  readonly grams: number | null;
}

export interface BuildUp {
  readonly lines: readonly CostLine[];
  readonly total: Sum;
  /** Hours of work behind one piece that is sold, failed pieces included. */
  readonly hours: number;
  /** Null: no postage table, or no weight. */
  readonly posted: Posted | null;
  /** Why the total is not whole: what could not be priced. */
  readonly gaps: readonly string[];
}

const SEEN_THROUGH: ReadonlySet<CostGroup> = new Set(['materials', 'colour', 'mould', 'labour']);

/**
 * What one piece that is sold costs.
 *
 * Materials: grams in the piece / (1 - waste) x pack price / pack grams. Mould: price / pours. Labour: rate x (minutes +
 * batch minutes / pieces of the batch) / 60. Failed pieces have taken their materials, pour and work, so those lines
 * times b/(1 - b) are added for a breakage of b. Sealer, packing and postage go to good pieces only. Nothing is rounded.
 */
export function buildUp(input: PriceCase): BuildUp {
  const { costs } = input;
  const lines: CostLine[] = input.parts.map((part) => {
    const group = part.colour ? 'colour' : 'materials';
    const grams = new Sum(part.pieceGrams).div(new Sum(1).minus(input.waste));
    const amount = grams.times(part.pack.amount).div(part.pack.grams);
    return { id: `${group}:${part.material}`, group, name: part.name, amount, grams: grams.toNumber() };
  });
  const add = (group: CostGroup, name: string, amount: Sum) =>
    lines.push({ id: group, group, name, amount, grams: null });

  const { mould, labour, sealer, packing, postage, breakage } = costs;
  if (mould !== null) add('mould', 'mould wear', new Sum(mould.price).div(mould.pours));
  const minutes =
    labour === null ? new Sum(0) : new Sum(labour.batchMinutes).div(input.batchPieces).plus(labour.minutes);
  if (labour !== null) add('labour', 'your work', minutes.times(labour.rate).div(60));
  if (breakage > 0) {
    const spent = sum(lines.filter((line) => SEEN_THROUGH.has(line.group)).map((line) => line.amount));
    add('failed', 'pieces that fail', spent.times(breakage).div(new Sum(1).minus(breakage)));
  }
  if (sealer !== null) {
    const [use, pack] = [size(sealer.use), size(sealer.pack)];
    add('sealer', 'sealer', new Sum(sealer.amount).times(use).div(pack));
  }
  if (packing !== null) add('packing', 'packing', new Sum(packing.cost));

  const gaps: string[] = [];
  let posted: Posted | null = null;
  if (postage.length > 0 && input.dryWeight === null) gaps.push('postage: the dry weight is not known');
  else if (postage.length > 0) {
    posted = postedBy(input.dryWeight!, packing?.weight ?? 0, postage);
    if (posted.step !== null) add('postage', 'postage', new Sum(posted.step.price));
    else gaps.push('postage: the parcel is heavier than your postage table goes');
  }
  return {
    lines,
    total: sum(lines.map((line) => line.amount)),
    hours: minutes.div(60).div(new Sum(1).minus(breakage)).toNumber(),
    posted,
    gaps,
  };
}

const size = (amount: NonNullable<Costs['sealer']>['use']): number => ('grams' in amount ? amount.grams : amount.cm3);

/** What a selling price leaves. Sums in whole coins. */
export interface Sale {
  readonly price: Sum;
  /** What selling takes: share of the price and fixed sum, rounded half up to coins. */
  readonly fee: Sum;
  /** Price less fee less cost; negative: a loss. Pay for the maker's own hours is among the cost. */
  readonly left: Sum;
  /** `left` as a share of the price; null at a price of zero. */
  readonly margin: number | null;
  /** What an hour of work earns at this price: all that is left when everything but the work is paid; null: no hours given. */
  readonly hourly: Sum | null;
}

const feeAt = (price: Sum, costs: Costs, decimals: number): Sum =>
  toCoins(price.times(costs.fee.share).plus(costs.fee.each), decimals);

/** The sale of one piece at a price. The cost counts in whole coins, as it is printed. */
export function saleAt(price: Sum, built: BuildUp, costs: Costs, decimals: number): Sale {
  const fee = feeAt(price, costs, decimals);
  const left = price.minus(fee).minus(toCoins(built.total, decimals));
  const rate = new Sum(costs.labour?.rate ?? 0);
  const hourly = built.hours > 0 ? toCoins(left.div(built.hours).plus(rate), decimals) : null;
  return { price, fee, left, margin: price.isZero() ? null : left.div(price).toNumber(), hourly };
}

/**
 * The price that covers cost, fee and the margin asked for, in whole coins.
 *
 *   price = (cost + fixed fee) / (1 - fee share - margin),  rounded up until margin x price is really left
 *
 * Rounding the fee to coins can take half a coin back, so the last step is checked and the price raised where need be.
 */
export function coveringPrice(built: BuildUp, costs: Costs, decimals: number): Sum {
  const open = new Sum(1).minus(costs.fee.share).minus(costs.margin);
  const coin = new Sum(10).pow(-decimals);
  const priceFor = (cost: Sum) => upToCoins(cost.plus(costs.fee.each).div(open), decimals);
  const covers = (p: Sum) => saleAt(p, built, costs, decimals).left.gte(p.times(costs.margin));
  const cost = toCoins(built.total, decimals);
  const safe = priceFor(cost.plus(coin.div(2)));
  let price = priceFor(cost);
  for (let raised = 0; !covers(price) && raised < MOST_RAISES; raised++) price = price.plus(coin);
  return covers(price) ? price : safe;
}

/** Beyond so many single coins the price that covers half a coin more is taken; that happens only near 100 % fee. */
const MOST_RAISES = 1000;
