import { isAggregate } from '../numbers.js';
import { dot, type Grams, sum, type World } from '../world.js';
import { type Amounts, amountsOf } from './amounts.js';
import { doseCoefficients, saturating } from './dosing.js';
import { type HeatState, heatState } from './heat-state.js';
import { eventMinutes, type SettingState, settingState } from './setting-state.js';
import { type Skeleton, skeletonOf } from './skeleton.js';
import { type StrengthState, strengthState } from './strength-state.js';
import { type WaterState, waterState } from './water-state.js';

/**
 * The state of a blend: everything in the properties' coefficients that depends on the blend itself. The forward
 * model computes it from the grams; the optimiser holds it while it solves, computes it anew from the answer and
 * solves again until the blend stands still.
 */
export interface BlendState {
  readonly grams: Grams;
  readonly amounts: Amounts;
  readonly setting: SettingState;
  readonly water: WaterState;
  readonly strength: StrengthState;
  readonly heat: HeatState;
  readonly skeleton: Skeleton;
  /** g of cement that a gram of each pozzolan counts as in the k-value water-to-binder. */
  readonly counted: readonly number[];
  /** g of water demand per gram of each material, plasticiser savings included. */
  readonly demand: readonly number[];
  /** Share of the finished volume that is air. */
  readonly air: number;
}

/** Water cannot be saved beyond this share, however much plasticiser goes in. Common practice, no source. */
const MOST_WATER_SAVED = 0.35;

export function stateOf(world: World, grams: Grams): BlendState {
  const amounts = amountsOf(world, grams);
  const setting = settingState(world, grams, amounts);
  const demould = eventMinutes(setting.forms.demould, grams);
  const water = waterState(world, grams, amounts, demould);
  const counted = countedPozzolan(world, grams, amounts);
  const air = airOf(world, grams, amounts);
  return {
    grams,
    amounts,
    setting,
    water,
    counted,
    strength: strengthState(world, grams, amounts, water, counted, air),
    heat: heatState(world, grams, setting, water, air),
    skeleton: skeletonOf(world, grams),
    demand: demandOf(world, grams, amounts),
    air,
  };
}

/** k-value of EN 206: a pozzolan counts k times its mass, at most up to its cap times the cement. */
function countedPozzolan(world: World, grams: Grams, amounts: Amounts): number[] {
  const cement = amounts.families.portland;
  return world.materials.map((m, i) => {
    if (m.k === 0 || cement <= 0) return 0;
    const mass = grams[i]! * m.solids;
    const cap = m.kCap * cement;
    return m.k * m.solids * (mass > cap ? cap / mass : 1);
  });
}

function demandOf(world: World, grams: Grams, amounts: Amounts): number[] {
  const raw = sum(world, grams, (m) => m.demand);
  const total = amounts.binder;
  const share = (f: keyof Amounts['families']): number => (total > 0 ? amounts.families[f] / total : 0);
  const effects = doseCoefficients(world, grams, amounts, 'water-demand', share);
  const saved = -dot(effects, grams);
  const held = saved > 0 ? saturating(saved, MOST_WATER_SAVED) / saved : 1;
  return world.materials.map((m, i) => m.demand + effects[i]! * held * raw);
}

function airOf(world: World, grams: Grams, amounts: Amounts): number {
  const effects = doseCoefficients(world, grams, amounts, 'air', () => 1);
  const extra = dot(effects, grams) / 100;
  return Math.min(0.3, Math.max(0.002, world.model(`air-${world.conditions.pour}`) + extra));
}

/** cm³ of paste (all that is not skeleton) per gram of each material; grains give or take only their water. */
export const pasteVolume = (world: World): number[] =>
  world.materials.map((m) => (isAggregate(m) ? m.volume - m.grainVolume : m.volume));
