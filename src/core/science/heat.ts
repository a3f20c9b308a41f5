import { atLeast, clamp, fraction, positive } from './guard.js';
import { arrheniusFactor } from './hydration.js';
import { HEMIHYDRATE_BOUND_WATER } from './stoichiometry.js';

/** Specific heats [J/(g K)]: dihydrate from thermoddem (looked up), others from memory, handbook values. */
export const SPECIFIC_HEAT = { dihydrate: 1.08, water: 4.18, cement: 0.75, sand: 0.8, hydratedCement: 1.1 } as const;

/** Heat of hydration of hemihydrate [J/g] with its spread. Source: hemihydrate-heat table 3, nbs enthalpies (binders.md a3). */
export const HEMIHYDRATE_HEAT = {
  alpha: { value: 120, low: 100, high: 140 },
  beta: { value: 130, low: 110, high: 150 },
} as const;

/**
 * Heat of reaction from dissolution enthalpies [J/g of reactant]. (h_product - h_reactant) x 1000 / M.
 *
 * reactant, product [J/mol, enthalpies of dissolution of the salt before and after]; molarMass [g/mol].
 * Positive is heat given off. Source: Hess's law; hemihydrate-heat table 3 gives -18,275 and -1,130 for hemihydrate and gypsum.
 */
export const heatFromDissolution = (reactant: number, product: number, molarMass: number): number =>
  (product - reactant) / positive(molarMass, 'molarMass');

/** Heat of hydration of pure compounds [J/g]. Source: lerch-bogue-1934 as used by schindler-folliard (from memory). */
export const COMPOUND_HEAT = { c3s: 500, c2s: 260, c3a: 866, c4af: 420, so3: 624, freeLime: 1186, mgo: 850 } as const;

/** Taylor's set [J/g], from memory, for comparison; not blended with the other. */
export const COMPOUND_HEAT_TAYLOR = {
  c3s: 517,
  c2s: 262,
  c3a: 1144,
  c4af: 725,
  so3: 0,
  freeLime: 1186,
  mgo: 0,
} as const;

/** Composition of a portland cement, percent by mass. */
export interface CementPhases {
  readonly c3s: number;
  readonly c2s: number;
  readonly c3a: number;
  readonly c4af: number;
  readonly so3?: number;
  readonly freeLime?: number;
  readonly mgo?: number;
}

/**
 * Heat of complete hydration of a portland cement [J/g].
 *
 *   H = (500 C3S + 260 C2S + 866 C3A + 420 C4AF + 624 SO3 + 1186 free CaO + 850 MgO) / 100
 *
 * phases [percent]; compounds [J/g, other sets may be passed]. Validity: +-10 %; what has come off at an age is H times
 * the degree of hydration. Source: lerch-bogue-1934, schindler-folliard-2005 (coefficients from memory).
 */
export function cementHeat(
  phases: CementPhases,
  compounds: Record<keyof typeof COMPOUND_HEAT, number> = COMPOUND_HEAT,
): number {
  let heat = 0;
  for (const [name, percent] of Object.entries(phases)) {
    heat += (compounds[name as keyof typeof COMPOUND_HEAT] * atLeast(0, percent, name)) / 100;
  }
  return heat;
}

/** Grams with a specific heat in J/(g K). */
export interface HeatStore {
  readonly grams: number;
  readonly specificHeat: number;
}

/** Heat a batch takes up per kelvin [J/K]: sum of m c. */
export const thermalMass = (stores: readonly HeatStore[]): number =>
  stores.reduce((sum, s) => sum + atLeast(0, s.grams, 'grams') * s.specificHeat, 0);

/**
 * Temperature rise when no heat escapes [K]: the upper bound. Q / sum(m c).
 * heat [J]; mass [J/K, > 0]. Source: energy balance.
 */
export const adiabaticRise = (heat: number, mass: number): number =>
  atLeast(0, heat, 'heat') / positive(mass, 'thermal mass');

