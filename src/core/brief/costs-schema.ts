import { z } from 'zod';

const quantity = z.union([z.string(), z.number()]);
const money = z.union([z.string(), z.number()]);

/** What the shop file says about the price of a piece beside its materials. Every field may be left out. */
export const costFields = {
  labour: z
    .strictObject({
      rate: money.describe('what an hour of your work is to earn'),
      minutes: quantity.describe('work on each piece; bare numbers are minutes'),
      'batch-minutes': quantity.optional().describe('work on each batch, whatever it fills; bare numbers are minutes'),
    })
    .optional(),
  sealer: z
    .strictObject({
      price: z.string().describe('price per pack, such as "18.00 per 500 mL"'),
      use: quantity.describe('how much a piece takes: a volume or a weight, as the pack is sold'),
    })
    .optional(),
  mould: z
    .strictObject({
      price: money.describe('what a mould costs'),
      pours: z.number().int().positive().max(1_000_000).describe('how many pours it lasts'),
    })
    .optional(),
  packing: z
    .strictObject({ cost: money.describe('box and padding of one piece'), weight: quantity.optional() })
    .optional(),
  postage: z
    .array(z.strictObject({ 'up-to': quantity.describe('heaviest parcel of this step'), price: money }))
    .optional()
    .describe('your carrier’s table; the dry weight of the piece and its packing decide the step'),
  fee: z
    .strictObject({
      share: quantity.optional().describe('percent of the selling price that selling takes'),
      each: money.optional().describe('fixed sum that each sale takes'),
    })
    .optional(),
  margin: quantity.optional().describe('percent of the selling price that is to be left over'),
  breakage: quantity.optional().describe('percent of the pieces cast that cannot be sold'),
};
