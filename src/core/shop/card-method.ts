import type { BinderFamily } from '../materials/words.js';

/** How a family of binders is mixed. Every time here is common practice, no source. */
export interface Method {
  readonly id: 'plaster' | 'plaster-cement' | 'quick-cement' | 'cement' | 'lime';
  readonly name: string;
  /** Where the mix is made: in the bowl with the water, the powder going in; or in the bowl with the powder. */
  readonly into: 'water' | 'powder';
  /** min of each stage, in order; 0: left out. */
  readonly join: number;
  readonly soak: number;
  readonly mix: number;
  readonly rest: number;
  readonly mixAgain: number;
}

const PLASTER: Method = {
  id: 'plaster',
  name: 'plaster: powder into water',
  into: 'water',
  join: 1,
  soak: 2,
  mix: 2,
  rest: 0,
  mixAgain: 0,
};

/** Sets on the plaster's clock, so the soak is cut short. */
const PLASTER_CEMENT: Method = {
  id: 'plaster-cement',
  name: 'plaster with cement: dry blend into water',
  into: 'water',
  join: 1,
  soak: 1,
  mix: 2,
  rest: 0,
  mixAgain: 0,
};

const QUICK_CEMENT: Method = {
  id: 'quick-cement',
  name: 'rapid cement: dry blend, then water, no rest',
  into: 'powder',
  join: 0.5,
  soak: 0,
  mix: 2,
  rest: 0,
  mixAgain: 0,
};

const CEMENT: Method = {
  id: 'cement',
  name: 'cement: dry blend, then water',
  into: 'powder',
  join: 1,
  soak: 0,
  mix: 3,
  rest: 2,
  mixAgain: 1,
};

const LIME: Method = {
  id: 'lime',
  name: 'lime: dry blend, then water, a rest and a second mixing',
  into: 'powder',
  join: 1,
  soak: 0,
  mix: 5,
  rest: 10,
  mixAgain: 3,
};

/** The way of mixing for these masses of binder (g of each family); without any binder, as for cement. */
export function methodFor(families: Readonly<Record<BinderFamily, number>>): Method {
  const cement = families.portland + families.csa + families.aluminate;
  const lime = families.lime + families['natural-hydraulic-lime'];
  if (families.gypsum > 0) return cement + lime > 0 ? PLASTER_CEMENT : PLASTER;
  // Rapid cement decides the clock as soon as there is more than a pinch of it.
  if (families.csa + families.aluminate > 0.1 * cement) return QUICK_CEMENT;
  return lime > cement ? LIME : CEMENT;
}

/** min from powder meeting water until the mix is ready to pour. */
export const minutesToPour = (m: Method): number => m.join + m.soak + m.mix + m.rest + m.mixAgain;
