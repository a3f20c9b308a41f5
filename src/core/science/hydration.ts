import { atLeast, clamp, positive } from './guard.js';

/** Gas constant [kJ/(mol K)]. */
export const GAS_CONSTANT = 8.314462618e-3;

/** 0 °C in kelvin. */
export const ZERO_CELSIUS = 273.15;

/**
 * Degree of hydration a portland cement reaches in the end [0..1]. Mills, with the fly ash and slag terms of
 * Schindler and Folliard:
 *
 *   a_u = 1.031 w/c / (0.194 + w/c) + 0.50 p_FA + 0.30 p_slag, at most 1
 *
 * waterToCement [g/g, > 0; w/cm when ash or slag is in]; flyAsh, slag [mass share of the binder, 0..1].
 * Validity: w/c 0.25-0.8 kept moist. Above w/c 6 the first term alone passes 1; the result is clamped.
 * Source: mills-1966, schindler-folliard-2005 (from memory). Values: 0.40 -> 0.6943, 0.50 -> 0.7428.
 */
export function ultimateDegree(waterToCement: number, flyAsh = 0, slag = 0): number {
  const w = positive(waterToCement, 'waterToCement');
  return clamp((1.031 * w) / (0.194 + w) + 0.5 * flyAsh + 0.3 * slag, 0, 1);
}

/** Shape of the growth curve: time constant [h at 20 °C] and exponent. */
export interface GrowthShape {
  readonly tauHours: number;
  readonly beta: number;
}

/** Typical type I cement (from memory, low confidence: tau 13-18 h, beta 0.7-1.0). */
export const TYPICAL_GROWTH: GrowthShape = { tauHours: 14, beta: 0.9 };

/**
 * Degree of hydration at an age [0..1]. a(t) = a_u exp(-(tau/t)^beta), three-parameter curve.
 *
 * equivalentHours [h at 20 °C, >= 0; 0 gives 0]; ultimate a_u [0..1]; shape {tauHours, beta}.
 * Validity: from setting on; the first hours are not described. Source: schindler-folliard-2005 (from memory).
 */
export function degreeOfHydration(equivalentHours: number, ultimate: number, shape = TYPICAL_GROWTH): number {
  positive(shape.tauHours, 'tauHours');
  return clamp(ultimate, 0, 1) * grown(atLeast(0, equivalentHours, 'equivalentHours'), shape);
}

/** Share of its ultimate degree that a cement has reached at an age [0..1]; as degreeOfHydration, for whoever steps through time. */
export const grown = (equivalentHours: number, { tauHours, beta }: GrowthShape): number =>
  equivalentHours === 0 ? 0 : Math.exp(-((tauHours / equivalentHours) ** beta));

/**
 * Growth curve of a cement with fly ash or slag beside it {tauHours [h], beta [-]}: both hold hydration back.
 *
 *   tau  x exp(2.187 p_slag + 9.50 p_FA p_CaO),   beta x exp(-0.647 p_slag)
 *
 * flyAsh p_FA, slag p_slag [mass share of the binder, 0..1]; ashLime p_CaO [CaO of the ash, 0..1; class F about 0.05].
 * Validity: up to half ash or 70 % slag. Source: schindler-folliard-2005 (from memory, not looked up).
 */
export const slowedByAdditions = (shape: GrowthShape, flyAsh: number, slag: number, ashLime = 0.05): GrowthShape => ({
  tauHours: shape.tauHours * Math.exp(2.187 * clamp(slag, 0, 1) + 9.5 * clamp(flyAsh, 0, 1) * clamp(ashLime, 0, 1)),
  beta: shape.beta * Math.exp(-0.647 * clamp(slag, 0, 1)),
});

/** Clinker and fineness of a portland cement; mass shares of the cement, 0..1. */
export interface CementChemistry {
  readonly c3s: number;
  readonly c3a: number;
  readonly c4af: number;
  readonly so3: number;
  /** m2/kg. */
  readonly blaine: number;
}

