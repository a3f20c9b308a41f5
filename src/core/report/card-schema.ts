import { z } from 'zod';
import { KINDS } from '../materials/words.js';
import { cautionSetSchema, verdictSchema, warningSchema } from './result-schema.js';

/** What `card --json` prints, and all that the text and the printed page are made of. Masses in g, times in min or h. */

const VESSELS = ['water', 'powder', 'grains', 'fibres'] as const;

const addition = z.strictObject({
  material: z.string(),
  name: z.string(),
  grams: z.number().describe('g to weigh out, on the step of the scale'),
  step: z.number().describe('g the scale can tell'),
  apart: z.boolean().describe('weighed on the finer scale, apart from the vessel'),
  running: z.number().describe('g the scale under the tared vessel reads once this is in'),
  cm3: z.number().nullable().describe('as measured out; null: loose density not known'),
  scoops: z
    .strictObject({ value: z.number(), least: z.number(), most: z.number(), error: z.number() })
    .nullable()
    .describe('scoops, and the share by which they can be off; null: too little to scoop, or loose density not known'),
});

const weighing = z.strictObject({
  id: z.enum(['water', 'dissolve', 'colour', 'wet', 'blend', 'fibres']),
  vessel: z.enum(VESSELS),
  vesselName: z.string(),
  scaleStep: z.number().describe('g that the scale under the vessel can tell'),
  text: z.string(),
  additions: z.array(addition),
});

const mixing = z.strictObject({
  id: z.enum(['join', 'soak', 'mix', 'rest', 'mix-again', 'grains', 'fibres', 'pour']),
  text: z.string(),
  minutes: z.number().nullable(),
});

const timer = z.strictObject({
  id: z.enum(['mixed', 'pour', 'left', 'demould', 'cover', 'dry']),
  name: z.string(),
  value: z.number().nullable().describe('null: never, or not known'),
  low: z.number().nullable(),
  high: z.number().nullable(),
  unit: z.enum(['min', 'h']),
});

const layer = z.strictObject({
  materials: z.array(z.string()),
  name: z.string(),
  kind: z.enum([...KINDS, 'air', 'doses']).describe('doses: several small ones in one layer'),
  cm3: z.number().describe('in one bowl as mixed'),
  share: z.number().describe('of the volume as mixed'),
});

export const cardResultSchema = z.strictObject({
  format: z.literal('pourwright.card/1'),
  title: z.string(),
  invented: z.boolean(),
  service: z.string(),
  method: z.strictObject({ id: z.string(), name: z.string() }),
  bowls: z.strictObject({
    count: z.int(),
    pieces: z.number().describe('moulds that one bowl fills'),
    grams: z.number(),
    cm3: z.number(),
    limit: z.string().nullable().describe("the shop's largest bowl"),
  }),
  mould: z.number().nullable().describe('cm3'),
  scoop: z.number().describe('cm3'),
  waterTemperature: z.number().describe('°C that the times are for'),
  weighing: z.array(weighing),
  mixing: z.array(mixing),
  timers: z.array(timer).describe('from the moment powder meets water'),
  expected: z.array(z.strictObject({ name: z.string(), grams: z.number() })).describe('weight of one piece'),
  layers: z.array(layer).describe('bottom first'),
  targets: z.array(verdictSchema).describe('one piece of what one bowl really weighs out'),
  met: z.boolean(),
  warnings: z.array(warningSchema),
  cautions: cautionSetSchema,
});

export type CardResult = z.infer<typeof cardResultSchema>;
export type CardWeighing = CardResult['weighing'][number];
export type CardAddition = CardWeighing['additions'][number];
export type CardTimer = CardResult['timers'][number];
export type CardLayer = CardResult['layers'][number];