/**
 * Adiabatic rise of neat plaster [K].
 *
 *   dT = q p / ((1 + 0.1862 p) 1.08 + (W/P - 0.1862 p) 4.18)
 *
 * waterToPlaster [g/g]; heat q [J/g hemihydrate]; purity p [0..1]. Short of water (W/P < 0.1862 p) only what the water
 * allows reacts. Validity: upper bound; water near boiling would limit it. W/P 0.32 gives 64-72 K: thick casts scald.
 * Source: binders.md a3 (computed from looked-up enthalpies).
 */
export function plasterAdiabaticRise(
  waterToPlaster: number,
  heat: number = HEMIHYDRATE_HEAT.alpha.value,
  purity = 1,
): number {
  const wants = HEMIHYDRATE_BOUND_WATER * fraction(purity, 'purity');
  const bound = Math.min(wants, atLeast(0, waterToPlaster, 'waterToPlaster'));
  const reacted = wants === 0 ? 0 : bound / wants;
  return (
    (heat * purity * reacted) / ((1 + bound) * SPECIFIC_HEAT.dihydrate + (waterToPlaster - bound) * SPECIFIC_HEAT.water)
  );
}

/**
 * Heat that leaves a mould per kelvin of difference [J/(h K)]. 0.36 U A, U = 1/(1/h + d/k).
 *
 * area [cm2, all outer faces]; thickness d [cm of mould wall]; conductivity k [W/(m K), 0.2 for silicone]; film h
 * [W/(m2 K), 8 in still indoor air]. Source: series resistances; both constants from memory.
 */
export function mouldLoss(area: number, thickness: number, conductivity = 0.2, film = 8): number {
  const resistance =
    1 / positive(film, 'film') + atLeast(0, thickness, 'thickness') / 100 / positive(conductivity, 'conductivity');
  return ((atLeast(0, area, 'area') / 1e4) * 3600) / resistance;
}

/**
 * Thickness of the plate that has as much face for its volume as a body [cm]. 2 V/A: such a plate and the body cool alike
 * while each has one temperature inside.
 *
 * volume [cm3]; area [cm2, all faces that lose heat]. Validity: Biot number U (V/A)/k under about 0.1; beyond, the core stays
 * warmer. Source: characteristic length of the lumped capacitance, V/A (lumped-capacitance: half a plate's thickness, half a
 * long cylinder's radius, a third of a sphere's).
 */
export const equalPlate = (volume: number, area: number): number =>
  (2 * positive(volume, 'volume')) / positive(area, 'area');

/** Times the final set after which less than 1e-16 of the plaster is left to set. */
const ALL_SET = 4;

/**
 * Share of plaster that has set at a time [0..1]. 1 - exp(-(t/s)^3), with s so that half has set at `finalSet`.
 *
 * minutes, finalSet [min, > 0]. Ours: an Avrami curve; calorimeters show most heat between initial and shortly after
 * final set. Only the peak temperature rests on it.
 */
export function plasterConversion(minutes: number, finalSet: number): number {
  const sets = atLeast(0, minutes, 'minutes') / positive(finalSet, 'finalSet');
  if (sets > ALL_SET) return 1;
  return 1 - Math.exp(-Math.LN2 * sets * sets * sets);
}

/** A cast in its mould. */
export interface HeatCase {
  /** J that all reactions give off in the end. */
  readonly heat: number;
  /** J/K of everything that warms. */
  readonly thermalMass: number;
  /** J/(h K), see mouldLoss. */
  readonly loss: number;
  /** °C. */
  readonly room: number;
  /** °C of the fresh mix. */
  readonly start: number;
  /** Share of the heat given off by an equivalent age in hours at 20 °C; rises from 0 towards 1. */
  readonly released: (hours: number) => number;
  /** kJ/mol; warmth speeds the reaction up. 0 switches that off. */
  readonly energy?: number;
  /** h at which each step ends, rising; default 2400 even steps over two days. */
  readonly times?: readonly number[];
  /** True where `released` quickens once and slows once, as one reaction does: then it warms once, and the first fall ends it. */
  readonly oneWave?: boolean;
}

