import * as z from 'zod/mini';
import { DOSE_BASES } from '../materials/words.js';
import { told } from '../reading/told.js';

const nullable = z.nullable(z.number());
const side = z.enum(['min', 'max']);

/** Why the blend is no better; for the exact blend, before rounding to the scale. */
export const reasonsSchema = z.strictObject({
  property: told(z.string(), "the objective's property; gains are in its unit, and positive is better"),
  heldBack: told(
    z.array(
      z.strictObject({
        property: z.string(),
        name: z.string(),
        unit: z.string(),
        side,
        limit: z.number(),
        kind: z.enum(['target', 'standing']),
        gain: told(z.number(), 'per unit that the limit gives way, by the dual prices'),
        movedTo: told(z.number(), 'the limit moved to here, a percent further, and the blend settled anew'),
        value: told(nullable, "the objective's property then"),
        settledGain: told(nullable, 'per unit, by that blend'),
        agrees: told(z.boolean(), 'both gains within a fifth; else believe the settled one'),
      }),
    ),
    'limits that hold the objective back, the dearest first',
  ),
  doses: told(
    z.array(
      z.strictObject({
        material: z.string(),
        name: z.string(),
        kind: z.enum(['asked', 'ceiling']),
        percent: z.number(),
        of: z.enum(DOSE_BASES),
        better: z.enum(['less', 'more']),
        gain: told(z.number(), 'per percent that way'),
      }),
    ),
    'doses that hold it back',
  ),
  stock: told(
    z.array(
      z.strictObject({ material: z.string(), name: z.string(), gain: told(z.number(), 'per gram more in a piece') }),
    ),
    'materials of which all on hand is used',
  ),
  entries: told(
    z.array(
      z.strictObject({
        material: z.string(),
        name: z.string(),
        system: told(z.nullable(z.string()), 'binder system that would win then; null: it joins this blend'),
        price: told(nullable, 'per gram now; null: not known'),
        entersAt: told(nullable, 'per gram; null: at no price, or prices play no part'),
        loss: told(z.number(), "the objective's property would be worse by this per gram put in now"),
        checked: told(z.nullable(z.boolean()), 'settled anew, it enters a little below that price and not above'),
      }),
    ),
    'what the blend does without, and the price at which it would enter',
  ),
});

/** How sure the blend was asked to be. */
export const surenessSchema = z.strictObject({
  wanted: told(z.number(), 'chance asked for that all targets hold at once'),
  reached: z.boolean(),
  chance: told(nullable, 'of what is weighed out, on draws the search did not see; null without targets'),
  held: told(
    z.array(
      z.strictObject({
        property: z.string(),
        name: z.string(),
        unit: z.string(),
        side,
        limit: z.number(),
        to: z.number(),
      }),
    ),
    'limits that the blend was held to in place of the brief’s',
  ),
  unsure: told(nullable, 'the objective of the blend that only just meets the brief; null where none does'),
  sure: told(nullable, 'the objective of this one'),
});

/** What would let a brief be met that nothing meets. */
export const waysOutSchema = z.strictObject({
  colliding: told(
    z.array(
      z.strictObject({
        property: z.string(),
        name: z.string(),
        unit: z.string(),
        side,
        limit: z.number(),
        reachable: told(
          nullable,
          'as far as this limit can hold with all others as they are, those of other sets given up; null: it alone frees nothing, or see `without`',
        ),
        change: told(nullable, 'by how much it would have to give way'),
        why: told(z.optional(z.string()), 'over a year: what can be had is beyond what is told, and `reachable` null'),
        without: told(
          z.optional(z.string()),
          'the blend that can be had when it is given up has no such property, and why',
        ),
        set: told(z.int(), 'of which set it is, from 0'),
        system: told(z.nullable(z.string()), 'binder system of that blend'),
      }),
    ),
    'sets of targets that no blend of any open binder system keeps together: any one of a set given up, the others of it can be kept; each set has to give way',
  ),
  materials: told(
    z.array(
      z.strictObject({
        material: z.string(),
        name: z.string(),
        why: told(z.string(), 'why it is not in play'),
        system: z.string(),
        priced: told(z.boolean(), 'false: no price is known; reckoned as free'),
        mostPrice: told(nullable, 'per gram, where it has no price and the brief limits cost'),
      }),
    ),
    'materials of the shelf that are not in play, each of which alone would let the brief be met',
  ),
  together: told(
    z.array(z.strictObject({ material: z.string(), name: z.string(), why: z.string() })),
    'only together would these do',
  ),
});

export type ReasonsResult = z.infer<typeof reasonsSchema>;
export type SurenessResult = z.infer<typeof surenessSchema>;
export type WaysOutResult = z.infer<typeof waysOutSchema>;
