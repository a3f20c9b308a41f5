import type { BinderFamily, DoseBasis } from '../../materials/words.js';
import { type FlashReason, flashSet } from '../../science/setting.js';
import { isBinder } from '../numbers.js';
import { type Grams, sum, type World } from '../world.js';

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
  readonly base: Readonly<Record<DoseBasis, number>>;
}

export function amountsOf(world: World, grams: Grams): Amounts {
  const family = (f: BinderFamily) => sum(world, grams, (m) => (m.family === f ? m.solids : 0));
  const families = {
    portland: family('portland'),
    csa: family('csa'),
    aluminate: family('aluminate'),
    gypsum: family('gypsum'),
    lime: family('lime'),
    'natural-hydraulic-lime': family('natural-hydraulic-lime'),
  };
  const binder = sum(world, grams, (m) => (isBinder(m) ? m.solids : 0));
  const solids = sum(world, grams, (m) => m.solids);
  return {
    water: sum(world, grams, (m) => m.freeWater),
    allWater: sum(world, grams, (m) => 1 - m.solids),
    solids,
    binder,
    families,
    hemihydrate: sum(world, grams, (m) => m.hemihydrate),
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

/** Share of the binder that shrinks as it dries: portland and limes. */
export const shrinkingShare = ({ families, binder }: Amounts): number =>
  binder > 0 ? (families.portland + families.lime + families['natural-hydraulic-lime']) / binder : 0;

/** Why the mixture may set in the bowl; empty when it will not. */
export const flashReasons = ({ families, hemihydrate }: Amounts): readonly FlashReason[] =>
  flashSet({
    portland: families.portland,
    aluminate: families.aluminate,
    sulfate: hemihydrate,
    lime: families.lime + families['natural-hydraulic-lime'],
  });

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
