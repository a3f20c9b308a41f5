import * as z from 'zod/mini';
import { told } from '../reading/told.js';
import { cautionSetSchema } from './result-schema.js';

const axis = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  better: told(z.enum(['min', 'max']), 'min: less is better'),
});

/** The blends that cannot be better in one property without being worse in the other; before rounding to the scale. */
export const frontierResultSchema = z.strictObject({
  format: z.literal('pourwright.frontier/1'),
  title: z.string(),
  invented: z.boolean(),
  currency: z.nullable(z.string()),
  of: axis,
  against: axis,
  points: told(
    z.array(
      z.strictObject({
        of: z.number(),
        against: z.number(),
        system: told(z.string(), 'binder system'),
        blend: z.array(
          z.strictObject({ material: z.string(), pieceGrams: told(z.number(), 'g in one piece: a mould full') }),
        ),
        cautions: told(z.array(z.string()), 'ids of the cautions, below, that this blend raises'),
        barred: told(z.boolean(), 'one of them says stop'),
      }),
    ),
    'from the best "of" to the best "against"; one: a single blend is best at both; none: nothing fits',
  ),
  dominated: told(z.int(), 'blends found on the way that others beat in both'),
  systems: told(z.array(z.strictObject({ system: z.string(), name: z.string() })), 'binder systems of the points'),
  cautions: told(
    z.nullable(cautionSetSchema),
    'of all points together, each once, as grave as the gravest point has it; null: no points',
  ),
});

export type FrontierResult = z.infer<typeof frontierResultSchema>;