/**
 * Growth curve from the chemistry of the cement {tauHours [h], beta [-]}.
 *
 *   tau  = 66.78 C3A^-0.154 C3S^-0.401 Blaine^-0.804 SO3^-0.758
 *   beta = 181.4 C3A^0.146 C3S^0.227 Blaine^-0.535 SO3^0.558
 *
 * Validity: portland cements without ash or slag, C3A > 0; an empirical fit, +-20 % on tau. Zero C3A throws.
 * Source: schindler-folliard-2005 (from memory, not looked up).
 */
export function growthFromChemistry({ c3s, c3a, so3, blaine }: CementChemistry): GrowthShape {
  for (const [name, value] of Object.entries({ c3s, c3a, so3, blaine })) positive(value, name);
  return {
    tauHours: 66.78 * c3a ** -0.154 * c3s ** -0.401 * blaine ** -0.804 * so3 ** -0.758,
    beta: 181.4 * c3a ** 0.146 * c3s ** 0.227 * blaine ** -0.535 * so3 ** 0.558,
  };
}

/**
 * Activation energy of hydration from the chemistry [kJ/mol]. E = 22.1 C3A^0.30 C4AF^0.25 Blaine^0.35.
 * Validity: portland cements, 35-50 kJ/mol. Source: schindler-2004 (ACI Mater. J. 101-M09; constants from memory).
 */
export const activationEnergyFromChemistry = ({ c3a, c4af, blaine }: CementChemistry): number =>
  22.1 * positive(c3a, 'c3a') ** 0.3 * positive(c4af, 'c4af') ** 0.25 * positive(blaine, 'blaine') ** 0.35;

/**
 * Activation energy by temperature [kJ/mol]: 33.5 at 20 °C and above, 33.5 + 1.47 (20 - T) below.
 * celsius [°C]. Source: freiesleben-hansen-1977; the form E = B + C (20 - T) at dti-tib-103 (looked up), the two
 * constants from memory.
 */
export const activationEnergyByTemperature = (celsius: number): number => 33.5 + 1.47 * Math.max(0, 20 - celsius);

/**
 * How much faster than at the reference temperature a reaction runs [factor].
 *
 *   exp( E/R (1/T_ref - 1/T) ), T in kelvin
 *
 * celsius [°C]; energy [kJ/mol, >= 0]; reference [°C, 20]. Validity: about 5-60 °C; above that cements cross over
 * (fast early, weaker late). Source: freiesleben-hansen-1977 as in schindler-2004 equation 1 (looked up).
 */
export function arrheniusFactor(celsius: number, energy: number, reference = 20): number {
  const inverse = 1 / (ZERO_CELSIUS + reference) - 1 / positive(ZERO_CELSIUS + celsius, 'kelvin');
  return Math.exp((atLeast(0, energy, 'energy') / GAS_CONSTANT) * inverse);
}

/**
 * Equivalent age at 20 °C of a piece kept at one temperature [h]. t_e = hours x arrheniusFactor(T, E).
 * hours [>= 0]; celsius [°C]; energy [kJ/mol]. Source: freiesleben-hansen-1977, c1074 (looked up: form).
 */
export const equivalentAge = (hours: number, celsius: number, energy: number): number =>
  atLeast(0, hours, 'hours') * arrheniusFactor(celsius, energy);

/** A spell of constant temperature. */
export interface Spell {
  readonly hours: number;
  readonly celsius: number;
}

/**
 * Equivalent age at 20 °C over changing temperatures [h]: the sum over the spells, in any order.
 * energy [kJ/mol], or a function of temperature such as activationEnergyByTemperature. Source as equivalentAge.
 */
export function equivalentAgeOf(spells: readonly Spell[], energy: number | ((celsius: number) => number)): number {
  let age = 0;
  for (const { hours, celsius } of spells) {
    age += equivalentAge(hours, celsius, typeof energy === 'number' ? energy : energy(celsius));
  }
  return age;
}

