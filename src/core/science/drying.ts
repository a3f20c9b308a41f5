import { atLeast, clamp, positive } from './guard.js';

/** The room a piece dries in. */
export interface Room {
  /** °C. */
  readonly celsius: number;
  /** Relative humidity, 0..1. */
  readonly humidity: number;
  /** km/h of air movement over the piece; 0 for still air. */
  readonly wind?: number;
}

/** The room that drying figures are stated for: 20 °C, 50 % humidity, still air. */
export const REFERENCE_ROOM: Room = { celsius: 20, humidity: 0.5, wind: 0 };

/**
 * Evaporation from a wet surface [kg/(m2 h)].
 *
 *   E = 5 [(Ts + 18)^2.5 - h (Ta + 18)^2.5] (v + 4) 1e-6,   Ts surface, Ta air in °C, v in km/h
 *
 * room; surface [°C, the room's when absent]. Never below 0. Validity: free water surface, 10-40 °C; a drying piece
 * falls below it once its skin is dry. Source: uno-1998, the formula behind ACI 305's chart (from memory).
 */
export function evaporationRate(room: Room, surface = room.celsius): number {
  const drive = (surface + 18) ** 2.5 - clamp(room.humidity, 0, 1) * (room.celsius + 18) ** 2.5;
  return Math.max(0, 5e-6 * drive * (atLeast(0, room.wind ?? 0, 'wind') + 4));
}

/** Ours, low confidence: a 10 mm wall in the reference room takes 1.5 days (0.7-3). Two weighings replace it. */
export const DEFAULT_DRYING = { daysAtReference: 1.5, wallPower: 1.5 } as const;

/** Wall thickness that drying figures are stated for [cm]. */
export const REFERENCE_WALL = 1;

/** What decides how fast a piece dries. */
export interface DryingCase {
  /** cm, dried from both faces; closed on one face (glazed, sealed): pass twice the thickness. */
  readonly wallCm: number;
  /** °C of the room. */
  readonly temperature: number;
  /** Relative humidity, 0..1. */
  readonly humidity: number;
  /** km/h of air movement. */
  readonly wind?: number;
  /** Days for the free water of a 1 cm wall to fall to 37 % at 20 °C, 50 % humidity, still air. */
  readonly daysAtReference?: number;
  /** Exponent on thickness: 1 when evaporation governs, 2 when diffusion does. */
  readonly wallPower?: number;
}

/**
 * Time constant of drying [days]: the free water falls by 63 % in it.
 *
 *   tau = days_ref (L/1 cm)^n x E(reference room)/E(room)
 *
 * The room enters by its evaporation; a saturated room never dries and returns Infinity.
 * Validity: 3-60 mm walls; first order is a simplification of the two stages in sousa-drying (constant rate, then
 * diffusion). Ours; form of the tail from Crank's plane sheet, rate pi^2 D/(4 l^2).
 */
export function dryingTimeConstantDays(piece: DryingCase): number {
  const room = { celsius: piece.temperature, humidity: piece.humidity, wind: piece.wind ?? 0 };
  const rate = evaporationRate(room) / evaporationRate(REFERENCE_ROOM);
  if (rate === 0) return Number.POSITIVE_INFINITY;
  const days = positive(piece.daysAtReference ?? DEFAULT_DRYING.daysAtReference, 'daysAtReference');
  const power = piece.wallPower ?? DEFAULT_DRYING.wallPower;
  return (days * (positive(piece.wallCm, 'wallCm') / REFERENCE_WALL) ** power) / rate;
}

/**
 * Free water still in the piece [g]. m exp(-t/tau).
 * free [g at the start]; hours and tau in ONE unit of time [both hours or both days; tau > 0, Infinity keeps it all]. Source: first-order law.
 */
export function remainingFreeWater(free: number, hours: number, tau: number): number {
  if (tau === Number.POSITIVE_INFINITY) return atLeast(0, free, 'free');
  return atLeast(0, free, 'free') * Math.exp(-atLeast(0, hours, 'hours') / positive(tau, 'tau'));
}

/** Fourier number of a sheet dried from both faces [-]. D t / l^2; D [cm2/h], t [h], l half thickness [cm]. */
export const fourierNumber = (diffusivity: number, hours: number, halfThickness: number): number =>
  (atLeast(0, diffusivity, 'diffusivity') * atLeast(0, hours, 'hours')) / positive(halfThickness, 'halfThickness') ** 2;

/** Below this Fourier number both faces still act alone, to 1e-6, and the short-time form is exact enough. */
const SHORT_TIME = 0.04;

/**
 * Share of the water lost by a plane sheet dried from both faces [0..1].
 *
 *   short times:  2 sqrt(Fo/pi)
 *   otherwise:    1 - (8/pi^2) sum over n >= 0 of exp(-(2n+1)^2 pi^2 Fo/4)/(2n+1)^2
 *
 * fo = D t/l^2, l half the thickness [-, >= 0]. Validity: constant diffusivity, faces at once in balance with the room
 * (so it is the fastest possible drying). Half is lost at Fo 0.19673.
 * Source: crank-1975 p. 48 (series looked up at polykin-docs, which prints 0.5622335 for Fo 0.25).
 */
export function sheetLoss(fo: number): number {
  if (atLeast(0, fo, 'fo') < SHORT_TIME) return 2 * Math.sqrt(fo / Math.PI);
  let sum = 0;
  for (let n = 0; n < 40; n++) {
    const odd = 2 * n + 1;
    sum += Math.exp((-(odd ** 2) * Math.PI ** 2 * fo) / 4) / odd ** 2;
  }
  return 1 - (8 / Math.PI ** 2) * sum;
}

