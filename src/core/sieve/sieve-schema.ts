import { z } from 'zod';
import { CURVES } from './target.js';

/** The JSON of `sieve --json`: sizes in mm, percent passing, shares as fractions. */

const nullable = z.number().nullable();

const grading = z
  .array(z.strictObject({ sieve: z.number().describe('mm'), passing: z.number().describe('percent') }))
  .readonly();

const envelope = z.strictObject({
  inside: z.boolean(),
  sieves: z
    .array(
      z.strictObject({
        sieve: z.number(),
        passing: z.number(),
        low: z.number(),
        high: z.number(),
        judged: z.boolean().describe('false: the test had no sieve so fine'),
        ok: z.boolean(),
      }),
    )
    .readonly(),
  finenessModulus: z.number(),
  modulusOk: z.boolean(),
  largestStep: z.number().describe('percent between two sieves'),
  stepOk: z.boolean(),
});

const sand = z.strictObject({
  name: z.string(),
  material: z.string().nullable().describe('id on the shelf; null: sieved by the maker'),
  grading,
  weights: z
    .array(z.strictObject({ sieve: z.number().describe('mm; 0 is the pan'), grams: z.number() }))
    .readonly()
    .nullable(),
  total: nullable.describe('g on all sieves'),
  loss: nullable.describe('share of the sample lost in sieving'),
  finenessModulus: z.number(),
  envelope,
  density: z.number().describe('g/cm3'),
  densityAssumed: z.boolean(),
  voids: z.number().describe('fraction of the loose volume'),
  voidsAssumed: z.boolean(),
});

const mix = z.strictObject({
  target: z.strictObject({
    curve: z.enum(CURVES),
    q: z.number(),
    smallest: z.number().describe('mm'),
    largest: z.number().describe('mm'),
  }),
  targetGrading: grading,
  byMass: z.array(z.number()).readonly().describe('share of each sand, in their order'),
  byVolume: z.array(z.number()).readonly(),
  miss: z.number().describe('root mean square over the sieves, percentage points'),
  grading,
  finenessModulus: z.number(),
  envelope,
  voids: z.number().describe('of the loose mix, by the compressible packing model'),
  leastAlone: z.number().describe('least voids among its sands alone'),
  note: z.string(),
});

export const sieveResultSchema = z.strictObject({
  format: z.literal('pourwright.sieve/1'),
  invented: z.boolean(),
  sands: z.array(sand).readonly(),
  mix: mix.nullable().describe('null for one sand'),
});

export type SandResult = z.infer<typeof sand>;
export type SandMix = z.infer<typeof mix>;
export type SieveResult = z.infer<typeof sieveResultSchema>;
