import * as z from 'zod/mini';
import { FIGURE_UNITS } from '../materials/words.js';
import { told } from '../reading/told.js';
import { inUs } from './in-us.js';
import { warningSchema } from './result-schema.js';

/** What the `pours` verb prints with --json. Same rules as result-schema.ts. */

const nullable = z.nullable(z.number());
const weighing = z.strictObject({ hours: told(z.number(), 'h since the water went in'), grams: z.number() });

const pour = z.strictObject({
  pour: z.string(),
  date: z.nullable(z.string()),
  brief: z.nullable(z.string()),
  blend: z.nullable(z.string()),
  batchGrams: nullable,
  pieces: nullable,
  celsius: nullable,
  humidity: told(nullable, '0..1'),
  setMinutes: nullable,
  demouldMinutes: nullable,
  weights: z.array(weighing),
  flow: z.string(),
  bubbles: z.string(),
  cracks: z.string(),
  note: z.string(),
  constantWeight: z.strictObject({
    verdict: z.enum(['dry', 'drying', 'too-soon', 'not-weighed-twice']),
    change: told(nullable, 'between the two weighings, as a share of the last'),
    apartHours: nullable,
  }),
  curve: told(
    z.nullable(
      z.strictObject({
        points: told(z.array(weighing), 'the model, its figures moved within their ranges to fit this pour'),
        dryGrams: z.number(),
        dryAfterHours: told(nullable, 'null: see why'),
        why: told(z.nullable(z.string()), 'why there is no time to it: never in this room, or over a year'),
      }),
    ),
    'null: see why',
  ),
  why: told(z.nullable(z.string()), 'why there is no curve'),
});

export const poursResultSchema = z.strictObject({
  format: z.literal('pourwright.pours/1'),
  file: z.string(),
  pours: z.array(pour),
  warnings: z.array(warningSchema),
});

const range = z.strictObject({ value: z.number(), low: z.number(), high: z.number() });

export const fitResultSchema = z.strictObject({
  format: z.literal('pourwright.fit/1'),
  file: z.string(),
  used: z.array(
    z.strictObject({
      pour: z.string(),
      misfit: told(z.number(), 'about 1 when model and scale agree'),
      contradicts: z.boolean(),
    }),
  ),
  left: z.array(z.strictObject({ pour: z.string(), why: z.string() })),
  measurements: z.int(),
  misfit: z.strictObject({ before: z.number(), after: z.number() }),
  settled: z.boolean(),
  figures: z.array(
    z.strictObject({
      figure: told(z.string(), 'key, stable'),
      title: z.string(),
      us: inUs({ title: z.optional(z.string()) }),
      unit: z.enum(FIGURE_UNITS),
      before: range,
      after: range,
      left: told(z.number(), 'standard deviations left, of 1 before'),
      moved: told(z.number(), 'standard deviations the value has moved'),
      kept: told(z.boolean(), 'written to the learned file'),
      notable: z.boolean(),
    }),
  ),
  trusted: told(z.boolean(), 'false: a pour contradicts the model, and nothing was written'),
  written: told(z.nullable(z.string()), 'file of learned figures; null: nothing written'),
  named: told(z.boolean(), 'the shop names that file, so that propose and assess use it'),
  warnings: z.array(warningSchema),
});

export const pourResultSchema = z.strictObject({
  format: z.literal('pourwright.pour/1'),
  file: z.string(),
  pour: z.string(),
  line: told(z.string(), 'the row as it stands in the file'),
});

export type PoursResult = z.infer<typeof poursResultSchema>;
export type ShownPour = PoursResult['pours'][number];
export type FitResult = z.infer<typeof fitResultSchema>;
export type PourResult = z.infer<typeof pourResultSchema>;