/**
 * Share of the start moisture still left in the middle of the sheet [0..1]: the core dries last.
 *
 *   (4/pi) sum over n >= 0 of (-1)^n/(2n+1) exp(-(2n+1)^2 pi^2 Fo/4)
 *
 * Validity and source as sheetLoss; crank-1975 p. 47 (polykin-docs prints 0.31455423 dried for Fo 0.25).
 */
export function sheetCore(fo: number): number {
  if (atLeast(0, fo, 'fo') < 0.01) return 1;
  let sum = 0;
  for (let n = 0; n < 60; n++) {
    const odd = 2 * n + 1;
    sum += ((n % 2 === 0 ? 1 : -1) / odd) * Math.exp((-(odd ** 2) * Math.PI ** 2 * fo) / 4);
  }
  return (4 / Math.PI) * sum;
}

/** Fourier number at which a share of the water has gone [-]; turned round from sheetLoss. share [0..<1]. */
export function fourierForLoss(share: number): number {
  if (!(share >= 0 && share < 1)) throw new RangeError(`share is ${share}, expected 0..<1`);
  let low = 0;
  let high = 1;
  while (sheetLoss(high) < share) high *= 2;
  for (let i = 0; i < 80; i++) {
    const mid = (low + high) / 2;
    if (sheetLoss(mid) < share) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}

/** Rate of the first-order tail of a drying sheet [1/h]: pi^2 D/(4 l^2). D [cm2/h]; l half thickness [cm]. */
export const sheetTailRate = (diffusivity: number, halfThickness: number): number =>
  (Math.PI ** 2 * diffusivity) / (4 * positive(halfThickness, 'halfThickness') ** 2);

/** When two weighings call a piece dry. */
export interface ConstantWeightRule {
  /** Largest change between weighings, as a fraction of the last weight. */
  readonly change: number;
  /** h the weighings must lie apart. */
  readonly apart: number;
}

/** Less than 0.1 % between weighings at least 15 h apart. Source: ilovetranslation-sorption (looked up). */
export const CONSTANT_WEIGHT: ConstantWeightRule = { change: 0.001, apart: 15 };

/**
 * Most water that may still have to leave a piece foretold as dry, as a fraction of its dry weight. Ours: a thick or dense
 * piece loses so little in 15 h that the rule alone would call it dry with several percent of water inside.
 */
export const MOST_LEFT_WHEN_DRY = 0.005;

/** Whether two weighings call a piece dry; `too-soon` when they lie too close together to tell. */
export function constantWeight(
  first: number,
  second: number,
  apart: number,
  rule = CONSTANT_WEIGHT,
): 'dry' | 'drying' | 'too-soon' {
  if (apart < rule.apart) return 'too-soon';
  return Math.abs(first - second) / positive(second, 'second') < rule.change ? 'dry' : 'drying';
}

/**
 * Hours until the piece is dry [h]: the constant-weight rule is met, and little water is left to leave.
 *
 *   free e^(-t1/tau) (1 - e^(-apart/tau)) < change (dry + free e^(-t2/tau)),  t2 = t1 + apart, the second weighing
 *   free e^(-t2/tau) <= most left x dry
 *
 * free, dry [g: water to lose, weight when dry]; tau [h]. Returns the time of the SECOND weighing; Infinity in a room
 * that never dries. Source: first-order law and the rule; MOST_LEFT_WHEN_DRY is ours.
 */
export function hoursToConstantWeight(free: number, dry: number, tau: number, rule = CONSTANT_WEIGHT): number {
  if (tau === Number.POSITIVE_INFINITY) return free > 0 ? tau : rule.apart;
  const most = freeWhenDryAfter(rule.apart, tau, rule) * positive(dry, 'dry');
  if (atLeast(0, free, 'free') <= most) return rule.apart;
  return tau * Math.log(free / most) + rule.apart;
}

/**
 * hoursToConstantWeight turned round: the free water over dry weight that is just dry after these hours [g/g]. hours [h, at
 * least rule.apart; nothing can be told sooner: -Infinity]; tau [h, > 0, finite].
 */
export function freeWhenDryAfter(hours: number, tau: number, rule = CONSTANT_WEIGHT): number {
  if (hours < rule.apart) return Number.NEGATIVE_INFINITY;
  const step = Math.exp(-rule.apart / positive(tau, 'tau'));
  const falls = 1 - step - rule.change * step;
  const byRule = falls <= 0 ? Number.POSITIVE_INFINITY : rule.change / falls;
  const byWhatIsLeft = MOST_LEFT_WHEN_DRY / step;
  return Math.min(byRule, byWhatIsLeft) * Math.exp((hours - rule.apart) / tau);
}

/**
 * Drying temperatures for gypsum [°C]: advice 35-40, ceiling 45. Above the ceiling, or warm in very dry air, bound
 * water goes and the surface turns to powder. Source: ours, from wilkes-2004 (loss at 40 °C and 0.2 % humidity),
 * c472 (45 +- 3 °C oven, from memory), potters-38175 (42 °C fresh, never 49; looked up).
 */
export const GYPSUM_DRYING = { adviceLow: 35, adviceHigh: 40, ceiling: 45 } as const;

/**
 * Whether a drying temperature is safe for gypsum. `refuse` above 45 °C, `warn` above 40 °C or, from 40 °C, in air under
 * 2 % humidity; `ok` otherwise. celsius [°C]; humidity [0..1, of the warm air]. Source: GYPSUM_DRYING.
 */
export function gypsumDryingVerdict(celsius: number, humidity = 0.2): 'ok' | 'warn' | 'refuse' {
  if (celsius > GYPSUM_DRYING.ceiling) return 'refuse';
  if (celsius > GYPSUM_DRYING.adviceHigh) return 'warn';
  return celsius >= GYPSUM_DRYING.adviceHigh && humidity < 0.02 ? 'warn' : 'ok';
}
