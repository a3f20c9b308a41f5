import { dryingTimeConstantDays } from '../../science/drying.js';
import {
  arrheniusFactor,
  degreeOfHydration,
  hydratingHours,
  slowedByAdditions,
  ultimateDegree,
} from '../../science/hydration.js';
import { degreeLimit, initialWaterShare } from '../../science/paste-structure.js';
import { heldFromFigure } from '../../science/sorption.js';
import {
  boundWaterBelite,
  boundWaterHemihydrate,
  boundWaterMonocalciumAluminate,
  boundWaterYeelimite,
} from '../../science/stoichiometry.js';
import type { MaterialNumbers } from '../numbers.js';
import { dot, type Grams, sum, type World } from '../world.js';
import type { Amounts } from './amounts.js';

/** Who takes the water, in the order they set: gypsum, CSA and aluminate cement, then portland. */
export interface WaterState {
  /** Water left for the portland per gram of it, g/g; null without portland. */
  readonly waterToCement: number | null;
  /** Degree of hydration of the portland, 0..1, at an age in hours. */
  readonly degreeAt: (hours: number) => number;
  /** Share of the hemihydrate, ye'elimite or aluminate of each family that reacts, 0..1, at an age in hours. */
  readonly quickDegreeAt: (hours: number) => number;
  readonly gypsumDegree: number;
  /** Chemically bound water per gram of each material at an age in hours. */
  readonly boundAt: (hours: number) => number[];
  /** Water still held in the pores at room humidity when dry, per gram of each material. */
  readonly heldAtRest: () => readonly number[];
  /** Hours in which free water falls to 37 %. */
  readonly dryingHours: number;
  /** Hours after mixing at which drying begins. */
  readonly dryFromHours: number;
  /** Hours after mixing at which the piece leaves the mould; a day where nothing tells. */
  readonly demouldHours: number;
}

/** Age in hours that stands for "for good" in `boundAt`. */
export const FOR_GOOD = 24 * 3650;

/** What by itself demoulds within so many hours is not covered unless the maker says so; what takes twice as long is. */
const QUICK_HOURS = 6;
const USUAL_COVER_DAYS = 3;
const LONGEST_SET_HOURS = 24 * 365;

/**
 * Days a piece is kept damp where the maker says nothing. Goes by the time the binders take without admixtures: plaster
 * gains nothing by it, however late it is made to set. Without a step, or a search would stand upon its edge. Ours.
 */
function usualCoverDays(ownDemouldHours: number): number {
  const along = Math.min(1, Math.max(0, Math.log2(ownDemouldHours / QUICK_HOURS)));
  return USUAL_COVER_DAYS * along * along * (3 - 2 * along);
}

const quickBinds = (m: MaterialNumbers): number => {
  if (m.family === 'csa') return boundWaterYeelimite(m.yeelimite, m.anhydrite);
  if (m.family === 'aluminate') return boundWaterMonocalciumAluminate(m.aluminate, 'C2AH8');
  return 0;
};

/** Coefficients that share out what there is, where they would ask for more. */
function within(grams: Grams, wanted: number[], available: number): number[] {
  const total = dot(wanted, grams);
  if (total <= available || total <= 0) return wanted;
  const share = Math.max(0, available) / total;
  return wanted.map((w) => w * share);
}

interface PortlandUltimate {
  readonly degree: number;
  /** Shares of portland and all pozzolan. */
  readonly flyAsh: number;
  readonly slag: number;
}

/**
 * Where the portland's hydration ends: Mills with the fly ash and slag terms, in water over portland and pozzolan; but no
 * further than the water lasts (self-desiccation of a sealed paste; in wet service it may drink, and space is the limit).
 */
function portlandUltimate(
  world: World,
  grams: Grams,
  amounts: Amounts,
  waterToCement: number | null,
): PortlandUltimate {
  if (waterToCement === null || waterToCement <= 0) return { degree: 0, flyAsh: 0, slag: 0 };
  const { portland } = amounts.families;
  const cementitious = portland + sum(world, grams, (m) => (m.kind === 'pozzolan' ? m.solids : 0));
  const flyAsh = sum(world, grams, (m) => m.flyAsh) / cementitious;
  const slag = sum(world, grams, (m) => m.slag) / cementitious;
  const mills = ultimateDegree((waterToCement * portland) / cementitious, flyAsh, slag);
  const curing = world.conditions.service === 'wet' ? 'saturated' : 'sealed';
  return { degree: Math.min(mills, degreeLimit(initialWaterShare(waterToCement), curing)), flyAsh, slag };
}

/**
 * Competition for water. Stoichiometry for gypsum, ye'elimite and monocalcium aluminate; Mills' ultimate degree with
 * Schindler-Folliard growth for portland. Mills' ultimate degree is applied to the CSA and aluminate cements too (ours:
 * it keeps low-water mixes from binding water they cannot reach).
 */
