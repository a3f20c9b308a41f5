import * as z from 'zod/mini';
import { told } from '../reading/told.js';
import { COST_GROUPS } from '../shop/price.js';
import { cautionSetSchema, warningSchema } from './result-schema.js';

/**
 * What `price --json` prints. Money is decimal text: `amount` in whole coins, so that lines add up to their total;
 * `exact` as computed, cut at eight decimals.
 */

const coins = told(z.string(), "money in the shop's currency, whole coins");
const exact = told(z.string(), 'the same before rounding to coins');
const grams = z.number();

const sale = z.strictObject({
  price: coins,
  fee: told(coins, 'what selling takes'),
  left: told(coins, 'price less fee less cost; negative: a loss'),
  margin: told(z.nullable(z.number()), 'left as a share of the price'),
  hourly: told(z.nullable(coins), 'what an hour of work earns at this price; null: no minutes given'),
});

const line = z.strictObject({
  id: z.string(),
  group: z.enum(COST_GROUPS),
  name: z.string(),
  amount: coins,
  exact,
  grams: told(z.nullable(grams), 'g used up for one piece, waste included; null: not a material'),
});

const step = z.strictObject({ upTo: grams, price: coins });

const posted = z.strictObject({
  weight: told(grams, 'g of the dry piece and its packing'),
  step: told(z.nullable(step), 'null: heavier than the table goes'),
  heavier: told(
    z.nullable(z.union([step, z.literal('beyond')])),
    'step it may fall into by the likely range of its weight',
  ),
  lighter: told(z.nullable(z.strictObject({ step, grams })), 'next cheaper step and g to lose for it'),
});

const saving = z.strictObject({
  id: z.string(),
  name: z.string(),
  exact: told(exact, 'left more in hand on each piece at the same price'),
  grams: z.optional(grams),
  upTo: z.optional(grams),
  pieces: z.optional(z.number()),
});

const pack = z.strictObject({ text: z.string(), amount: coins, grams });

const packChoice = z.strictObject({
  material: z.string(),
  name: z.string(),
  pieceGrams: told(grams, 'g that one sold piece takes, waste and failed pieces included'),
  packs: z.array(pack),
  buy: told(z.array(z.strictObject({ text: z.string(), count: z.int() })), 'cheapest whole packs for the run'),
  cost: coins,
  left: told(grams, 'g left over after the run'),
  proven: z.boolean(),
  large: z.nullable(
    z.strictObject({
      small: z.string(),
      large: z.string(),
      first: told(z.nullable(z.int()), 'fewest pieces at which the largest pack alone costs no more than small ones'),
      always: told(z.nullable(z.int()), 'pieces from which it never costs more; null: never so'),
    }),
  ),
});

const blend = z.strictObject({
  title: z.string(),
  invented: z.boolean(),
  per: told(z.enum(['piece', 'batch']), 'batch: a recipe without a mould, priced as it is written'),
  batchPieces: told(z.number(), 'pieces that share the work on one batch'),
  waste: z.number(),
  breakage: z.number(),
  lines: told(z.array(line), 'what one piece that is sold costs'),
  total: coins,
  exactTotal: exact,
  complete: told(z.boolean(), 'false: something could not be priced; see gaps'),
  gaps: z.array(z.string()),
  hours: told(z.number(), 'h of work behind one piece that is sold'),
  posted: z.nullable(posted),
  covering: told(sale, 'at the price that covers cost, fee and the margin asked for'),
  at: told(z.nullable(sale), 'at the price asked about'),
  tenth: told(z.array(saving), 'what a tenth less of each saves, most first'),
  alternatives: told(z.array(saving), 'other ways of doing it, most first'),
  packs: z.array(packChoice),
  warnings: z.array(warningSchema),
  cautions: cautionSetSchema,
});

const breakEven = z.strictObject({
  cheaper: told(z.nullable(z.int()), 'index of the blend that is cheaper in the long run; null: they cost the same'),
  from: told(z.nullable(z.int()), 'fewest pieces from which it never costs more'),
  upTo: told(z.nullable(z.int()), 'pieces looked at; null: for ever'),
});

export const priceResultSchema = z.strictObject({
  format: z.literal('pourwright.price/1'),
  currency: z.nullable(z.string()),
  decimals: told(z.int(), 'of the currency'),
  step: told(z.number(), 'g the scale can tell'),
  run: told(z.int(), 'pieces that whole packs are reckoned for'),
  blends: z.array(blend),
  unpriced: told(
    z.optional(
      z.array(
        z.strictObject({
          title: z.string(),
          index: told(z.int(), 'among all that were to be priced'),
          warnings: z.array(warningSchema),
        }),
      ),
    ),
    'those left out of blends, as something in them has no price; only where there are such',
  ),
  comparison: z.nullable(
    z.strictObject({
      groups: z.array(z.strictObject({ group: z.enum(COST_GROUPS), amounts: z.array(coins) })),
      totals: z.array(coins),
      once: told(z.array(coins), 'spent once before the first piece'),
      cheapest: told(z.array(z.int()), 'indexes of the cheapest blend by the piece'),
      pairs: z.array(
        z.strictObject({
          a: z.int(),
          b: z.int(),
          byTheGram: told(breakEven, 'materials by the gram; index is a or b of the list of blends'),
          wholePacks: told(
            z.extend(breakEven, {
              first: told(
                z.nullable(z.int()),
                'pieces for which it is cheaper already, now and then; null: none before from',
              ),
              atRun: told(z.nullable(z.int()), 'the cheaper for the run; null: the same'),
            }),
            'materials in whole packs from an empty shelf',
          ),
        }),
      ),
    }),
  ),
});

export type PriceResult = z.infer<typeof priceResultSchema>;
export type PricedBlend = PriceResult['blends'][number];
export type SaleResult = z.infer<typeof sale>;
