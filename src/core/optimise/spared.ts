import type { Grams, World } from '../blend/world.js';
import { AS_NEAR } from './as-near.js';
import { isDosed } from './bulk.js';
import { heldIn } from './least-dose.js';
import { AGREE, missOfOne } from './miss.js';
import { merit, type Sought } from './objective.js';
import type { Question } from './question.js';
import { settleNear } from './settle.js';
import type { Bound, Settled } from './settled.js';
import { limitsIn } from './standing-limits.js';
import type { BinderSystem } from './systems.js';
import { CONTENT } from './weighable.js';

/** Share of the mass below which something that is no dose is a trace: hardly worth a bag. Ours. */
const TRACE = 0.01;

/** Traces in a blend, by place on the shelf. */
export function tracesIn({ materials }: Question, world: World, grams: Grams): number[] {
  const least = TRACE * grams.reduce((sum, g) => sum + g, 0);
  return heldIn(world, grams).filter((i) => grams[i]! < least && !isDosed(materials[i]!));
}

/**
 * A blend without what it is as good without, the least of it first: that need not be bought or weighed. What was asked
 * for by dose stays. `boundsOf`: what a blend of certain materials, water apart, is held to; `among`: what may be left out.
 */
export function spared(
  question: Question,
  world: World,
  system: BinderSystem,
  aim: Sought,
  blend: Settled,
  boundsOf: (set: readonly number[]) => readonly Bound[],
  among: readonly number[] = heldIn(world, blend.grams),
): Settled {
  const asked = new Set(question.doses.map((d) => d.material));
  const limits = limitsIn(question, system);
  const missedBy = ({ state }: Settled): number => limits.filter((t) => missOfOne(t, world, state) > 0).length;
  const asGood = (other: Settled): boolean => {
    if (other.miss > blend.miss * (1 + AS_NEAR) + AGREE || missedBy(other) > missedBy(blend)) return false;
    if (blend.value === null) return true;
    return other.value !== null && merit(aim, other.value) - merit(aim, blend.value) < CONTENT;
  };
  let at = blend;
  let held = heldIn(world, blend.grams).sort((a, b) => blend.grams[a]! - blend.grams[b]!);
  // What is of use beside something may be of none without it: once more whenever something was left out.
  for (let before = Number.POSITIVE_INFINITY; held.length < before; ) {
    before = held.length;
    for (const i of held) {
      if (asked.has(world.materials[i]!.id) || !among.includes(i)) continue;
      const rest = held.filter((other) => other !== i);
      const other = settleNear(question, world, system, { aim, start: at.grams, bounds: boundsOf(rest) });
      if (!asGood(other)) continue;
      at = other;
      held = rest;
    }
  }
  return at;
}
