import type { BinderFamily, DoseBasis } from '../../materials/words.js';
import { type FlashReason, flashSet } from '../../science/setting.js';
import { isBinder } from '../numbers.js';
import type { Grams, World } from '../world.js';

/** Masses that several models ask for, in grams. */
export interface Amounts {
  /** Water free to wet, flow and react: mixing water, water in emulsions and damp sand, less what grains drink. */
  readonly water: number;
  /** All water that is not chemically part of the powders, that in the pores of the grains included. */
  readonly allWater: number;
  readonly solids: number;
  readonly binder: number;
  readonly families: Readonly<Record<BinderFamily, number>>;
  readonly hemihydrate: number;
  /** Of whatever brings sulfate to a cement, and of any lime. */
  readonly sulfates: number;
  readonly limes: number;
  readonly base: Readonly<Record<DoseBasis, number>>;
}

/** Nothing of any binder family yet. */
export const noneOfAny = (): Record<BinderFamily, number> => ({
  portland: 0,
  csa: 0,
  aluminate: 0,
  gypsum: 0,
  lime: 0,
  'natural-hydraulic-lime': 0,
});

/** One pass: a search asks for these of thousands of blends. */
export function amountsOf({ materials }: World, grams: Grams): Amounts {
  const families = noneOfAny();
  let water = 0;
  let allWater = 0;
  let solids = 0;
  let binder = 0;
  let hemihydrate = 0;
  let sulfates = 0;
  let limes = 0;
  for (let i = 0; i < materials.length; i++) {
    const g = grams[i]!;
    if (g === 0) continue;
    const m = materials[i]!;
    const dry = g * m.solids;
    water += g * m.freeWater;
    allWater += g * (1 - m.solids);
    solids += dry;
    hemihydrate += g * m.hemihydrate;
    if (m.sulfate) sulfates += dry;
    if (m.lime) limes += dry;
    if (m.family !== null) families[m.family] += dry;
    if (isBinder(m)) binder += dry;
  }
  return {
    water,
    allWater,
    solids,
    binder,
    families,
    hemihydrate,
    sulfates,
    limes,
    base: {
      binder,
      cement: families.portland + families.csa + families.aluminate,
      gypsum: families.gypsum,
      portland: families.portland,
      csa: families.csa,
      aluminate: families.aluminate,
      lime: families.lime + families['natural-hydraulic-lime'],
      'dry-blend': solids,
    },
  };
}

/** Why nothing sets, shrinks or hardens: no water for it; null where there is some. */
export const withoutWater = ({ water }: Amounts): string | null => (water > 0 ? null : 'no water to set with');

/** Share of the binder that shrinks as it dries: portland and limes. */
export const shrinkingShare = ({ families, binder }: Amounts): number =>
  binder > 0 ? (families.portland + families.lime + families['natural-hydraulic-lime']) / binder : 0;

/** Whether limes are more than half of the binder. */
export const mostlyLime = ({ base, binder }: Amounts): boolean => binder > 0 && base.lime > binder / 2;

/** Why the mixture may set in the bowl; empty when it will not. */
export const flashReasons = ({ families, sulfates, limes }: Amounts): readonly FlashReason[] =>
  flashSet({ portland: families.portland, aluminate: families.aluminate, sulfate: sulfates, lime: limes });

/** Whether a material is counted in the base a dose is a percent of. */
export function inBase(m: { kind: string; family: BinderFamily | null; solids: number }, base: DoseBasis): number {
  switch (base) {
    case 'dry-blend':
      return m.solids;
    case 'binder':
      return m.kind === 'cement' || m.kind === 'gypsum' || m.kind === 'lime' || m.kind === 'pozzolan' ? m.solids : 0;
    case 'cement':
      return m.family === 'portland' || m.family === 'csa' || m.family === 'aluminate' ? m.solids : 0;
    case 'lime':
      return m.family === 'lime' || m.family === 'natural-hydraulic-lime' ? m.solids : 0;
    default:
      return m.family === base ? m.solids : 0;
  }
}
