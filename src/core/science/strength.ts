import { atLeast, clamp, positive } from './guard.js';
import { gelSpaceRatio } from './hydration.js';

/** 1 kgf/cm2 in MPa, exact by the definition of the kilogram-force. */
export const MPA_PER_KGF_CM2 = 0.0980665;

/** Strength at zero water [MPa] and slope of the plaster law; our regression of eight published rows. */
export const PLASTER_LAW = { atZeroWater: 215, slope: 3.87 } as const;

/**
 * Dry compressive strength of set plaster [MPa]. f = 215 exp(-3.87 W/P).
 *
 * waterToPlaster [g/g, > 0]. Validity: W/P 0.22-0.74, dried to constant weight at up to 45 °C, neat plaster without
 * retarder; residuals 0.87-1.20 between products. Outside it is extrapolated: the caller flags it.
 * Source: ours-plaster-fit, a regression of supplier rows (binders.md a6), alpha and beta products mixed.
 */
export const plasterDryStrength = (
  waterToPlaster: number,
  law: typeof PLASTER_LAW | PlasterLaw = PLASTER_LAW,
): number => law.atZeroWater * Math.exp(-law.slope * atLeast(0, waterToPlaster, 'waterToPlaster'));

/** Numbers of a plaster law of one's own. */
export interface PlasterLaw {
  readonly atZeroWater: number;
  readonly slope: number;
}

/**
 * Dry compressive strength of set plaster from its dry density [MPa]. f = 10.9 rho^3.11, rho in g/cm3.
 * Validity: 1.0-2.1 g/cm3. Source: ours-plaster-fit (same eight rows; R2 of ln f 0.987).
 */
export const plasterStrengthByDensity = (dryDensity: number): number =>
  10.9 * atLeast(0, dryDensity, 'dryDensity') ** 3.11;

/** Wet strength of gypsum as a share of dry. Source: jstage-gypsum-1954 and japan-cast-gypsum (abstracts, looked up). */
export const PLASTER_WET_SHARE = 0.5;

/** Strength of wet (or damp) gypsum [MPa]: half of dry. A trade text has 30 % after 24 h under water (lerncoach). */
export const plasterWetStrength = (dry: number, share = PLASTER_WET_SHARE): number => dry * clamp(share, 0, 1);

/**
 * Strength of plaster while it dries [MPa].
 *
 *   from wet (half) it rises by a fifth of the gap until 93 % of the free water has gone, then straight to dry
 *
 * dry [MPa]; gone [0..1, share of the free water lost]. Source: a trade manual says "little until 93 %" (address
 * withheld) and proquest-198571777 "up to 30 % in the last 8 %"; the shape in numbers is ours.
 */
export function plasterStrengthWhileDrying(dry: number, gone: number): number {
  const wet = plasterWetStrength(dry);
  const knee = wet + 0.2 * (dry - wet);
  const g = clamp(gone, 0, 1);
  return g <= 0.93 ? wet + ((knee - wet) * g) / 0.93 : knee + ((dry - knee) * (g - 0.93)) / 0.07;
}

/** Powers' strength of a pore-free gel: 234 MPa (34,000 psi), cube of gel/space. Source: civil-engg-world-gel-space. */
export const POWERS_STRENGTH = { intrinsic: 234, power: 3 } as const;

/**
 * Strength of portland paste from its gel/space ratio [MPa]. f = A X^n; A 234, n 3 by Powers.
 *
 * ratio X [0..1]; intrinsic A [MPa]; power n. Validity: small mortar cubes, cured moist. Ordinary concretes come out at
 * under half of A (about 105 MPa agrees with ACI 211.1's table): pass your own A.
 * Source: powers-1958; civil-engg-world-gel-space (234) and civinnovate-17825 (240) looked up.
 */
export const gelSpaceStrength = (
  ratio: number,
  intrinsic: number = POWERS_STRENGTH.intrinsic,
  power: number = POWERS_STRENGTH.power,
): number => intrinsic * clamp(ratio, 0, 1) ** power;

/**
 * Strength of portland paste at one degree of hydration as a share of that at another [fraction]. (X_1/X_2)^3.
 *
 * degree, reached [0..1]; waterToCement [g/g, > 0]. The constant of the gel/space law falls out. Validity: from setting
 * on, one curing temperature; the first hours are the least sure. Source: powers-1958; checked against the age curves of
 * ec2-strength-by-age and age-curve-forum.
 */
export function strengthShare(degree: number, reached: number, waterToCement: number): number {
  const late = gelSpaceRatio(reached, waterToCement);
  return late === 0 ? 0 : (gelSpaceRatio(degree, waterToCement) / late) ** POWERS_STRENGTH.power;
}

/**
 * Abrams' law [MPa]. f = A / B^(w/c), A 96 MPa, B 7, w/c by mass, 28 days.
 *
 * waterToCement [0.30-1.20]; outside it is extrapolated. Another quoted pair (14,000 psi, B 4) and the 1918 form by
 * VOLUME do not agree with this one: never mix the bases. Source: wikipedia-abrams (looked up).
 */
export const abramsStrength = (waterToCement: number, a = 96, b = 7): number =>
  a / b ** atLeast(0, waterToCement, 'waterToCement');

