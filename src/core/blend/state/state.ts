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
 * solves again until the blend stands still. Each part is worked out when first asked for: a search looks at thousands
 * of blends, and its rows ask for few of the parts.
 */
export class BlendState {
  #amounts: Amounts | undefined;
  #setting: SettingState | undefined;
  #water: WaterState | undefined;
  #strength: StrengthState | undefined;
  #heat: HeatState | undefined;
  #skeleton: Skeleton | undefined;
  #counted: readonly number[] | undefined;
  #demand: readonly number[] | undefined;
  #air: number | undefined;

  constructor(
    private readonly world: World,
    readonly grams: Grams,
    private readonly sameGrains?: BlendState,
  ) {}

  get amounts(): Amounts {
    this.#amounts ??= amountsOf(this.world, this.grams);
    return this.#amounts;
  }

  get setting(): SettingState {
    this.#setting ??= settingState(this.world, this.grams, this.amounts);
    return this.#setting;
  }

  get water(): WaterState {
    this.#water ??= waterState(
      this.world,
      this.grams,
      this.amounts,
      eventMinutes(this.setting.form('demould'), this.grams),
      this.setting.retarded,
    );
    return this.#water;
  }

  get strength(): StrengthState {
    this.#strength ??= strengthState(this.world, this.grams, this.amounts, this.water, this.counted, this.air);
    return this.#strength;
  }

  get heat(): HeatState {
    this.#heat ??= heatState(this.world, this.grams, this.setting, this.water, this.air);
    return this.#heat;
  }

  get skeleton(): Skeleton {
    this.#skeleton ??= this.sameGrains?.skeleton ?? skeletonOf(this.world, this.grams);
    return this.#skeleton;
  }

  /** g of cement that a gram of each pozzolan counts as in the k-value water-to-binder. */
  get counted(): readonly number[] {
    this.#counted ??= countedPozzolan(this.world, this.grams, this.amounts);
    return this.#counted;
  }

  /** g of water demand per gram of each material, plasticiser savings included. */
  get demand(): readonly number[] {
    this.#demand ??= demandOf(this.world, this.grams, this.amounts);
    return this.#demand;
  }

  /** Share of the finished volume that is air. */
  get air(): number {
    this.#air ??= airOf(this.world, this.grams, this.amounts);
    return this.#air;
  }
}

/** Water cannot be saved beyond this share, however much plasticiser goes in. Common practice, no source. */
const MOST_WATER_SAVED = 0.35;

/** The state of a blend; `sameGrains`: that of one whose sands and light aggregates stand in the same proportions. */
export const stateOf = (world: World, grams: Grams, sameGrains?: BlendState): BlendState =>
  new BlendState(world, grams, sameGrains);

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