/**
 * Hours of hydration that really count when a piece is kept covered and then let dry [h, at most the age].
 *
 *   covered:            all of it
 *   drying afterwards:  + s (1 - exp(-(age - covered)/s)),  s = slowing x drying time constant
 *
 * ageHours, coveredHours [h]; dryingHours [h, time constant of drying.ts]; slowing [0.7].
 * Ours: hydration all but stops below about 80 % relative humidity inside (Powers 1947, from memory); here its rate
 * falls off with the free water. Halves the hydration of thin pieces uncovered at a day, leaves thick ones alone.
 */
export function hydratingHours(ageHours: number, coveredHours: number, dryingHours: number, slowing = 0.7): number {
  const age = atLeast(0, ageHours, 'ageHours');
  const covered = Math.min(age, atLeast(0, coveredHours, 'coveredHours'));
  const scale = slowing * atLeast(0, dryingHours, 'dryingHours');
  return scale === 0 ? covered : covered + scale * (1 - Math.exp(-(age - covered) / scale));
}

/** Non-evaporable water at full hydration [g/g cement]: 0.23 (0.227-0.24). Source: powers-brownyard-1947 (memory). */
export const CEMENT_BOUND_WATER = 0.23;

/** Gel water at full hydration, saturated [g/g cement]: 0.19. Source: powers-brownyard-1947 (from memory). */
export const CEMENT_GEL_WATER = 0.19;

/**
 * Water bound by portland cement [g]. w_n = 0.23 alpha c.
 * cement [g]; degree [0..1]; perGram [g/g]. Oven drying at 105 °C leaves it in. Source: powers-brownyard-1947.
 */
export const cementBoundWater = (cement: number, degree: number, perGram = CEMENT_BOUND_WATER): number =>
  perGram * clamp(degree, 0, 1) * atLeast(0, cement, 'cement');

/** Water in the gel pores of saturated paste [g]: 0.19 alpha c; the room dries it in part. Source: as above. */
export const cementGelWater = (cement: number, degree: number, perGram = CEMENT_GEL_WATER): number =>
  perGram * clamp(degree, 0, 1) * atLeast(0, cement, 'cement');

/**
 * Water a paste drinks to stay saturated while it hydrates [g]. w_t - w_0 = 0.25 w_n.
 * bound w_n [g]. Without it the paste dries itself out (self-desiccation). Source: copeland-1956 abstract (looked up).
 */
export const imbibedWater = (bound: number): number => 0.25 * atLeast(0, bound, 'bound');

/** Coefficients of the gel/space ratio: gel per gram hydrated, and the cement's own volume [cm3/g]. */
export interface GelSpaceCoefficients {
  readonly gel: number;
  readonly cement: number;
}

/** As printed in textbooks (cement 0.32 cm3/g, gel 2.1 times its volume). Source: powers, as in mindess (looked up). */
export const GEL_SPACE_TEXTBOOK: GelSpaceCoefficients = { gel: 0.68, cement: 0.32 };

/** Powers' own figures (0.319 cm3/g, growth 2.06). Source: powers-1958 as in gel-space-calculator (looked up). */
export const GEL_SPACE_POWERS: GelSpaceCoefficients = { gel: 0.657, cement: 0.319 };

/**
 * Gel/space ratio, X [0..1]: share of the space open to gel that gel has filled.
 *
 *   X = 0.68 a / (0.32 a + w/c)
 *
 * degree a [0..1]; waterToCement [g/g, > 0]. Clamped to 1 (below w/c 0.36 with more hydration than fits).
 * Source: powers-1958; aldusleaf-14853465 works an example with it.
 */
export function gelSpaceRatio(degree: number, waterToCement: number, coefficients = GEL_SPACE_TEXTBOOK): number {
  const a = clamp(degree, 0, 1);
  return Math.min(1, (coefficients.gel * a) / (coefficients.cement * a + positive(waterToCement, 'waterToCement')));
}
