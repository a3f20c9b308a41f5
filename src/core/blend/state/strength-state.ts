import { BINDER_FAMILIES, type BinderFamily } from '../../materials/words.js';
import { gelSpaceRatio } from '../../science/hydration.js';
import { isBinder } from '../numbers.js';
import { type Grams, sum, type World } from '../world.js';
import type { Amounts } from './amounts.js';
import { doseCoefficients } from './dosing.js';
import type { WaterState } from './water-state.js';

/** ln(MPa) = numerator / denominator over the grams. */
export interface StrengthState {
  readonly numerator: readonly number[];
  readonly denominator: readonly number[];
  /** Families with more than 2 % of the binder. */
  readonly mechanisms: readonly BinderFamily[];
}

interface Law {
  /** ln(MPa) at zero water. */
  readonly a: number;
  /** Fall of ln(MPa) per gram of water per gram of the family's own binder. */
  readonly b: number;
}

/** Figures of the laws ln f = a - b x water/binder. */
const EXPONENTIAL = {
  gypsum: { strength: 'plaster-strength', slope: 'plaster-strength-slope' },
  csa: { strength: 'csa-strength', slope: 'csa-strength-slope' },
  aluminate: { strength: 'aluminate-strength', slope: 'aluminate-strength-slope' },
  'natural-hydraulic-lime': {
    strength: 'natural-hydraulic-lime-strength',
    slope: 'natural-hydraulic-lime-strength-slope',
  },
  lime: { strength: 'lime-strength', slope: 'lime-strength-slope' },
} as const;

/** Water to cement as the gel/space law is asked for it: blends outside are taken for the nearest that it describes. */
export const withinGelSpace = (ratio: number): number => Math.min(2, Math.max(0.15, ratio));

/** Portland's gel/space law f = S x^3 near the present water-to-cement ratio (k-value), as a tangent in ln f. */
function portlandTangent(world: World, water: WaterState, countedAsCement: number): Law {
  const ratio = withinGelSpace((water.waterToCement ?? 0.5) / countedAsCement);
  const degree = water.degreeAt(24 * world.conditions.strengthAge);
  const lnStrength = (r: number): number =>
    Math.log(world.model('portland-strength')) + 3 * Math.log(Math.max(1e-6, gelSpaceRatio(degree, r)));
  const step = 1e-4;
  const b = -(lnStrength(ratio + step) - lnStrength(ratio - step)) / (2 * step);
  return { a: lnStrength(ratio) + b * ratio, b };
}

/**
 * Strength of the hardened blend. Each family has a law ln f = a - b x water/binder (plaster: exponential fit;
 * portland: gel/space ratio; CSA, aluminate and limes: exponential, ours); a mixed binder takes the mass-weighted mean
 * of the laws (ours), with a further spread. Air, light aggregate, sand in plaster and admixtures shift ln f.
 */
export function strengthState(
  world: World,
  grams: Grams,
  amounts: Amounts,
  water: WaterState,
  counted: readonly number[],
  air: number,
): StrengthState {
  const { model, conditions } = world;
  const wet = conditions.service === 'damp' || conditions.service === 'wet' ? Math.log(model('plaster-wet-share')) : 0;
  const { portland } = amounts.families;
  const countedRatio = portland > 0 ? sum(world, grams, (_m, i) => counted[i]!) / portland : 0;
  const exponential = (family: keyof typeof EXPONENTIAL): Law => {
    const { strength, slope } = EXPONENTIAL[family];
    return { a: Math.log(model(strength)) + (family === 'gypsum' ? wet : 0), b: model(slope) };
  };
  const laws: Partial<Record<BinderFamily, Law>> = {};
  const law = (family: BinderFamily): Law => {
    laws[family] ??= family === 'portland' ? portlandTangent(world, water, 1 + countedRatio) : exponential(family);
    return laws[family];
  };
  const { materials } = world;
  const denominator: number[] = [];
  const lawOf: (Law | null)[] = [];
  let total = 0;
  let slopes = 0;
  let volume = 0;
  for (let i = 0; i < materials.length; i++) {
    const m = materials[i]!;
    const g = grams[i]!;
    const d = m.family !== null ? m.solids : counted[i]!;
    const own = m.family !== null ? law(m.family) : d > 0 ? law('portland') : null;
    denominator.push(d);
    lawOf.push(own);
    total += g * d;
    slopes += g * (d * (own?.b ?? 0));
    volume += g * m.volume;
  }
  const slope = total > 0 ? slopes / total : 0;
  const mechanisms = BINDER_FAMILIES.filter((f) => amounts.binder > 0 && amounts.families[f] > 0.02 * amounts.binder);
  const common =
    Math.log(model('strength-spread')) +
    (mechanisms.length > 1 ? Math.log(model('mixed-binder-spread')) : 0) -
    model('air-strength') * air;
  const gypsumShare = total > 0 ? amounts.families.gypsum / total : 0;
  const shareOf = (f: BinderFamily): number => (amounts.binder > 0 ? amounts.families[f] / amounts.binder : 0);
  const doses = doseCoefficients(world, grams, amounts, 'strength', shareOf);
  const numerator: number[] = [];
  for (let i = 0; i < materials.length; i++) {
    const m = materials[i]!;
    const d = denominator[i]!;
    let n = d > 0 ? d * ((lawOf[i]?.a ?? 0) + common) : 0;
    n -= slope * m.freeWater;
    n += doses[i]! * total;
    if (m.kind === 'light-aggregate' && volume > 0)
      n -= (model('light-aggregate-strength') * m.grainVolume * total) / volume;
    if (m.kind === 'sand' || m.kind === 'filler') n -= model('sand-strength') * gypsumShare * m.solids;
    numerator.push(n);
  }
  return { numerator, denominator, mechanisms };
}

/** True where a blend has anything that gives it strength. */
export const hardens = (world: World, grams: Grams): boolean =>
  sum(world, grams, (m) => (isBinder(m) && m.family !== null ? 1 : 0)) > 0;
