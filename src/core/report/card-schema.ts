import * as z from 'zod/mini';
import { KINDS } from '../materials/words.js';
import { told } from '../reading/told.js';
import { cautionSetSchema, verdictSchema, warningSchema } from './result-schema.js';

/** What `card --json` prints, and all that the text and the printed page are made of. Masses in g, times in min or h. */

const VESSELS = ['water', 'powder', 'grains', 'fibres'] as const;

const addition = z.strictObject({
  material: z.string(),
  name: z.string(),
  grams: told(z.number(), 'g to weigh out, on the step of the scale'),
  step: told(z.number(), 'g the scale can tell'),
  apart: told(z.boolean(), 'weighed on the finer scale, apart from the vessel'),
  running: told(z.number(), 'g the scale under the tared vessel reads once this is in'),
  cm3: told(z.nullable(z.number()), 'as measured out; null: loose density not known'),
  scoops: told(
    z.nullable(z.strictObject({ value: z.number(), least: z.number(), most: z.number(), error: z.number() })),
    'scoops, and the share by which they can be off; null: too little to scoop, or loose density not known',
  ),
});

const weighing = z.strictObject({
  id: z.enum(['water', 'dissolve', 'colour', 'wet', 'blend', 'fibres']),
  vessel: z.enum(VESSELS),
  vesselName: z.string(),
  scaleStep: told(z.number(), 'g that the scale under the vessel can tell'),
  text: z.string(),
  additions: z.array(addition),
});

const mixing = z.strictObject({
  id: z.enum(['join', 'soak', 'mix', 'rest', 'mix-again', 'grains', 'fibres', 'pour']),
  text: z.string(),
  minutes: z.nullable(z.number()),
});

const timer = z.strictObject({
  id: z.enum(['mixed', 'pour', 'left', 'demould', 'cover', 'dry']),
  name: z.string(),
  value: told(z.nullable(z.number()), 'null: see why'),
  low: z.nullable(z.number()),
  high: told(z.nullable(z.number()), 'null beside a low: over a year'),
  why: told(z.optional(z.nullable(z.string())), 'why there is no value'),
  unit: z.enum(['min', 'h']),
});

const layer = z.strictObject({
  materials: z.array(z.string()),
  name: z.string(),
  kind: told(z.enum([...KINDS, 'air', 'doses']), 'doses: several small ones in one layer'),
  cm3: told(z.number(), 'in one bowl as mixed'),
  share: told(z.number(), 'of the volume as mixed'),
});

export const cardResultSchema = z.strictObject({
  format: z.literal('pourwright.card/1'),
  title: z.string(),
  invented: z.boolean(),
  service: z.string(),
  method: z.strictObject({ id: z.string(), name: z.string() }),
  bowls: z.strictObject({
    count: z.int(),
    pieces: told(z.number(), 'moulds that one bowl fills, waste taken off'),
    waste: told(z.number(), 'share of what is mixed'),
    grams: z.number(),
    cm3: z.number(),
    limit: told(z.nullable(z.string()), "the shop's largest bowl"),
  }),
  mould: told(z.nullable(z.number()), 'cm3'),
  scoop: told(z.number(), 'cm3'),
  waterTemperature: told(z.number(), '°C that the times are for'),
  weighing: z.array(weighing),
  mixing: z.array(mixing),
  timers: told(z.array(timer), 'from the moment powder meets water'),
  expected: told(
    z.array(z.strictObject({ property: z.string(), name: z.string(), grams: z.number() })),
    'weight of one piece',
  ),
  layers: told(z.array(layer), 'bottom first'),
  targets: told(
    z.array(
      z.extend(verdictSchema, {
        kind: told(z.optional(z.enum(['target', 'standing'])), 'standing: a limit that every proposal keeps'),
      }),
    ),
    'one piece of what one bowl really weighs out',
  ),
  met: z.boolean(),
  warnings: z.array(warningSchema),
  cautions: cautionSetSchema,
});

export type CardResult = z.infer<typeof cardResultSchema>;
export type CardWeighing = CardResult['weighing'][number];
export type CardAddition = CardWeighing['additions'][number];
export type CardTimer = CardResult['timers'][number];
export type CardLayer = CardResult['layers'][number];
