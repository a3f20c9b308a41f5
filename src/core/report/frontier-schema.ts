import { z } from 'zod';

const axis = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  better: z.enum(['min', 'max']).describe('min: less is better'),
});

/** The blends that cannot be better in one property without being worse in the other; before rounding to the scale. */
export const frontierResultSchema = z.strictObject({
  format: z.literal('pourwright.frontier/1'),
  title: z.string(),
  invented: z.boolean(),
  currency: z.string().nullable(),
  of: axis,
  against: axis,
  points: z
    .array(
      z.strictObject({
        of: z.number(),
        against: z.number(),
        system: z.string().describe('binder system'),
        blend: z.array(z.strictObject({ material: z.string(), pieceGrams: z.number().describe('g in one piece') })),
      }),
    )
    .describe('from the best "of" to the best "against"; one: a single blend is best at both; none: nothing fits'),
  dominated: z.number().int().describe('blends found on the way that others beat in both'),
  systems: z.array(z.strictObject({ system: z.string(), name: z.string() })).describe('binder systems of the points'),
});

export type FrontierResult = z.infer<typeof frontierResultSchema>;