export function waterState(
  world: World,
  grams: Grams,
  amounts: Amounts,
  demouldMinutes: number | null,
  retarded: number,
): WaterState {
  const { model, conditions } = world;
  // A blend drowned in retarder never sets; a year stands for that here.
  const wholeHours = (demouldMinutes ?? 24 * 60) / 60;
  const demouldHours = Math.min(wholeHours, LONGEST_SET_HOURS);
  const ownDemouldHours = wholeHours / Math.exp(retarded);
  const coverDays = conditions.coverDays ?? usualCoverDays(ownDemouldHours);
  const dryingHours =
    24 *
    dryingTimeConstantDays({
      wallCm: conditions.wall * (conditions.openFaces === 1 ? 2 : 1),
      wind: conditions.wind ?? 0,
      temperature: conditions.temperature,
      humidity: conditions.humidity,
      daysAtReference: model('drying-days'),
      wallPower: model('drying-wall-power'),
    });
  const dryFromHours = demouldHours + 24 * coverDays;
  const speed = arrheniusFactor(conditions.temperature, model('set-energy-portland'));
  // Admixtures move hydration as a whole, as far as they move the set: what a retarder adds to the time in the mould cures
  // nothing. (Retarders lengthen the dormant period and leave what follows much as it was: Taylor 1997, from memory.)
  const putOff = demouldHours - ownDemouldHours;
  const countedHours = (hours: number): number => {
    const slow = Number.isFinite(dryingHours) ? dryingHours : FOR_GOOD;
    return speed * hydratingHours(Math.max(0, hours - putOff), Math.max(0, dryFromHours - putOff), slow);
  };

  const wanted = boundWaterHemihydrate(amounts.hemihydrate, model('gypsum-conversion'));
  const gypsumDegree = wanted > 0 ? model('gypsum-conversion') * Math.min(1, Math.max(0, amounts.water) / wanted) : 0;
  const afterGypsum = Math.max(0, amounts.water - boundWaterHemihydrate(amounts.hemihydrate, gypsumDegree));

  const quick = amounts.families.csa + amounts.families.aluminate;
  const portland = amounts.families.portland;
  const quickUltimate = quick > 0 && afterGypsum > 0 ? ultimateDegree(afterGypsum / (quick + portland)) : 0;
  const quickShape = { tauHours: model('csa-tau'), beta: 1 };
  const quickDegree = (counted: number): number => degreeOfHydration(counted, quickUltimate, quickShape);
  const quickDegreeAt = (hours: number): number => quickDegree(countedHours(hours));
  const quickBound = quick > 0 ? quickDegreeAt(FOR_GOOD) * sum(world, grams, quickBinds) : 0;
  const waterToCement = portland > 0 ? Math.max(0, afterGypsum - quickBound) / portland : null;
  const ultimate = portlandUltimate(world, grams, amounts, waterToCement);
  const shape = slowedByAdditions(
    { tauHours: model('hydration-tau'), beta: model('hydration-beta') },
    ultimate.flyAsh,
    ultimate.slag,
  );
  const degree = (counted: number): number => degreeOfHydration(counted, ultimate.degree, shape);
  const degreeAt = (hours: number): number => degree(countedHours(hours));

  // What leaves in the mould can neither be bound nor held, however short of water the blend is.
  const stays = (1 - model('lost-in-mould')) * amounts.allWater;
  const bound = (hours: number): number[] => {
    const counted = countedHours(hours);
    const byCement = portland > 0 ? model('cement-bound-water') * degree(counted) : 0;
    const reacted = quick > 0 ? quickDegree(counted) : 0;
    const wanted: number[] = [];
    for (const m of world.materials) {
      if (m.family === 'portland') wanted.push(byCement * m.solids);
      else if (m.hemihydrate > 0) wanted.push(boundWaterHemihydrate(m.hemihydrate, gypsumDegree));
      else if (m.belite > 0) wanted.push(boundWaterBelite(m.belite, model('belite-reacted')));
      else wanted.push(reacted > 0 ? reacted * quickBinds(m) : 0);
    }
    return within(grams, wanted, stays);
  };
  let boundForGood: number[] | undefined;
  const boundAt = (hours: number): number[] => {
    if (hours !== FOR_GOOD) return bound(hours);
    boundForGood ??= bound(FOR_GOOD);
    return boundForGood;
  };

  const heldOf = (): number[] => {
    const { humidity } = conditions;
    // Only of what is in play: draws ask a hundred times for a few materials.
    let [ofPortland, ofQuick, ofGypsum]: (number | undefined)[] = [];
    const pores: number[] = [];
    for (const { family, solids } of world.materials) {
      if (family === 'portland') {
        ofPortland ??= heldFromFigure(model('held-portland'), humidity, 'cement') * degreeAt(FOR_GOOD);
        pores.push(ofPortland * solids);
      } else if (family === 'csa' || family === 'aluminate') {
        ofQuick ??= heldFromFigure(model('held-csa'), humidity, 'cement');
        pores.push(ofQuick * solids);
      } else if (family === 'gypsum') {
        ofGypsum ??= heldFromFigure(model('held-gypsum'), humidity, 'gypsum');
        pores.push(ofGypsum * solids);
      } else pores.push(0);
    }
    return within(grams, pores, stays - dot(boundAt(FOR_GOOD), grams));
  };
  let held: number[] | undefined;
  // What hardens asks for none of this, and a search mostly asks how it hardens.
  const heldAtRest = (): number[] => {
    held ??= heldOf();
    return held;
  };
  return {
    waterToCement,
    degreeAt,
    quickDegreeAt,
    gypsumDegree,
    boundAt,
    heldAtRest,
    dryingHours,
    dryFromHours,
    demouldHours,
  };
}
