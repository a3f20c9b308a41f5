import type { Costs } from '../brief/costs.js';
import { buildUp, type PriceCase, type PricedPart } from './price.js';
import { cheapestPacks, type Pack } from './price-packs.js';
import { Sum } from './sums.js';

/** The change each lever is pulled by, so that they can be ranked against each other. */
export const PULL = 0.1;

/** Something the maker could change, and what it leaves more in hand on each piece sold at the same price. */
export interface Lever {
  /** Stable: `price:<material>`, a cost group, `waste`, `breakage`, `fee`. */
  readonly id: string;
  readonly name: string;
  readonly saves: Sum;
}

const cheaper = (amount: string): string => new Sum(amount).times(1 - PULL).toFixed();

const withPart = (input: PriceCase, changed: PricedPart): PriceCase => ({
  ...input,
  parts: input.parts.map((part) => (part.material === changed.material ? changed : part)),
});

const withCosts = (input: PriceCase, changed: Partial<Costs>): PriceCase => ({
  ...input,
  costs: { ...input.costs, ...changed },
});

interface Change {
  readonly id: string;
  readonly name: string;
  readonly to: PriceCase;
}

function changes(input: PriceCase): Change[] {
  const { labour, mould, sealer, packing, postage, fee, breakage } = input.costs;
  const parts = input.parts.map((part): Change => {
    const pack = { ...part.pack, amount: cheaper(part.pack.amount) };
    return {
      id: `price:${part.material}`,
      name: `${part.name} at a lower price`,
      to: withPart(input, { ...part, pack }),
    };
  });
  const rest: (Change | false)[] = [
    labour !== null && {
      id: 'labour',
      name: 'less time on a piece',
      to: withCosts(input, {
        labour: { ...labour, minutes: labour.minutes * (1 - PULL), batchMinutes: labour.batchMinutes * (1 - PULL) },
      }),
    },
    mould !== null && {
      id: 'mould',
      name: 'a cheaper mould, or one that lasts longer',
      to: withCosts(input, { mould: { ...mould, price: cheaper(mould.price) } }),
    },
    sealer !== null && {
      id: 'sealer',
      name: 'less sealer, or cheaper',
      to: withCosts(input, { sealer: { ...sealer, amount: cheaper(sealer.amount) } }),
    },
    packing !== null && {
      id: 'packing',
      name: 'cheaper packing',
      to: withCosts(input, { packing: { ...packing, cost: cheaper(packing.cost) } }),
    },
    postage.length > 0 && {
      id: 'postage',
      name: 'cheaper postage',
      to: withCosts(input, { postage: postage.map((step) => ({ ...step, price: cheaper(step.price) })) }),
    },
    input.waste > 0 && {
      id: 'waste',
      name: 'less left in the bowl',
      to: { ...input, waste: input.waste * (1 - PULL) },
    },
    breakage > 0 && {
      id: 'breakage',
      name: 'fewer failed pieces',
      to: withCosts(input, { breakage: breakage * (1 - PULL) }),
    },
    (fee.share > 0 || Number(fee.each) > 0) && {
      id: 'fee',
      name: 'a lower selling fee',
      to: withCosts(input, { fee: { share: fee.share * (1 - PULL), each: cheaper(fee.each) } }),
    },
  ];
  return [...parts, ...rest.filter((change) => change !== false)];
}

/**
 * What a tenth less of each thing saves on a piece sold at `price`, most first. Every lever runs through the whole
 * build-up, so that cheaper materials also make failed pieces cheaper.
 */
export function levers(input: PriceCase, price: Sum): Lever[] {
  const spent = (at: PriceCase): Sum => buildUp(at).total.plus(price.times(at.costs.fee.share)).plus(at.costs.fee.each);
  const before = spent(input);
  return changes(input)
    .map(({ id, name, to }) => ({ id, name, saves: before.minus(spent(to)) }))
    .filter((lever) => lever.saves.gt(0))
    .sort((a, b) => b.saves.comparedTo(a.saves));
}

/** Another way of doing it, with what it saves on each piece. */
export type Alternative =
  | { readonly kind: 'packs'; readonly material: string; readonly name: string; readonly saves: Sum }
  | { readonly kind: 'lighter'; readonly grams: number; readonly upTo: number; readonly saves: Sum }
  | { readonly kind: 'batch'; readonly pieces: number; readonly saves: Sum };

/** A material's packs on sale and what one sold piece takes of it. */
export interface Need {
  readonly material: string;
  readonly name: string;
  /** g for one piece that is sold, waste and failed pieces included. */
  readonly grams: number;
  readonly packs: readonly Pack[];
}

/**
 * Larger packs instead of the smallest for so many pieces, the next lighter postage step, and twice the batch for the
 * same weighing and washing up. Most first.
 */
export function alternatives(input: PriceCase, needs: readonly Need[], pieces: number): Alternative[] {
  const built = buildUp(input);
  const found: Alternative[] = needs.flatMap((need): Alternative[] => {
    const smallest = need.packs.reduce((a, b) => (b.grams < a.grams ? b : a));
    const total = need.grams * pieces;
    const saves = cheapestPacks(total, [smallest]).cost.minus(cheapestPacks(total, need.packs).cost).div(pieces);
    return [{ kind: 'packs', material: need.material, name: need.name, saves }];
  });
  const { posted } = built;
  if (posted?.step && posted.lighter) {
    const { step, grams } = posted.lighter;
    found.push({ kind: 'lighter', grams, upTo: step.upTo, saves: new Sum(posted.step.price).minus(step.price) });
  }
  const doubled = { ...input, batchPieces: 2 * input.batchPieces };
  found.push({ kind: 'batch', pieces: doubled.batchPieces, saves: built.total.minus(buildUp(doubled).total) });
  return found.filter((a) => a.saves.gt(0)).sort((a, b) => b.saves.comparedTo(a.saves));
}
