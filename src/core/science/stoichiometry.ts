import { atLeast, fraction } from './guard.js';

/**
 * Standard atomic weights, abridged to five figures [g/mol].
 * Source: iupac-2021, table of abridged standard atomic weights (from memory).
 */
export const ATOMIC_WEIGHTS = {
  H: 1.008,
  C: 12.011,
  O: 15.999,
  Mg: 24.305,
  Al: 26.982,
  Si: 28.085,
  S: 32.06,
  Ca: 40.078,
  Fe: 55.845,
} as const;

export type Element = keyof typeof ATOMIC_WEIGHTS;

/**
 * Molar mass of a formula given as atom counts [g/mol]. M = sum of count x atomic weight.
 * `molarMass({ H: 2, O: 1 })` is 18.015.
 */
export function molarMass(formula: Partial<Record<Element, number>>): number {
  let sum = 0;
  for (const [element, count] of Object.entries(formula)) sum += ATOMIC_WEIGHTS[element as Element] * count;
  return sum;
}

const WATER = molarMass({ H: 2, O: 1 });
const CAO = molarMass({ Ca: 1, O: 1 });
const ALUMINA = molarMass({ Al: 2, O: 3 });
const SO3 = molarMass({ S: 1, O: 3 });
const CO2 = molarMass({ C: 1, O: 2 });
const ANHYDRITE = molarMass({ Ca: 1, S: 1, O: 4 });
const HEMIHYDRATE = ANHYDRITE + 0.5 * WATER;
const DIHYDRATE = ANHYDRITE + 2 * WATER;
const LIME = CAO + WATER;
const CALCITE = CAO + CO2;
const C3A = 3 * CAO + ALUMINA;
const C2S = 2 * CAO + molarMass({ Si: 1, O: 2 });
const CA = CAO + ALUMINA;
const YEELIMITE = 4 * CAO + 3 * ALUMINA + SO3;
const ETTRINGITE = C3A + 3 * ANHYDRITE + 32 * WATER;
const MONOSULFATE = C3A + ANHYDRITE + 12 * WATER;
const GIBBSITE = ALUMINA + 3 * WATER;

/** Molar masses used here [g/mol]; cement notation C = CaO, A = Al2O3. Computed from ATOMIC_WEIGHTS. */
export const MOLAR_MASSES = {
  water: WATER,
  anhydrite: ANHYDRITE,
  hemihydrate: HEMIHYDRATE,
  dihydrate: DIHYDRATE,
  sulfurTrioxide: SO3,
  quicklime: CAO,
  slakedLime: LIME,
  calcite: CALCITE,
  carbonDioxide: CO2,
  dicalciumSilicate: C2S,
  tricalciumAluminate: C3A,
  monocalciumAluminate: CA,
  yeelimite: YEELIMITE,
  ettringite: ETTRINGITE,
  monosulfate: MONOSULFATE,
  aluminiumHydroxide: GIBBSITE,
} as const;

/** SO3 in the calcium sulfates [g/g]: 0.5516 hemihydrate, 0.4650 dihydrate, 0.5881 anhydrite. M(SO3)/M(salt). */
export const SO3_FRACTION = {
  hemihydrate: SO3 / HEMIHYDRATE,
  dihydrate: SO3 / DIHYDRATE,
  anhydrite: SO3 / ANHYDRITE,
} as const;

/** Water bound by one gram of pure hemihydrate [g/g]: 1.5 M(H2O)/M(CaSO4.0.5H2O) = 0.1862. */
export const HEMIHYDRATE_BOUND_WATER = (1.5 * WATER) / HEMIHYDRATE;

/**
 * Water bound when plaster sets fully [g]. w = grams x purity x 1.5 M(H2O)/M(CaSO4.0.5H2O); the factor is 0.1862.
 *
 * grams [g, >= 0]; purity [0..1, share of hemihydrate; the rest is taken as inert].
 * Validity: exact stoichiometry at full conversion; multiply purity by the share that has set if it is not all.
 * Source: iupac-2021 weights; the 18.6 % also at celluloseether-gypsum (looked up).
 */
export function boundWaterHemihydrate(grams: number, purity = 1): number {
  return atLeast(0, grams, 'grams') * fraction(purity, 'purity') * HEMIHYDRATE_BOUND_WATER;
}

