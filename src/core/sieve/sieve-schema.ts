import * as z from 'zod/mini';
import { told } from '../reading/told.js';
import { CURVES } from './target.js';

/** The JSON of `sieve --json`: sizes in mm, percent passing, shares as fractions. */

const nullable = z.nullable(z.number());

const grading = z.readonly(
  z.array(z.strictObject({ sieve: told(z.number(), 'mm'), passing: told(z.number(), 'percent') })),
);

const envelope = z.strictObject({
  inside: z.boolean(),
  sieves: z.readonly(
    z.array(
      z.strictObject({
        sieve: z.number(),
        passing: z.number(),
        low: z.number(),
        high: z.number(),
        judged: told(z.boolean(), 'false: the test had no sieve so fine'),
        ok: z.boolean(),
      }),
    ),
  ),
  finenessModulus: z.number(),
  modulusOk: z.boolean(),
  largestStep: told(z.number(), 'percent between two sieves'),
  stepOk: z.boolean(),
});

const sand = z.strictObject({
  name: z.string(),
  material: told(z.nullable(z.string()), 'id on the shelf; null: sieved by the maker'),
  grading,
  weights: z.nullable(
    z.readonly(z.array(z.strictObject({ sieve: told(z.number(), 'mm; 0 is the pan'), grams: z.number() }))),
  ),
  total: told(nullable, 'g on all sieves'),
  loss: told(nullable, 'share of the sample lost in sieving'),
  finenessModulus: z.number(),
  envelope,
  density: told(z.number(), 'g/cm3'),
  densityAssumed: z.boolean(),
  voids: told(z.number(), 'fraction of the loose volume'),
  voidsAssumed: z.boolean(),
});

const mix = z.strictObject({
  target: z.strictObject({
    curve: z.enum(CURVES),
    q: z.number(),
    smallest: told(z.number(), 'mm'),
    largest: told(z.number(), 'mm'),
  }),
  targetGrading: grading,
  byMass: told(z.readonly(z.array(z.number())), 'share of each sand, in their order'),
  byVolume: z.readonly(z.array(z.number())),
  miss: told(z.number(), 'root mean square over the sieves, percentage points'),
  grading,
  finenessModulus: z.number(),
  envelope,
  voids: told(z.number(), 'of the loose mix, by the compressible packing model'),
  leastAlone: told(z.number(), 'least voids among its sands alone'),
  note: z.string(),
});

export const sieveResultSchema = z.strictObject({
  format: z.literal('pourwright.sieve/1'),
  invented: z.boolean(),
  sands: z.readonly(z.array(sand)),
  mix: told(z.nullable(mix), 'null for one sand'),
});

export type SandResult = z.infer<typeof sand>;
export type SandMix = z.infer<typeof mix>;
export type SieveResult = z.infer<typeof sieveResultSchema>;
