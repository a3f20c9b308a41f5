import { z } from 'zod';
import { warningSchema } from './result-schema.js';

/** What the `shop` and `page` verbs print with --json. Same rules as result-schema.ts. */

export const shopInitResultSchema = z.strictObject({
  format: z.literal('pourwright.shop-init/1'),
  file: z.string().describe('the file that was written'),
});

export const shopCheckResultSchema = z.strictObject({
  format: z.literal('pourwright.shop-check/1'),
  file: z.string(),
  currency: z.string().nullable(),
  units: z.enum(['metric', 'us']).nullable(),
  priceList: z.string().nullable().describe('file of the price list; null: the shop names none'),
  packs: z.number(),
  priced: z.array(z.string()).readonly().describe('ids of the materials that have a price'),
  ownMaterials: z.array(z.string()).readonly(),
  notCounted: z.array(z.string()).readonly().describe('what the price of a piece leaves out, in words'),
  warnings: z.array(warningSchema).readonly(),
});

export const shopPricesResultSchema = z.strictObject({
  format: z.literal('pourwright.shop-prices/1'),
  priceList: z.string().describe('file of the price list'),
  written: z.string().nullable().describe('file the table was written to; null: none was asked for'),
  offers: z
    .array(
      z.strictObject({
        material: z.string(),
        called: z.string(),
        pack: z.string(),
        grams: z.number().describe('g in the pack'),
        price: z.string().describe('plain decimal, of the pack'),
        currency: z.string().nullable(),
        pricePerKg: z.string(),
        inStock: z.string().nullable().describe('in words'),
        note: z.string().nullable(),
      }),
    )
    .readonly(),
});

export const pageResultSchema = z.strictObject({
  format: z.literal('pourwright.page/1'),
  url: z.string(),
  file: z.string().describe('the same page on disk'),
});

export type ShopCheckResult = z.infer<typeof shopCheckResultSchema>;
export type ShopPricesResult = z.infer<typeof shopPricesResultSchema>;
