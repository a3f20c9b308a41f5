import type { BinderFamily } from '../../materials/words.js';
import type { EffectNumbers, MaterialNumbers } from '../numbers.js';
import type { Grams, World } from '../world.js';
import type { Amounts } from './amounts.js';

/**
 * What the admixtures add to one property, as a coefficient a gram of each material.
 *
 * An effect is `per` x dose, with dose = 100 x grams / base in percent, that stops growing about its limit. The
 * coefficient is held at the present base, so that the sum over the blend is exact where the blend stands still.
 * Materials in which the same works (`active`) share that limit: what they add up to, in shares of it, is held to it.
 * An effect on one binder family speaks only as loudly as that family does (`voice`, 0..1).
 */
export function doseCoefficients(
  world: World,
  grams: Grams,
  amounts: Amounts,
  on: EffectNumbers['on'],
  voice: (family: BinderFamily) => number,
): number[] {
  const { materials } = world;
  const coefficients = new Array<number>(materials.length).fill(0);
  for (let i = 0; i < materials.length; i++) {
    const m = materials[i]!;
    // Most have none, and a search asks for thousands of blends.
    if (m.effects.length === 0) continue;
    for (const effect of m.effects) {
      if (effect.on !== on) continue;
      const base = amounts.base[effect.of];
      if (base <= 0) continue;
      const dose = (100 * grams[i]! * m.solids) / base;
      const held = effect.limit === null || dose <= 0 ? 1 : heldShare(world, grams, amounts, m, effect, dose);
      const loud = effect.family === null ? 1 : voice(effect.family);
      coefficients[i]! += (loud * effect.per * held * 100 * m.solids) / base;
    }
  }
  return coefficients;
}

/** Share of a dose that still counts about the limit of its effect. */
function heldShare(
  world: World,
  grams: Grams,
  amounts: Amounts,
  own: MaterialNumbers,
  { on, family, limit }: EffectNumbers,
  dose: number,
): number {
  let filled = dose / limit!;
  if (own.active !== null) {
    world.materials.forEach((other, i) => {
      if (other === own || other.active !== own.active || grams[i]! <= 0) return;
      for (const e of other.effects) {
        const base = amounts.base[e.of];
        if (e.on !== on || e.family !== family || e.limit === null || base <= 0) continue;
        filled += (100 * grams[i]! * other.solids) / base / e.limit;
      }
    });
  }
  return saturating(filled, 1) / filled;
}

/** How sharply growth stops: 8 % below the corner at the corner itself. */
const SHARPNESS = 8;

/** min(x, limit) with a rounded corner, so that its slope never jumps (an optimiser would hop to and fro there). Ours. */
export const saturating = (x: number, limit: number): number =>
  x <= 0 ? x : x / (1 + (x / limit) ** SHARPNESS) ** (1 / SHARPNESS);
