import { z } from 'zod';
import { COST_GROUPS } from '../shop/price.js';
import { cautionSetSchema, warningSchema } from './result-schema.js';

/**
 * What `price --json` prints. Money is decimal text: `amount` in whole coins, so that lines add up to their total;
 * `exact` as computed, cut at eight decimals.
 */

const coins = z.string().describe("money in the shop's currency, whole coins");
const exact = z.string().describe('the same before rounding to coins');
const grams = z.number();

const sale = z.strictObject({
  price: coins,
  fee: coins.describe('what selling takes'),
  left: coins.describe('price less fee less cost; negative: a loss'),
  margin: z.number().nullable().describe('left as a share of the price'),
  hourly: coins.nullable().describe('what an hour of work earns at this price; null: no minutes given'),
});

const line = z.strictObject({
  id: z.string(),
  group: z.enum(COST_GROUPS),
  name: z.string(),
  amount: coins,
  exact,
  grams: grams.nullable().describe('g used up for one piece, waste included; null: not a material'),
});

const step = z.strictObject({ upTo: grams, price: coins });

const posted = z.strictObject({
  weight: grams.describe('g of the dry piece and its packing'),
  step: step.nullable().describe('null: heavier than the table goes'),
  heavier: z
    .union([step, z.literal('beyond')])
    .nullable()
    .describe('step it may fall into by the likely range of its weight'),
  lighter: z.strictObject({ step, grams }).nullable().describe('next cheaper step and g to lose for it'),
});

const saving = z.strictObject({
  id: z.string(),
  name: z.string(),
  exact: exact.describe('left more in hand on each piece at the same price'),
  grams: grams.optional(),
  upTo: grams.optional(),
  pieces: z.number().optional(),
});

const pack = z.strictObject({ text: z.string(), amount: coins, grams });

const packChoice = z.strictObject({
  material: z.string(),
  name: z.string(),
  pieceGrams: grams.describe('g that one sold piece takes, waste and failed pieces included'),
  packs: z.array(pack),
  buy: z.array(z.strictObject({ text: z.string(), count: z.int() })).describe('cheapest whole packs for the run'),
  cost: coins,
  left: grams.describe('g left over after the run'),
  proven: z.boolean(),
  large: z
    .strictObject({
      small: z.string(),
      large: z.string(),
      first: z.int().nullable().describe('fewest pieces at which the largest pack alone costs no more than small ones'),
      always: z.int().nullable().describe('pieces from which it never costs more; null: never so'),
    })
    .nullable(),
});

const blend = z.strictObject({
  title: z.string(),
  invented: z.boolean(),
  per: z.enum(['piece', 'batch']).describe('batch: a recipe without a mould, priced as it is written'),
  batchPieces: z.number().describe('pieces that share the work on one batch'),
  waste: z.number(),
  breakage: z.number(),
  lines: z.array(line).describe('what one piece that is sold costs'),
  total: coins,
  exactTotal: exact,
  complete: z.boolean().describe('false: something could not be priced; see gaps'),
  gaps: z.array(z.string()),
  hours: z.number().describe('h of work behind one piece that is sold'),
  posted: posted.nullable(),
  covering: sale.describe('at the price that covers cost, fee and the margin asked for'),
  at: sale.nullable().describe('at the price asked about'),
  tenth: z.array(saving).describe('what a tenth less of each saves, most first'),
  alternatives: z.array(saving).describe('other ways of doing it, most first'),
  packs: z.array(packChoice),
  warnings: z.array(warningSchema),
  cautions: cautionSetSchema,
});

const breakEven = z.strictObject({
  cheaper: z.int().nullable().describe('index of the blend that is cheaper in the long run; null: they cost the same'),
  from: z.int().nullable().describe('fewest pieces from which it never costs more'),
  upTo: z.int().nullable().describe('pieces looked at; null: for ever'),
});

export const priceResultSchema = z.strictObject({
  format: z.literal('pourwright.price/1'),
  currency: z.string().nullable(),
  decimals: z.int().describe('of the currency'),
  run: z.int().describe('pieces that whole packs are reckoned for'),
  blends: z.array(blend),
  comparison: z
    .strictObject({
      groups: z.array(z.strictObject({ group: z.enum(COST_GROUPS), amounts: z.array(coins) })),
      totals: z.array(coins),
      once: z.array(coins).describe('spent once before the first piece'),
      cheapest: z.array(z.int()).describe('indexes of the cheapest blend by the piece'),
      pairs: z.array(
        z.strictObject({
          a: z.int(),
          b: z.int(),
          byTheGram: breakEven.describe('materials by the gram; index is a or b of the list of blends'),
          wholePacks: breakEven.describe('materials in whole packs from an empty shelf'),
        }),
      ),
    })
    .nullable(),
});

export type PriceResult = z.infer<typeof priceResultSchema>;
export type PricedBlend = PriceResult['blends'][number];
export type SaleResult = z.infer<typeof sale>;
