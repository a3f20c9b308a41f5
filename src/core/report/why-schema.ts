import * as z from 'zod/mini';
import { sourceSchema } from '../materials/schema.js';
import { told } from '../reading/told.js';
import { inUs } from './in-us.js';

/** The JSON of `why --json`. Errors are fractions of the printed figure. */

const check = z.strictObject({
  name: z.string(),
  source: z.string(),
  where: z.string(),
  printed: z.string(),
  ours: z.union([z.number(), z.string()]),
  unit: z.string(),
  error: told(z.nullable(z.number()), 'null for words and ranges'),
  standing: told(z.enum(['looked-up', 'from-memory', 'fitted']), 'fitted: set a constant of the law, no check'),
  trap: told(z.optional(z.literal(true)), 'a published figure known to be wrong'),
});

const modelSource = z.extend(sourceSchema, { key: z.string() });

const model = z.strictObject({
  id: z.string(),
  title: z.string(),
  equation: z.string(),
  symbols: z.record(z.string(), z.string()),
  unit: z.string(),
  standing: z.enum(['published', 'from-memory', 'ours']),
  validity: z.string(),
  misfits: z.readonly(z.array(z.string())),
  us: inUs({ validity: z.optional(z.string()), misfits: z.optional(z.readonly(z.array(z.string()))) }),
  sources: z.readonly(z.array(modelSource)),
  checks: z.readonly(z.array(check)),
  found: z.strictObject({
    checks: z.number(),
    numbers: z.number(),
    meanError: z.nullable(z.number()),
    worst: z.nullable(check),
  }),
});

/** A model in short, beside the figures that rest on it. */
const modelUsed = z.pick(model, { id: true, title: true, equation: true, unit: true, standing: true, sources: true });

export const modelsUsedSchema = told(
  z.optional(z.readonly(z.array(modelUsed))),
  'only with --why: the models that properties with a value, and risks, name by their ids, each once',
);

const crossCheck = z.strictObject({
  title: z.string(),
  note: z.string(),
  columns: z.readonly(z.tuple([z.string(), z.string(), z.string()])),
  rows: z.readonly(z.array(z.readonly(z.tuple([z.number(), z.number(), z.number()])))),
});

export const whyResultSchema = z.strictObject({
  format: z.literal('pourwright.why/1'),
  property: told(
    z.nullable(
      z.strictObject({
        id: z.string(),
        name: z.string(),
        unit: z.string(),
        meaning: z.string(),
        restsOn: z.string(),
        us: inUs({ unit: z.optional(z.string()) }),
      }),
    ),
    'null when a model was asked for',
  ),
  models: z.readonly(z.array(model)),
  crossCheck: z.nullable(crossCheck),
  notes: z.readonly(z.array(z.string())),
});

export const whyListSchema = z.strictObject({
  format: z.literal('pourwright.why-list/1'),
  properties: z.readonly(
    z.array(z.strictObject({ id: z.string(), name: z.string(), models: z.readonly(z.array(z.string())) })),
  ),
  models: z.readonly(z.array(z.strictObject({ id: z.string(), title: z.string(), checks: z.number() }))),
});

export type ModelSource = z.infer<typeof modelSource>;
export type ModelUsed = z.infer<typeof modelUsed>;
export type WhyModel = z.infer<typeof model>;
export type CrossCheck = z.infer<typeof crossCheck>;
export type WhyResult = z.infer<typeof whyResultSchema>;
export type WhyList = z.infer<typeof whyListSchema>;