export interface HeatPeak {
  /** °C. */
  readonly peak: number;
  /** h after mixing. */
  readonly at: number;
  /** Share of the adiabatic rise that was reached, 0..1. */
  readonly ofAdiabatic: number;
}

/** Even steps over so many hours; each ends at one of the times given back [h]. */
export function evenSteps(hours: number, steps: number, from = 0): number[] {
  positive(hours, 'hours');
  return Array.from({ length: positive(steps, 'steps') }, (_v, i) => from + (hours * (i + 1)) / steps);
}

const USUAL = { hours: 48, steps: 2400 } as const;

/** What is less [K] may be rounding. */
const FALL = 1e-9;

/**
 * Peak temperature of a cast that loses heat through its mould [°C]. One lump, stepped in time:
 *
 *   C dT/dt = Q d(released)/dt_e x f(T) - loss (T - room),   t_e grows by f(T) = arrheniusFactor(T, energy)
 *
 * Each step is solved exactly for even heat, so the answer never passes the adiabatic bound or oscillates.
 * Validity: pieces of a few centimetres (one temperature inside); thick ones are hotter in the core. Evaporation is
 * left out, so it errs on the warm side. Source: lumped heat balance (semi-adiabatic calorimetry); ours as assembled.
 */
export function semiAdiabaticPeak(cast: HeatCase): HeatPeak {
  const mass = positive(cast.thermalMass, 'thermalMass');
  const bound = adiabaticRise(cast.heat, mass);
  const loss = atLeast(0, cast.loss, 'loss');
  const energy = atLeast(0, cast.energy ?? 0, 'energy');
  let temperature = cast.start;
  let age = 0;
  let before = 0;
  let trend = 0;
  let released = clamp(cast.released(0), 0, 1);
  let peak = { peak: temperature, at: 0 };
  for (const at of cast.times ?? evenSteps(USUAL.hours, USUAL.steps)) {
    const step = positive(at - before, 'step');
    before = at;
    // Warmth of the middle of the step, by the trend of the last one.
    const middle = clamp(temperature + (trend * step) / 2, -10, 95);
    age += energy === 0 ? step : step * arrheniusFactor(middle, energy);
    const now = clamp(cast.released(age), released, 1);
    // Heat given off evenly within a step has lost part of itself by its end: the mean of exp(-x s) over 0 <= s <= 1.
    const lost = (loss * step) / mass;
    const decay = Math.exp(-lost);
    const kept = lost < 1e-9 ? 1 : (1 - decay) / lost;
    const next = cast.room + (temperature - cast.room) * decay + bound * (now - released) * kept;
    trend = (next - temperature) / step;
    temperature = next;
    released = now;
    if (temperature > peak.peak) peak = { peak: temperature, at };
    // Past the only peak.
    else if (cast.oneWave && temperature < peak.peak - FALL) break;
    // All the heat still to come at once, and none lost, would not reach the peak again.
    else if (temperature + bound * (1 - released) < peak.peak) break;
  }
  return { peak: peak.peak, at: peak.at, ofAdiabatic: bound === 0 ? 0 : (peak.peak - cast.start) / bound };
}

/**
 * Burn caution by the temperature of a surface that is touched: `warm` from 40 °C, `burn` from 45 °C.
 * Skin is damaged from about 45 °C when contact lasts. Source: sluiceartfair-plaster (looked up, general page);
 * safety.md names the cases. celsius [°C].
 */
export const burnCaution = (celsius: number): 'none' | 'warm' | 'burn' =>
  celsius >= 45 ? 'burn' : celsius >= 40 ? 'warm' : 'none';
