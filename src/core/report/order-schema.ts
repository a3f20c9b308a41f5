import * as z from 'zod/mini';
import { told } from '../reading/told.js';
import { cautionSetSchema, ingredientSchema, ownFiguresSchema, warningSchema } from './result-schema.js';

/** What `order --json` prints. Same rules as result-schema.ts: fields keep their meaning, new ones may be added. */

const nullable = z.nullable(z.number());
const date = told(z.string(), 'year-month-day');
const money = told(z.string(), "plain decimal in the shop's currency, exact");

const range = z.strictObject({
  likely: told(nullable, 'null: see why'),
  careful: told(nullable, 'working time: 5th percentile; demoulding and drying: 95th; null: none, or over a year'),
  why: told(z.nullable(z.string()), 'why there is no likely time'),
});

const pour = z.strictObject({
  at: told(z.string(), 'local date and time at which the water goes in'),
  item: told(z.int(), 'index in items'),
  title: z.string(),
  pieces: z.int(),
  grams: told(z.number(), 'g to mix, waste included'),
  demouldAt: told(z.string(), 'from when the mould is free'),
  ready: z.nullable(date),
});

const day = z.strictObject({ date, weekday: z.string(), pours: z.array(pour) });

const item = z.strictObject({
  title: z.string(),
  file: z.string(),
  pieces: z.int(),
  poured: told(z.int(), 'pieces to pour, the breakage allowance included'),
  moulds: z.int(),
  perBowl: z.int(),
  limitedBy: z.enum(['moulds', 'bowl', 'working time', 'pieces']),
  bowlGrams: told(z.number(), 'g of one full bowl'),
  turns: told(z.int(), 'times a mould is filled in a day when nothing else is poured'),
  workingMinutes: range,
  demouldMinutes: range,
  dryDays: told(range, 'from the pour to constant weight'),
  impossible: z.nullable(z.string()),
  lastPour: z.nullable(date),
  lastReady: z.nullable(date),
  costPerPiece: told(nullable, 'materials, waste included'),
  blend: z.array(ingredientSchema),
});

const plannedMoulds = z.strictObject({
  status: told(z.enum(['none', 'buy', 'no-help']), 'none: those on hand do; no-help: no number of moulds does'),
  fewest: told(z.boolean(), 'false: the search stopped at its limit, fewer may do'),
  buy: z.array(z.strictObject({ item: z.int(), title: z.string(), moulds: z.int() })),
  cost: told(z.nullable(money), 'null: a price is not given'),
  lastReady: told(z.nullable(date), 'with them; for no-help, with a mould for every piece'),
  days: told(z.nullable(z.array(day)), 'the timetable with them; null when none are bought'),
});

const against = z.strictObject({
  item: z.int(),
  title: told(z.string(), 'the faster blend'),
  moulds: told(z.int(), 'moulds to buy with the blend as it is'),
  stillMoulds: told(z.nullable(z.int()), 'with the faster blend; null: not met with any number'),
  mouldsCost: money,
  blendCost: told(money, 'what the faster blend costs more over this order, its moulds included'),
  perPiece: z.number(),
  breakEvenPieces: told(nullable, 'poured pieces from which moulds are cheaper; null: never'),
  cheaper: z.enum(['moulds', 'blend', 'same']),
});

const material = z.strictObject({
  material: z.string(),
  name: z.string(),
  grams: told(z.number(), 'g the order takes, waste and breakage included'),
  stock: told(z.number(), 'g on hand'),
  keepsDays: told(nullable, 'days an opened pack keeps, where the order says'),
  buy: z.nullable(z.array(z.strictObject({ pack: z.string(), grams: z.number(), price: money, count: z.int() }))),
  cost: z.nullable(money),
  leftover: told(nullable, 'g left of what was bought'),
  spoilt: told(nullable, 'g of it in opened packs that no longer keep'),
  proven: told(z.boolean(), 'no cheaper set of whole packs exists'),
  shelfLifeMonths: told(nullable, 'in a closed bag'),
});

export const orderResultSchema = z.strictObject({
  format: z.literal('pourwright.order/1'),
  title: z.string(),
  invented: z.boolean(),
  currency: z.nullable(z.string()),
  start: date,
  due: date,
  ready: z.enum(['dry', 'demoulded']),
  met: told(z.boolean(), 'with the moulds on hand, by the likely times'),
  lastReady: told(z.nullable(date), 'null: something is never ready or cannot be poured'),
  careful: told(
    z.strictObject({ met: z.boolean(), lastReady: z.nullable(date) }),
    'the same when mixes stiffen early, set late and dry slowly',
  ),
  items: z.array(item),
  days: z.array(day),
  moulds: plannedMoulds,
  against: z.array(against),
  materials: z.array(material),
  materialsCost: told(money, 'of all packs to buy'),
  unpriced: told(z.array(z.string()), 'materials without a pack in the price list'),
  ownFigures: ownFiguresSchema,
  warnings: z.array(warningSchema),
  cautions: cautionSetSchema,
});

export type OrderResult = z.infer<typeof orderResultSchema>;
