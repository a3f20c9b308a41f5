import * as z from 'zod/mini';
import { told } from '../reading/told.js';
import { warningSchema } from './result-schema.js';

/** What the `shop` and `page` verbs print with --json. Same rules as result-schema.ts. */

export const shopInitResultSchema = z.strictObject({
  format: z.literal('pourwright.shop-init/1'),
  file: told(z.string(), 'the file that was written'),
});

export const shopCheckResultSchema = z.strictObject({
  format: z.literal('pourwright.shop-check/1'),
  file: z.string(),
  currency: z.nullable(z.string()),
  units: z.nullable(z.enum(['metric', 'us'])),
  priceList: told(z.nullable(z.string()), 'file of the price list; null: the shop names none'),
  packs: z.number(),
  priced: told(z.readonly(z.array(z.string())), 'ids of the materials that have a price'),
  ownMaterials: z.readonly(z.array(z.string())),
  notCounted: told(z.readonly(z.array(z.string())), 'what the price of a piece leaves out, in words'),
  warnings: z.readonly(z.array(warningSchema)),
});

export const shopPricesResultSchema = z.strictObject({
  format: z.literal('pourwright.shop-prices/1'),
  priceList: told(z.string(), 'file of the price list'),
  written: told(z.nullable(z.string()), 'file the table was written to; null: none was asked for'),
  offers: z.readonly(
    z.array(
      z.strictObject({
        material: z.string(),
        called: z.string(),
        pack: z.string(),
        grams: told(z.number(), 'g in the pack'),
        price: told(z.string(), 'plain decimal, of the pack'),
        currency: z.nullable(z.string()),
        pricePerKg: z.string(),
        inStock: told(z.nullable(z.string()), 'in words'),
        note: z.nullable(z.string()),
      }),
    ),
  ),
});

export const pageResultSchema = z.strictObject({
  format: z.literal('pourwright.page/1'),
  url: z.string(),
  file: told(z.string(), 'the same page on disk'),
});

export type ShopCheckResult = z.infer<typeof shopCheckResultSchema>;
export type ShopPricesResult = z.infer<typeof shopPricesResultSchema>;
