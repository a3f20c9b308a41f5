import { boundWaterHemihydrate, boundWaterMonocalciumAluminate, boundWaterYeelimite } from '../../science/stoichiometry.js';
import { degreeOfHydration, equivalentAge, ultimateDegree } from '../../science/hydration.js';
import { dryingTimeConstantDays } from '../../science/drying.js';
import type { Grams, World } from '../world.js';
import { sum } from '../world.js';
import type { Amounts } from './amounts.js';

/** Who takes the water, in the order they set: gypsum, CSA and aluminate cement, then portland. */
export interface WaterState {
  /** Water left for the portland per gram of it, g/g; null without portland. */
  readonly waterToCement: number | null;
  /** Degree of hydration of the portland, 0..1, at an age in hours. */
  degreeAt(hours: number): number;
  /** Chemically bound water per gram of each material at an age in hours. */
  boundAt(hours: number): number[];
  /** Water still held in the pores at room humidity when dry, per gram of each material. */
  readonly held: readonly number[];
  /** Days in which free water falls to 37 %. */
  readonly dryingDays: number;
  /** Hours after mixing at which drying begins. */
  readonly dryFromHours: number;
}

/** Hydration in a damp piece goes on until about one drying time after it is uncovered. */
const wetHours = (dryFrom: number, dryingDays: number): number => dryFrom + 24 * dryingDays;

/**
 * Competition for water. Sources: stoichiometry for gypsum, ye'elimite and monocalcium aluminate; Mills' ultimate
 * degree with Schindler-Folliard growth for portland, applied to the CSA and aluminate cements too (ours: it keeps
 * low-water mixes from binding water they cannot reach).
 */
export function waterState(world: World, grams: Grams, amounts: Amounts, demouldMinutes: number | null): WaterState {
  const { model, conditions } = world;
  const demouldHours = (demouldMinutes ?? 24 * 60) / 60;
  const coverDays = conditions.coverDays ?? (demouldHours < 6 ? 0 : 3);
  const dryingDays = dryingTimeConstantDays({
    wallCm: conditions.wall,
    temperature: conditions.temperature,
    humidity: conditions.humidity,
    daysAtReference: model('drying-days'),
    wallPower: model('drying-wall-power'),
  });
  const dryFromHours = demouldHours + 24 * coverDays;
  const conversion = model('gypsum-conversion');

  const gypsumWants = boundWaterHemihydrate(amounts.hemihydrate) * conversion;
  const gypsumServed = gypsumWants > 0 ? Math.min(1, Math.max(0, amounts.water) / gypsumWants) : 1;
  const afterGypsum = Math.max(0, amounts.water - gypsumWants);

  const quick = amounts.families.csa + amounts.families.aluminate;
  const portland = amounts.families.portland;
  const cements = quick + portland;
  const shareOfWater = cements > 0 ? afterGypsum / cements : 0;
  const quickUltimate = quick > 0 ? ultimateDegree(shareOfWater) : 0;
  const quickBinds = (i: number): number => {
    const m = world.materials[i]!;
    if (m.family === 'csa') return boundWaterYeelimite(m.yeelimite, m.anhydrite);
    if (m.family === 'aluminate') return boundWaterMonocalciumAluminate(m.aluminate);
    return 0;
  };
  const quickDegree = (hours: number): number =>
    quickUltimate * (hours > 0 ? Math.exp(-((model('csa-tau') / hours) ** 1)) : 0);

  const quickBoundEnd = sum(world, grams, (_m, i) => quickBinds(i)) * quickDegree(wetHours(dryFromHours, dryingDays));
  const waterToCement = portland > 0 ? Math.max(0, afterGypsum - quickBoundEnd) / portland : null;
  const ultimate = waterToCement === null ? 0 : ultimateDegree(waterToCement);
  const growth = { tauHours: model('hydration-tau'), beta: model('hydration-beta') };
  const halted = wetHours(dryFromHours, dryingDays);
  const degreeAt = (hours: number): number => {
    const age = equivalentAge(Math.min(hours, halted), conditions.temperature, model('set-energy-portland'));
    return degreeOfHydration(age, ultimate, growth);
  };
  const boundAt = (hours: number): number[] => {
    const portlandBound = model('cement-bound-water') * degreeAt(hours);
    const quickAt = quickDegree(Math.min(hours, halted));
    return world.materials.map((m, i) => {
      if (m.family === 'portland') return portlandBound * m.solids;
      if (m.hemihydrate > 0) return boundWaterHemihydrate(m.hemihydrate) * conversion * gypsumServed;
      return quickBinds(i) * quickAt;
    });
  };

  const air = conditions.humidity / 0.5;
  const degreeEnd = degreeAt(halted);
  const held = world.materials.map((m) => {
    if (m.family === 'portland') return model('held-portland') * degreeEnd * air * m.solids;
    if (m.family === 'csa' || m.family === 'aluminate') return model('held-csa') * air * m.solids;
    if (m.family === 'gypsum') return model('held-gypsum') * air * m.solids;
    return 0;
  });
  return { waterToCement, degreeAt, boundAt, held, dryingDays, dryFromHours };
}
