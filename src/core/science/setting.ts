import { atLeast, positive } from './guard.js';
import { GAS_CONSTANT, ZERO_CELSIUS } from './hydration.js';

/** One binder in a mixed binder: its own set time and how loudly it speaks. */
export interface SetVoice {
  /** min, neat, as in the table. */
  readonly minutes: number;
  readonly grams: number;
  /** Activity, 0..1; gypsum 1, portland about 0.05: any portland with plaster sets on the plaster's clock. */
  readonly voice: number;
}

/**
 * Set time of a mixed binder [min], or null when nothing sets.
 *
 *   ln t = sum(grams x voice x ln t_i) / sum(grams x voice)
 *
 * Ours: a log-mean weighted by activity. With the table's voices, equal parts of portland and plaster set in 8-15 min,
 * as colak-2002 reports (8-11 min; looked up). Not valid in the portland/aluminate zone (see flashSet).
 */
export function mixedSet(binders: readonly SetVoice[]): number | null {
  let weight = 0;
  let sum = 0;
  for (const { minutes, grams, voice } of binders) {
    const w = atLeast(0, grams, 'grams') * atLeast(0, voice, 'voice');
    if (w === 0) continue;
    weight += w;
    sum += w * Math.log(positive(minutes, 'minutes'));
  }
  return weight === 0 ? null : Math.exp(sum / weight);
}

/**
 * Effect of an admixture on set time [factor]. exp(k x dose), no longer growing past `limit`.
 *
 * dose [percent of its base, >= 0]; perPercent k [ln per percent; negative accelerates]; limit [percent].
 * No published dose curve was found for plaster: k = 15-20 per % citric acid is from memory, low confidence.
 * A maker's own two timings give k by `doseSlope`. Source: form ours.
 */
export const doseFactor = (dose: number, perPercent: number, limit = Number.POSITIVE_INFINITY): number =>
  Math.exp(perPercent * Math.min(atLeast(0, dose, 'dose'), limit));

/**
 * Slope of the dose effect from two timings [ln per percent]. k = ln(t1/t0)/d1.
 * plain t0, dosed t1 [min, > 0]; dose d1 [percent, > 0]. Source: form ours.
 */
export const doseSlope = (plain: number, dosed: number, dose: number): number =>
  Math.log(positive(dosed, 'dosed') / positive(plain, 'plain')) / positive(dose, 'dose');

/**
 * What temperature adds to ln(set time) [-]. E/R (1/T - 1/T_ref), T in kelvin: positive when colder (slower).
 *
 * energy [kJ/mol, >= 0]; celsius [°C]; reference [°C, 20]. Validity: 5-35 °C; plaster is slowest to answer, and sets
 * slower again above about 40 °C as hemihydrate and gypsum come to dissolve alike. The 41.5 °C balance of gypsum and
 * anhydrite is from robie-1989 (looked up). Source: Arrhenius; energies ours or from memory (materials/model.yaml).
 */
export function arrheniusLogShift(energy: number, celsius: number, reference = 20): number {
  const kelvin = positive(ZERO_CELSIUS + celsius, 'kelvin');
  return (atLeast(0, energy, 'energy') / GAS_CONSTANT) * (1 / kelvin - 1 / (ZERO_CELSIUS + reference));
}

/** Temperature factor on set time [factor]: exp of arrheniusLogShift. Cold room > 1. */
export const setTemperatureFactor = (celsius: number, energy: number, reference = 20): number =>
  Math.exp(arrheniusLogShift(energy, celsius, reference));

/** Grams of what may flash together. */
export interface FlashMix {
  readonly portland: number;
  readonly aluminate: number;
  /** Plaster, gypsum, anhydrite, sulfate salts. */
  readonly sulfate?: number;
  readonly lime?: number;
}

export type FlashReason = 'portland-aluminate' | 'aluminate-sulfate' | 'aluminate-lime';

/**
 * Whether calcium aluminate cement may set in the bowl. Reasons, empty when none applies.
 *
 *   portland is 20-80 % of portland + aluminate; or plaster or another sulfate; or lime beside aluminate cement
 *
 * Inside this zone no set-time model holds. Shares under 1 % of the aluminate are taken as dust.
 * Source: scribd-474463233 (trade article) and handbook-thermal-analysis p. 373 (looked up); of sulfates these name plaster
 * alone, that others act alike is ours.
 */
export function flashSet({ portland, aluminate, sulfate = 0, lime = 0 }: FlashMix): readonly FlashReason[] {
  if (aluminate <= 0) return [];
  const reasons: FlashReason[] = [];
  const share = portland / (portland + aluminate);
  if (share >= 0.2 && share <= 0.8) reasons.push('portland-aluminate');
  if (sulfate > 0.01 * aluminate) reasons.push('aluminate-sulfate');
  if (lime > 0.01 * aluminate) reasons.push('aluminate-lime');
  return reasons;
}

/** Clamps of citric acid on plaster [percent of the plaster]. Source: citric-plaster-sheet (supplier page, looked up). */
export const CITRIC_ACID_ON_PLASTER = { warn: 0.1, refuse: 0.2 } as const;

/**
 * Verdict on citric acid in plaster: `warn` above 0.1 % (strength falls), `refuse` above 0.2 % (the paste may hydrate
 * and never become coherent). percent [of the plaster, >= 0]. Source: CITRIC_ACID_ON_PLASTER.
 */
export function citricAcidVerdict(percent: number): 'ok' | 'warn' | 'refuse' {
  if (atLeast(0, percent, 'percent') > CITRIC_ACID_ON_PLASTER.refuse) return 'refuse';
  return percent > CITRIC_ACID_ON_PLASTER.warn ? 'warn' : 'ok';
}

/** Vicat initial set of portland cement in C150 [min]. Source: c150 limits at c989-sheet (looked up). */
export const C150_VICAT_INITIAL = { low: 45, high: 375 } as const;

/** Whether a Vicat initial set [min] meets C150 for portland cement. Source: C150_VICAT_INITIAL. */
export const withinC150Vicat = (minutes: number): boolean =>
  minutes >= C150_VICAT_INITIAL.low && minutes <= C150_VICAT_INITIAL.high;
