import { z } from 'zod';
import { HARDNESSES, MEDIUM_KINDS } from '../brief/medium-schema.js';
import { limitsSchema } from './choices-result.js';
import { batchSchema, blendFields, pieceSchema, systemSchema, verdictSchema, warningSchema } from './result-schema.js';

const nullable = z.number().nullable();

const wantedSchema = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  low: nullable.describe('from here to `high` nothing is missed; null: open'),
  high: nullable,
  tolerance: z.number().describe('how far outside still passes for the same'),
  counts: z.number().describe('what a miss counts for beside the others'),
});

const gotSchema = z.strictObject({
  property: z.string(),
  value: nullable,
  miss: nullable.describe('distance to the window in the unit, signed: below it negative; 0 inside'),
  distance: z.number().describe('in tolerances: 0 inside the window, 1 at the end of the tolerance'),
  within: z.boolean(),
  chance: nullable.describe('share of the draws within tolerance'),
});

const candidateSchema = z.strictObject({
  system: z.string(),
  name: z.string(),
  farness: z.number().describe('sum of the distances, each times what it counts for'),
  holds: z.boolean().describe('the targets of the file and the limits every blend keeps hold'),
  within: z.boolean().describe('everything wanted lies within its tolerance'),
  got: z.array(gotSchema).describe('in the order of `wanted`'),
  jointChance: nullable.describe('chance that everything wanted lies within its tolerance, and the targets hold'),
  targets: z.array(verdictSchema).describe("the file's own targets"),
  limits: limitsSchema,
  ...blendFields,
});

export const standInResultSchema = z.strictObject({
  format: z.literal('pourwright.stand-in/1'),
  title: z.string(),
  invented: z.boolean(),
  currency: z.string().nullable(),
  medium: z.strictObject({
    kind: z.enum(MEDIUM_KINDS).nullable(),
    hardness: z.enum(HARDNESSES).nullable(),
    water: nullable.describe('g for each g of powder'),
    polymer: z.number().describe('g of polymer for each g of powder'),
    bound: nullable.describe('g of water each g of powder holds for good when dry, by mass balance'),
    plaster: nullable.describe('share of the powder that is plaster, if nothing else binds water'),
    powderDensity: nullable.describe('g/cm3 of the powder, if the piece holds no air'),
  }),
  wanted: z.array(wantedSchema),
  candidates: z.array(candidateSchema).describe('closest first, at most one a binder system'),
  systems: z.array(systemSchema).describe('value: how far off, in tolerances, before rounding'),
  piece: pieceSchema,
  batch: batchSchema,
  leftOut: z.array(z.strictObject({ material: z.string(), why: z.string() })),
  warnings: z.array(warningSchema),
});

export type StandInResult = z.infer<typeof standInResultSchema>;
export type CandidateResult = z.infer<typeof candidateSchema>;