/**
 * Constant (dry) mass of a set plaster [g]: m (1 + 0.1862 purity). Impurities stay.
 *
 * grams [g of plaster, >= 0]; purity [0..1]. Water beyond the bound water is taken as gone; water held by the room's
 * humidity is not included (see sorption.ts). Validity and source as boundWaterHemihydrate.
 */
export const dryPlasterMass = (grams: number, purity = 1): number => grams + boundWaterHemihydrate(grams, purity);

/**
 * Water bound when anhydrite hydrates fully to gypsum [g]. w = grams x 2 M(H2O)/M(CaSO4), 0.2647 g/g.
 * grams [g, >= 0]. Validity: stoichiometry; natural anhydrite takes weeks and may stay unreacted. Source: iupac-2021.
 */
export const boundWaterAnhydrite = (grams: number): number => (atLeast(0, grams, 'grams') * 2 * WATER) / ANHYDRITE;

/** Crystal water in a calcium sulfate [g/g]: hemihydrate 0.0621, dihydrate 0.2093. Source: iupac-2021, computed. */
export const CRYSTAL_WATER = {
  hemihydrate: (0.5 * WATER) / HEMIHYDRATE,
  dihydrate: (2 * WATER) / DIHYDRATE,
} as const;

/** Reactants of a calcium sulfoaluminate cement [g each, >= 0]. */
export interface SulfoaluminateMix {
  readonly yeelimite: number;
  readonly anhydrite?: number;
  readonly hemihydrate?: number;
  readonly gypsum?: number;
}

export interface SulfoaluminateHydrates {
  /** g of water bound by the two reactions. */
  readonly boundWater: number;
  readonly ettringite: number;
  readonly monosulfate: number;
  readonly aluminiumHydroxide: number;
  /** g of each calcium sulfate that found no ye'elimite. */
  readonly left: { readonly anhydrite: number; readonly hemihydrate: number; readonly gypsum: number };
}

/**
 * Full hydration of ye'elimite with the calcium sulfate at hand [g].
 *
 *   C4A3S + 2 CaSO4.nH2O + (38 - 2n) H2O -> C6AS3H32 (ettringite) + 2 Al(OH)3 (as AH3)   while sulfate lasts
 *   C4A3S + 18 H2O                       -> C4ASH12 (monosulfate) + 2 AH3                afterwards
 *
 * Sulfates of several kinds are used in proportion to their moles. Bound water per gram of (ye'elimite + sulfate) is
 * 0.776 with anhydrite, 0.740 with hemihydrate, 0.642 with gypsum, and 0.531 per gram of ye'elimite without sulfate.
 * Validity: complete reaction with enough water; belite and ferrite are not counted. Source: iupac-2021 weights,
 * phases from thomas-csa (looked up). Masses in equal masses out.
 */
export function yeelimiteHydration(mix: SulfoaluminateMix): SulfoaluminateHydrates {
  const yeelimite = atLeast(0, mix.yeelimite, 'yeelimite') / YEELIMITE;
  const anhydrite = atLeast(0, mix.anhydrite ?? 0, 'anhydrite') / ANHYDRITE;
  const hemihydrate = atLeast(0, mix.hemihydrate ?? 0, 'hemihydrate') / HEMIHYDRATE;
  const gypsum = atLeast(0, mix.gypsum ?? 0, 'gypsum') / DIHYDRATE;
  const sulfate = anhydrite + hemihydrate + gypsum;
  const toEttringite = Math.min(yeelimite, sulfate / 2);
  const toMonosulfate = yeelimite - toEttringite;
  const used = sulfate === 0 ? 0 : (2 * toEttringite) / sulfate;
  const broughtBySulfate = used * (0.5 * hemihydrate + 2 * gypsum);
  return {
    boundWater: (38 * toEttringite + 18 * toMonosulfate - broughtBySulfate) * WATER,
    ettringite: toEttringite * ETTRINGITE,
    monosulfate: toMonosulfate * MONOSULFATE,
    aluminiumHydroxide: 2 * yeelimite * GIBBSITE,
    left: {
      anhydrite: (1 - used) * anhydrite * ANHYDRITE,
      hemihydrate: (1 - used) * hemihydrate * HEMIHYDRATE,
      gypsum: (1 - used) * gypsum * DIHYDRATE,
    },
  };
}

/**
 * Water bound by ye'elimite with its anhydrite [g]; `yeelimiteHydration` without the rest of its answer.
 * yeelimite, anhydrite [g, >= 0]: 1.122 g per gram of ye'elimite while sulfate lasts, 0.531 without.
 */
