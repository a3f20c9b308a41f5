import { z } from 'zod';
import { FIGURE_UNITS } from '../materials/words.js';
import { warningSchema } from './result-schema.js';

/** What the `pours` verb prints with --json. Same rules as result-schema.ts. */

const nullable = z.number().nullable();
const weighing = z.strictObject({ hours: z.number().describe('h since the water went in'), grams: z.number() });

const pour = z.strictObject({
  pour: z.string(),
  date: z.string().nullable(),
  brief: z.string().nullable(),
  blend: z.string().nullable(),
  batchGrams: nullable,
  pieces: nullable,
  celsius: nullable,
  humidity: nullable.describe('0..1'),
  setMinutes: nullable,
  demouldMinutes: nullable,
  weights: z.array(weighing),
  flow: z.string(),
  bubbles: z.string(),
  cracks: z.string(),
  note: z.string(),
  constantWeight: z.strictObject({
    verdict: z.enum(['dry', 'drying', 'too-soon', 'not-weighed-twice']),
    change: nullable.describe('between the two weighings, as a share of the last'),
    apartHours: nullable,
  }),
  curve: z
    .strictObject({
      points: z.array(weighing).describe('the model, its figures moved within their ranges to fit this pour'),
      dryGrams: z.number(),
      dryAfterHours: nullable.describe('null: never in this room'),
    })
    .nullable()
    .describe('null: see why'),
  why: z.string().nullable().describe('why there is no curve'),
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
      misfit: z.number().describe('about 1 when model and scale agree'),
      contradicts: z.boolean(),
    }),
  ),
  left: z.array(z.strictObject({ pour: z.string(), why: z.string() })),
  measurements: z.number().int(),
  misfit: z.strictObject({ before: z.number(), after: z.number() }),
  settled: z.boolean(),
  figures: z.array(
    z.strictObject({
      figure: z.string().describe('key, stable'),
      title: z.string(),
      unit: z.enum(FIGURE_UNITS),
      before: range,
      after: range,
      left: z.number().describe('standard deviations left, of 1 before'),
      moved: z.number().describe('standard deviations the value has moved'),
      kept: z.boolean().describe('written to the learned file'),
      notable: z.boolean(),
    }),
  ),
  trusted: z.boolean().describe('false: a pour contradicts the model, and nothing was written'),
  written: z.string().nullable().describe('file of learned figures; null: nothing written'),
  named: z.boolean().describe('the shop names that file, so that propose and assess use it'),
  warnings: z.array(warningSchema),
});

export const pourResultSchema = z.strictObject({
  format: z.literal('pourwright.pour/1'),
  file: z.string(),
  pour: z.string(),
  line: z.string().describe('the row as it stands in the file'),
});

export type PoursResult = z.infer<typeof poursResultSchema>;
export type ShownPour = PoursResult['pours'][number];
export type FitResult = z.infer<typeof fitResultSchema>;
export type PourResult = z.infer<typeof pourResultSchema>;
