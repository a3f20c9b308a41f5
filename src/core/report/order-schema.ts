import { z } from 'zod';
import { cautionSetSchema, ingredientSchema, ownFiguresSchema, warningSchema } from './result-schema.js';

/** What `order --json` prints. Same rules as result-schema.ts: fields keep their meaning, new ones may be added. */

const nullable = z.number().nullable();
const date = z.string().describe('year-month-day');
const money = z.string().describe("plain decimal in the shop's currency, exact");

const range = z.strictObject({
  likely: nullable,
  careful: nullable.describe('working time: 5th percentile; demoulding and drying: 95th'),
});

const pour = z.strictObject({
  at: z.string().describe('local date and time at which the water goes in'),
  item: z.number().int().describe('index in items'),
  title: z.string(),
  pieces: z.number().int(),
  grams: z.number().describe('g to mix, waste included'),
  demouldAt: z.string().describe('from when the mould is free'),
  ready: date.nullable(),
});

const day = z.strictObject({ date, weekday: z.string(), pours: z.array(pour) });

const item = z.strictObject({
  title: z.string(),
  file: z.string(),
  pieces: z.number().int(),
  poured: z.number().int().describe('pieces to pour, the breakage allowance included'),
  moulds: z.number().int(),
  perBowl: z.number().int(),
  limitedBy: z.enum(['moulds', 'bowl', 'working time', 'pieces']),
  bowlGrams: z.number().describe('g of one full bowl'),
  turns: z.number().int().describe('times a mould is filled in a day when nothing else is poured'),
  workingMinutes: range,
  demouldMinutes: range,
  dryDays: range.describe('from the pour to constant weight; null: never in this room'),
  impossible: z.string().nullable(),
  lastPour: date.nullable(),
  lastReady: date.nullable(),
  costPerPiece: nullable.describe('materials, waste included'),
  blend: z.array(ingredientSchema),
});

const plannedMoulds = z.strictObject({
  status: z.enum(['none', 'buy', 'no-help']).describe('none: those on hand do; no-help: no number of moulds does'),
  fewest: z.boolean().describe('false: the search stopped at its limit, fewer may do'),
  buy: z.array(z.strictObject({ item: z.number().int(), title: z.string(), moulds: z.number().int() })),
  cost: money.nullable().describe('null: a price is not given'),
  lastReady: date.nullable().describe('with them; for no-help, with a mould for every piece'),
  days: z.array(day).nullable().describe('the timetable with them; null when none are bought'),
});

const against = z.strictObject({
  item: z.number().int(),
  title: z.string().describe('the faster blend'),
  moulds: z.number().int().describe('moulds to buy with the blend as it is'),
  stillMoulds: z.number().int().nullable().describe('with the faster blend; null: not met with any number'),
  mouldsCost: money,
  blendCost: money.describe('what the faster blend costs more over this order, its moulds included'),
  perPiece: z.number(),
  breakEvenPieces: nullable.describe('poured pieces from which moulds are cheaper; null: never'),
  cheaper: z.enum(['moulds', 'blend', 'same']),
});

const material = z.strictObject({
  material: z.string(),
  name: z.string(),
  grams: z.number().describe('g the order takes, waste and breakage included'),
  stock: z.number().describe('g on hand'),
  keepsDays: nullable.describe('days an opened pack keeps, where the order says'),
  buy: z
    .array(z.strictObject({ pack: z.string(), grams: z.number(), price: money, count: z.number().int() }))
    .nullable(),
  cost: money.nullable(),
  leftover: nullable.describe('g left of what was bought'),
  spoilt: nullable.describe('g of it in opened packs that no longer keep'),
  proven: z.boolean().describe('no cheaper set of whole packs exists'),
  shelfLifeMonths: nullable.describe('in a closed bag'),
});

export const orderResultSchema = z.strictObject({
  format: z.literal('pourwright.order/1'),
  title: z.string(),
  invented: z.boolean(),
  currency: z.string().nullable(),
  start: date,
  due: date,
  ready: z.enum(['dry', 'demoulded']),
  met: z.boolean().describe('with the moulds on hand, by the likely times'),
  lastReady: date.nullable().describe('null: something is never ready or cannot be poured'),
  careful: z
    .strictObject({ met: z.boolean(), lastReady: date.nullable() })
    .describe('the same when mixes stiffen early, set late and dry slowly'),
  items: z.array(item),
  days: z.array(day),
  moulds: plannedMoulds,
  against: z.array(against),
  materials: z.array(material),
  materialsCost: money.describe('of all packs to buy'),
  unpriced: z.array(z.string()).describe('materials without a pack in the price list'),
  ownFigures: ownFiguresSchema,
  warnings: z.array(warningSchema),
  cautions: cautionSetSchema,
});

export type OrderResult = z.infer<typeof orderResultSchema>;
