import type { Amount } from '../units/quantity.js';

/** Something bought by the pack and used up bit by bit. `amount` is a plain decimal string in the shop's currency. */
export interface PackPrice {
  readonly amount: string;
  readonly pack: Amount;
}

/** Work on a piece, at the maker's own hourly rate. */
export interface Labour {
  /** Money per hour, plain decimal string. */
  readonly rate: string;
  /** min on each piece: demoulding, trimming, sealing, packing. */
  readonly minutes: number;
  /** min on each batch, however many pieces it fills: weighing, mixing, pouring, washing up. */
  readonly batchMinutes: number;
}

/** A parcel not heavier than this costs this. */
export interface PostageStep {
  /** g, parcel and all; a parcel of just this weight still goes. */
  readonly upTo: number;
  readonly price: string;
}

/** All that a piece costs beside its materials. What the maker has not written is null or zero, never guessed. */
export interface Costs {
  readonly labour: Labour | null;
  /** The sealer and how much of it a piece takes; both by mass or both by volume. */
  readonly sealer: (PackPrice & { readonly use: Amount }) | null;
  /** A mould and how many pours it lasts. */
  readonly mould: { readonly price: string; readonly pours: number } | null;
  /** g of box and padding. */
  readonly packing: { readonly cost: string; readonly weight: number } | null;
  /** Lightest first; empty: not posted. */
  readonly postage: readonly PostageStep[];
  /** What selling takes: a share of the price, and a fixed sum each. */
  readonly fee: { readonly share: number; readonly each: string };
  /** Share of the price that is to be left over, 0..<1. */
  readonly margin: number;
  /** Share of the pieces cast that cannot be sold, 0..<1. */
  readonly breakage: number;
}

export const NO_COSTS: Costs = {
  labour: null,
  sealer: null,
  mould: null,
  packing: null,
  postage: [],
  fee: { share: 0, each: '0' },
  margin: 0,
  breakage: 0,
};
