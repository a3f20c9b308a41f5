import * as z from 'zod/mini';
import { HARDNESSES, MEDIUM_KINDS } from '../brief/medium-schema.js';
import { told } from '../reading/told.js';
import { limitsSchema } from './choices-result.js';
import { batchSchema, besideFields, pieceSchema, systemSchema, verdictSchema, warningSchema } from './result-schema.js';
import { modelsUsedSchema } from './why-schema.js';

const nullable = z.nullable(z.number());

const wantedSchema = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  low: told(nullable, 'from here to `high` nothing is missed; null: open'),
  high: nullable,
  tolerance: told(z.number(), 'how far outside still passes for the same'),
  counts: told(z.number(), 'what a miss counts for beside the others'),
});

const gotSchema = z.strictObject({
  property: z.string(),
  value: nullable,
  miss: told(nullable, 'distance to the window in the unit, signed: below it negative; 0 inside'),
  distance: told(z.number(), 'in tolerances: 0 inside the window, 1 at the end of the tolerance'),
  within: z.boolean(),
  chance: told(nullable, 'share of the draws within tolerance'),
});

const candidateSchema = z.strictObject({
  system: z.string(),
  name: z.string(),
  farness: told(z.number(), 'sum of the distances, each times what it counts for'),
  holds: told(z.boolean(), 'the targets of the file and the limits every blend keeps hold'),
  within: told(z.boolean(), 'everything wanted lies within its tolerance'),
  got: told(z.array(gotSchema), 'in the order of `wanted`'),
  jointChance: told(nullable, 'chance that everything wanted lies within its tolerance, and the targets hold'),
  targets: told(z.array(verdictSchema), "the file's own targets"),
  limits: limitsSchema,
  ...besideFields,
});

export const standInResultSchema = z.strictObject({
  format: z.literal('pourwright.stand-in/1'),
  title: z.string(),
  invented: z.boolean(),
  currency: z.nullable(z.string()),
  medium: z.strictObject({
    kind: z.nullable(z.enum(MEDIUM_KINDS)),
    hardness: z.nullable(z.enum(HARDNESSES)),
    water: told(nullable, 'g for each g of powder'),
    polymer: told(z.number(), 'g of polymer for each g of powder'),
    bound: told(nullable, 'g of water each g of powder holds for good when dry, by mass balance'),
    plaster: told(nullable, 'share of the powder that is plaster, if nothing else binds water'),
    powderDensity: told(nullable, 'g/cm3 of the powder, if the piece holds no air'),
  }),
  wanted: z.array(wantedSchema),
  candidates: told(z.array(candidateSchema), 'closest first, at most one a binder system'),
  systems: told(z.array(systemSchema), 'value: how far off, in tolerances, before rounding'),
  piece: pieceSchema,
  batch: batchSchema,
  leftOut: z.array(z.strictObject({ material: z.string(), why: z.string() })),
  models: modelsUsedSchema,
  warnings: z.array(warningSchema),
});

export type StandInResult = z.infer<typeof standInResultSchema>;
export type CandidateResult = z.infer<typeof candidateSchema>;
