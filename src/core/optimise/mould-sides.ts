import type { World } from '../blend/world.js';
import { ROW_DUST } from './held-rows.js';
import { giveOf, type Knob } from './knobs.js';

/** How much a portion may fill, and the mould itself [cm³]. */
interface Sides {
  readonly low: number;
  readonly high: number;
  readonly scale: number;
}

/**
 * How full the mould may be, judged by the forward model: it gives way as an equality in steps does, but only by the room
 * that the stuff of a step takes itself. A retarder's step may bring ten times its room in air, and that has to fit.
 * `over`: share of the mould that may be left over all the same.
 */
export function mouldSides(
  { materials, conditions }: World,
  knobs: readonly Knob[],
  air: number,
  times: number,
  filled: number,
  over = 0,
): Sides {
  const volume = conditions.volume!;
  const rooms = knobs.map(({ perStep }) =>
    perStep.reduce((sum, [i, g]) => sum + (g / times) * (materials[i]!.volume / (1 - air)), 0),
  );
  const give = giveOf(rooms, volume, filled * volume);
  return { low: volume - give, high: volume + Math.max(give, over * volume), scale: volume };
}

/** How far a value is beyond these sides, in their size. */
export function beyondSides({ low, high, scale }: Sides, value: number) {
  const over = Math.max(0, value - high, low - value);
  return over > ROW_DUST * scale ? over / scale : 0;
}