export const boundWaterYeelimite = (yeelimite: number, anhydrite = 0): number =>
  yeelimiteHydration({ yeelimite, anhydrite }).boundWater;

/** Moles of water per mole of CaO.Al2O3 by the hydrate that forms: CAH10 below 15 °C, C2AH8 to 27 °C, C3AH6 above. */
const WATER_PER_CA = { CAH10: 10, C2AH8: 5.5, C3AH6: 4 } as const;

export type AluminateHydrate = keyof typeof WATER_PER_CA;

/**
 * Water bound by monocalcium aluminate [g]: 1.140 to CAH10, 0.627 to C2AH8 + AH3, 0.456 to C3AH6 + 2 AH3, per gram.
 *
 *   CA + 10 H -> CAH10;   2 CA + 11 H -> C2AH8 + AH3;   3 CA + 12 H -> C3AH6 + 2 AH3
 *
 * grams [g of CA, >= 0]; hydrate [the lasting C3AH6 unless told]. Validity: stoichiometry; which hydrate forms depends on temperature, and all convert to C3AH6
 * in time (conversion), giving water back and losing strength. Source: iupac-2021, computed.
 */
export function boundWaterMonocalciumAluminate(grams: number, hydrate: AluminateHydrate = 'C3AH6'): number {
  return (atLeast(0, grams, 'grams') * WATER_PER_CA[hydrate] * WATER) / CA;
}

/**
 * Water bound by belite, once dried [g]: 0.188 g per gram. C2S + 1.8 H -> C1.7SH1.5 + 0.3 Ca(OH)2.
 *
 * grams [g of C2S, >= 0]; degree [0..1, share that has reacted: months, and only while damp]. Validity: the gel's 1.5 moles are
 * those that D-drying leaves it (1.3 to 1.5, Taylor 1997, from memory). Source: iupac-2021 weights, computed.
 */
export const boundWaterBelite = (grams: number, degree = 1): number =>
  (atLeast(0, grams, 'grams') * fraction(degree, 'degree') * 1.8 * WATER) / C2S;

export interface Carbonation {
  /** g of solids after carbonation (calcite and what was not reached). */
  readonly solids: number;
  /** g of carbon dioxide taken from the air. */
  readonly carbonDioxide: number;
  /** g of water set free. */
  readonly water: number;
}

/**
 * Carbonation of slaked lime [g]. Ca(OH)2 + CO2 -> CaCO3 + H2O: 1.3508 g of calcite per gram, 0.594 g of CO2 taken,
 * 0.243 g of water set free.
 *
 * grams [g of Ca(OH)2, >= 0]; degree [0..1, share reached by air]. Validity: stoichiometry; how fast is not told here.
 * Source: iupac-2021, computed.
 */
export function limeCarbonation(grams: number, degree = 1): Carbonation {
  const reached = atLeast(0, grams, 'grams') * fraction(degree, 'degree');
  const moles = reached / LIME;
  return { solids: grams - reached + moles * CALCITE, carbonDioxide: moles * CO2, water: moles * WATER };
}

/**
 * Water bound when quicklime slakes [g]. CaO + H2O -> Ca(OH)2, 0.3213 g/g.
 * grams [g of CaO, >= 0]. Slaking boils water off: far more than this is needed in the pan. Source: iupac-2021.
 */
export const quicklimeSlakingWater = (grams: number): number => (atLeast(0, grams, 'grams') * WATER) / CAO;

/**
 * Sulfate that turns all C3A of a portland cement into ettringite [same unit as the argument].
 *
 *   C3A + 3 CaSO4.2H2O + 26 H -> C6AS3H32:  0.889 g SO3, 1.91 g gypsum and 1.73 g water per gram of C3A
 *
 * tricalciumAluminate [g or percent of cement, >= 0]. Above this sulfate stays unbound by the aluminate; below it
 * monosulfate forms. Validity: stoichiometry; ferrite also takes sulfate, slowly. Source: iupac-2021, computed.
 */
export function so3ForFullEttringite(tricalciumAluminate: number): {
  readonly so3: number;
  readonly gypsum: number;
  readonly water: number;
} {
  const moles = atLeast(0, tricalciumAluminate, 'tricalciumAluminate') / C3A;
  return { so3: 3 * moles * SO3, gypsum: 3 * moles * DIHYDRATE, water: 26 * moles * WATER };
}
