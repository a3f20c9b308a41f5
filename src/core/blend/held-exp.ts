/** exp of 709 is the last that is a number; a few hundred of these still sum to one. */
const MOST = 600;

/**
 * exp that stays a number. Drowned in retarder the law of doses runs past all numbers; held, such a blend still has a time,
 * beyond any that a search could want, and not none at all. What has no end stays without.
 */
export const heldExp = (x: number): number => Math.exp(x < Number.POSITIVE_INFINITY ? Math.min(x, MOST) : x);
