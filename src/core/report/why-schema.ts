import { z } from 'zod';
import { sourceSchema } from '../materials/schema.js';

/** The JSON of `why --json`. Errors are fractions of the printed figure. */

const check = z.strictObject({
  name: z.string(),
  source: z.string(),
  where: z.string(),
  printed: z.string(),
  ours: z.union([z.number(), z.string()]),
  unit: z.string(),
  error: z.number().nullable().describe('null for words and ranges'),
  standing: z.enum(['looked-up', 'from-memory', 'fitted']).describe('fitted: set a constant of the law, no check'),
  trap: z.literal(true).optional().describe('a published figure known to be wrong'),
});

const model = z.strictObject({
  id: z.string(),
  title: z.string(),
  equation: z.string(),
  symbols: z.record(z.string(), z.string()),
  unit: z.string(),
  standing: z.enum(['published', 'from-memory', 'ours']),
  validity: z.string(),
  misfits: z.array(z.string()).readonly(),
  sources: z.array(sourceSchema.extend({ key: z.string() })).readonly(),
  checks: z.array(check).readonly(),
  found: z.strictObject({
    checks: z.number(),
    numbers: z.number(),
    meanError: z.number().nullable(),
    worst: check.nullable(),
  }),
});

const crossCheck = z.strictObject({
  title: z.string(),
  note: z.string(),
  columns: z.tuple([z.string(), z.string(), z.string()]).readonly(),
  rows: z.array(z.tuple([z.number(), z.number(), z.number()]).readonly()).readonly(),
});

export const whyResultSchema = z.strictObject({
  format: z.literal('pourwright.why/1'),
  property: z
    .strictObject({ id: z.string(), name: z.string(), unit: z.string(), meaning: z.string(), restsOn: z.string() })
    .nullable()
    .describe('null when a model was asked for'),
  models: z.array(model).readonly(),
  crossCheck: crossCheck.nullable(),
  notes: z.array(z.string()).readonly(),
});

export const whyListSchema = z.strictObject({
  format: z.literal('pourwright.why-list/1'),
  properties: z
    .array(z.strictObject({ id: z.string(), name: z.string(), models: z.array(z.string()).readonly() }))
    .readonly(),
  models: z.array(z.strictObject({ id: z.string(), title: z.string(), checks: z.number() })).readonly(),
});

export type WhyModel = z.infer<typeof model>;
export type CrossCheck = z.infer<typeof crossCheck>;
export type WhyResult = z.infer<typeof whyResultSchema>;
export type WhyList = z.infer<typeof whyListSchema>;