/**
 * Bolomey's line [MPa]. f = 160 (C/W - 0.5) kgf/cm2 at 28 days, x 0.0980665; at least 0.
 * waterToCement [g/g, > 0]. Validity: C/W 1.2-2.5 (w/c 0.40-0.83). Source: lerncoach-strength (looked up).
 */
export const bolomeyStrength = (waterToCement: number, slope = 160, offset = 0.5): number =>
  Math.max(0, slope * (1 / positive(waterToCement, 'waterToCement') - offset)) * MPA_PER_KGF_CM2;

/**
 * Feret's ratio [0..1]. (c / (c + w + a))^2 with absolute volumes of cement, water and air in one unit.
 * Strength is k times it, and k belongs to one cement: none is published. Source: aitcin-neville.
 */
export const feretRatio = (cement: number, water: number, air: number): number =>
  (atLeast(0, cement, 'cement') / positive(cement + water + air, 'volume')) ** 2;

/** Feret's strength [MPa]: k (c/(c+w+a))^2, k fitted to one cement [MPa]. */
export const feretStrength = (cement: number, water: number, air: number, k: number): number =>
  k * feretRatio(cement, water, air);

/** A row of a table of strength against water-to-cement. */
export interface StrengthRow {
  /** In the unit of the table. */
  readonly strength: number;
  readonly waterToCement: number;
}

const rows = (strengths: readonly number[], ratios: readonly number[]): readonly StrengthRow[] =>
  strengths.map((strength, i) => ({ strength, waterToCement: ratios[i]! }));

/** Strengths in MPa, 28 days. Source: aci-211-table (looked up). */
export const ACI_STRENGTH_SI = {
  plain: rows([45, 40, 35, 30, 25, 20, 15], [0.38, 0.42, 0.47, 0.54, 0.61, 0.69, 0.79]),
  airEntrained: rows([45, 40, 35, 30, 25, 20, 15], [0.3, 0.34, 0.39, 0.45, 0.52, 0.6, 0.7]),
} as const;

/** Strengths in psi as printed, 28 days. Source: aci-211 table as in civl-1112 (looked up). */
export const ACI_STRENGTH_US = {
  plain: rows([7000, 6000, 5000, 4000, 3000, 2000], [0.33, 0.41, 0.48, 0.57, 0.68, 0.82]),
  airEntrained: rows([6000, 5000, 4000, 3000, 2000], [0.32, 0.4, 0.48, 0.59, 0.74]),
} as const;

function interpolate(
  x: number,
  table: readonly StrengthRow[],
  from: keyof StrengthRow,
  to: keyof StrengthRow,
): number | null {
  for (let i = 1; i < table.length; i++) {
    const a = table[i - 1]!;
    const b = table[i]!;
    if ((x - a[from]) * (x - b[from]) <= 0) {
      return a[to] + ((b[to] - a[to]) * (x - a[from])) / (b[from] - a[from]);
    }
  }
  return null;
}

/**
 * Water-to-cement for a strength by a published table [g/g], straight between rows; null outside the table.
 * strength in the table's unit. Source: the table's.
 */
export const waterToCementFor = (strength: number, table: readonly StrengthRow[]): number | null =>
  interpolate(strength, table, 'strength', 'waterToCement');

/** Strength for a water-to-cement by a published table [table's unit], straight between rows; null outside it. */
export const tabledStrength = (waterToCement: number, table: readonly StrengthRow[]): number | null =>
  interpolate(waterToCement, table, 'waterToCement', 'strength');

/**
 * Mean strength to aim at so that few tests fail [same unit]. f_m = f_k + k s.
 * k 1.65: one test in twenty below. Source: is-10262 as worked in m50 (looked up).
 */
export const targetMeanStrength = (characteristic: number, deviation: number, k = 1.65): number =>
  characteristic + k * deviation;

/**
 * Loss of strength with air [factor]. exp(-5 (air - base)): 1 % of air costs about 5 %.
 *
 * air, base [fraction; base is the air the law already contains]. SOFT: the rule is from memory; one trade page sees no
 * loss below 5 % air in lean mixes. Source: memory; concreteconstruction-entrainment disagrees (looked up).
 */
export const airStrengthFactor = (air: number, base = 0, perFraction = 5): number =>
  Math.exp(-perFraction * (clamp(air, 0, 0.9) - base));

/**
 * What polymer in the cement does to strength [factors]: compression falls slightly, bending gains.
 *
 *   compression 1 - 0.5 p,  bending 1 + 2 p,  p = polymer solids / cement, at most 0.2
 *
 * SOFT, ours: reported effects run both ways with curing (damp hurts the film, dry helps). Never a reason to leave out
 * a test. Source: none; direction from memory of ACI 548 reports.
 */
export function polymerStrengthFactors(polymerToCement: number): {
  readonly compression: number;
  readonly bending: number;
} {
  const p = clamp(polymerToCement, 0, 0.2);
  return { compression: 1 - 0.5 * p, bending: 1 + 2 * p };
}

/** What to say of fibre: it is not a strength term. Source: gfrc-trade (doses, looked up); words ours. */
export const FIBRE_NOTE =
  'Fibre makes a piece tougher after the first crack and holds it together; it does not raise compressive strength. ' +
  'AR glass 2-3 % of the mix in a premix is usual; PVA and polypropylene by the maker’s trial.';
