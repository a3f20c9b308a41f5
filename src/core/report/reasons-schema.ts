import { z } from 'zod';
import { DOSE_BASES } from '../materials/words.js';

const nullable = z.number().nullable();
const side = z.enum(['min', 'max']);

/** Why the blend is no better; for the exact blend, before rounding to the scale. */
export const reasonsSchema = z.strictObject({
  property: z.string().describe("the objective's property; gains are in its unit, and positive is better"),
  heldBack: z
    .array(
      z.strictObject({
        property: z.string(),
        name: z.string(),
        unit: z.string(),
        side,
        limit: z.number(),
        kind: z.enum(['target', 'standing']),
        gain: z.number().describe('per unit that the limit gives way, by the dual prices'),
        movedTo: z.number().describe('the limit moved to here, a percent further, and the blend settled anew'),
        value: nullable.describe("the objective's property then"),
        settledGain: nullable.describe('per unit, by that blend'),
        agrees: z.boolean().describe('both gains within a fifth; else believe the settled one'),
      }),
    )
    .describe('limits that hold the objective back, the dearest first'),
  doses: z
    .array(
      z.strictObject({
        material: z.string(),
        name: z.string(),
        kind: z.enum(['asked', 'ceiling']),
        percent: z.number(),
        of: z.enum(DOSE_BASES),
        better: z.enum(['less', 'more']),
        gain: z.number().describe('per percent that way'),
      }),
    )
    .describe('doses that hold it back'),
  stock: z
    .array(
      z.strictObject({ material: z.string(), name: z.string(), gain: z.number().describe('per gram more in a piece') }),
    )
    .describe('materials of which all on hand is used'),
  entries: z
    .array(
      z.strictObject({
        material: z.string(),
        name: z.string(),
        system: z.string().nullable().describe('binder system that would win then; null: it joins this blend'),
        price: nullable.describe('per gram now; null: not known'),
        entersAt: nullable.describe('per gram; null: at no price, or prices play no part'),
        loss: z.number().describe("the objective's property would be worse by this per gram put in now"),
        checked: z.boolean().nullable().describe('settled anew, it enters a little below that price and not above'),
      }),
    )
    .describe('what the blend does without, and the price at which it would enter'),
});

/** How sure the blend was asked to be. */
export const surenessSchema = z.strictObject({
  wanted: z.number().describe('chance asked for that all targets hold at once'),
  reached: z.boolean(),
  chance: nullable.describe('of what is weighed out, on draws the search did not see; null without targets'),
  held: z
    .array(
      z.strictObject({
        property: z.string(),
        name: z.string(),
        unit: z.string(),
        side,
        limit: z.number(),
        to: z.number(),
      }),
    )
    .describe('limits that the blend was held to in place of the brief’s'),
  unsure: nullable.describe('the objective of the blend that only just meets the brief; null where none does'),
  sure: nullable.describe('the objective of this one'),
});

/** What would let a brief be met that nothing meets. */
export const waysOutSchema = z.strictObject({
  colliding: z
    .array(
      z.strictObject({
        property: z.string(),
        name: z.string(),
        unit: z.string(),
        side,
        limit: z.number(),
        reachable: nullable.describe(
          'as far as this limit can hold with all others as they are; null: it alone frees nothing',
        ),
        change: nullable.describe('by how much it would have to give way'),
        system: z.string().nullable().describe('binder system of that blend'),
      }),
    )
    .describe(
      'targets that no blend of any open binder system keeps together; any one given up, the others can be kept',
    ),
  materials: z
    .array(
      z.strictObject({
        material: z.string(),
        name: z.string(),
        why: z.string().describe('why it is not in play'),
        system: z.string(),
        priced: z.boolean().describe('false: no price is known; reckoned as free'),
        mostPrice: nullable.describe('per gram, where it has no price and the brief limits cost'),
      }),
    )
    .describe('materials of the shelf that are not in play, each of which alone would let the brief be met'),
  together: z
    .array(z.strictObject({ material: z.string(), name: z.string(), why: z.string() }))
    .describe('only together would these do'),
});

export type ReasonsResult = z.infer<typeof reasonsSchema>;
export type SurenessResult = z.infer<typeof surenessSchema>;
export type WaysOutResult = z.infer<typeof waysOutSchema>;
