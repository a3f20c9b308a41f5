import { atLeast, clamp } from './guard.js';

/**
 * Water that stays in a "dry" piece because the room is humid. All curves here rest on few figures; treat the result
 * as +-40 % and let the maker's own constant weight correct it.
 */

/** BET constant of portland gel, and water in one full layer per gram of non-evaporable water [g/g] (from memory). */
const BET_C = 18;
const LAYER_PER_BOUND = 0.25;
/** Powers and Brownyard: saturated gel holds four layers. */
const LAYERS_AT_SATURATION = 4;
const BET_END = 0.45;

const bet = (h: number): number => (BET_C * h) / (1 - h) / (1 + (BET_C - 1) * h);

/**
 * Layers of water on the gel at a humidity [multiples of one full layer].
 *
 *   below 0.45:  C h / ((1 - h)(1 + (C - 1) h)), C = 18 (BET);   above: straight to 4 layers at h = 1
 *
 * humidity h [0..1]. Source: powers-brownyard-1947, adsorption branch (from memory); drying from wet holds somewhat more.
 */
export function gelLayers(humidity: number): number {
  const h = clamp(humidity, 0, 1);
  if (h <= BET_END) return bet(h);
  const start = bet(BET_END);
  return start + ((LAYERS_AT_SATURATION - start) * (h - BET_END)) / (1 - BET_END);
}

/**
 * Water held by hardened portland paste in a room [g].
 *
 *   held = layers(h) x 0.25 x bound
 *
 * bound [g of non-evaporable water, 0.23 alpha c]; humidity [0..1]. At 50 % it is 0.10 g per gram hydrated cement, so a
 * 1:2.75 mortar keeps 1.9 % of its dry mass (2-4 % at 50-65 % is quoted, from memory).
 * Validity: after months; capillary water above about 80 % humidity is not in it. Source: powers-brownyard-1947 (memory).
 */
export const heldByCement = (bound: number, humidity: number): number =>
  gelLayers(humidity) * LAYER_PER_BOUND * atLeast(0, bound, 'bound');

/** Share of its dry mass that set gypsum holds at 97.4 % humidity. Source: li-ran-gypsum (0.225 / 4.5, looked up). */
const GYPSUM_HELD_AT_974 = 0.225 / 4.5;
const GYPSUM_SLOPE = GYPSUM_HELD_AT_974 / (0.974 / 0.026);

/**
 * Water held by set gypsum in a room [g]. held = m 0.00133 h/(1 - h), h at most 0.98.
 *
 * dihydrate [g]; humidity [0..1]. 0.13 % at 50 %, 0.5 % at 80 %, 5 % at 97.4 %.
 * Rests on ONE published point (li-ran-gypsum: 0.225 g/g is 4.5 times pure gypsum, at 97.4 %); the form is ours.
 */
export function heldByGypsum(dihydrate: number, humidity: number): number {
  const h = clamp(humidity, 0, 0.98);
  return (atLeast(0, dihydrate, 'dihydrate') * GYPSUM_SLOPE * h) / (1 - h);
}

/**
 * Water held at a humidity when only the figure at 50 % is known [g per g].
 *
 * at50 [g/g, from the materials table or a maker's weighings]; humidity [0..1]; curve: which shape to scale.
 * Use it so that one fitted number moves the whole curve. Source: shapes above.
 */
export function heldFromFigure(at50: number, humidity: number, curve: 'cement' | 'gypsum'): number {
  const shape = curve === 'cement' ? gelLayers : (h: number): number => heldByGypsum(1, h);
  return (atLeast(0, at50, 'at50') * shape(humidity)) / shape(0.5);
}
