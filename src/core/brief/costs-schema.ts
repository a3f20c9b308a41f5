import * as z from 'zod/mini';
import { told } from '../reading/told.js';

const quantity = z.union([z.string(), z.number()]);
const money = z.union([z.string(), z.number()]);

/** What the shop file says about the price of a piece beside its materials. Every field may be left out. */
export const costFields = {
  labour: z.optional(
    z.strictObject({
      rate: told(money, 'what an hour of your work is to earn'),
      minutes: told(quantity, 'work on each piece; bare numbers are minutes'),
      'batch-minutes': told(z.optional(quantity), 'work on each batch, whatever it fills; bare numbers are minutes'),
    }),
  ),
  sealer: z.optional(
    z.strictObject({
      price: told(z.string(), 'price per pack, such as "18.00 per 500 mL"'),
      use: told(quantity, 'how much a piece takes: a volume or a weight, as the pack is sold'),
    }),
  ),
  mould: z.optional(
    z.strictObject({
      price: told(money, 'what a mould costs'),
      pours: told(z.int().check(z.positive(), z.maximum(1_000_000)), 'how many pours it lasts'),
    }),
  ),
  packing: z.optional(
    z.strictObject({ cost: told(money, 'box and padding of one piece'), weight: z.optional(quantity) }),
  ),
  postage: told(
    z.optional(z.array(z.strictObject({ 'up-to': told(quantity, 'heaviest parcel of this step'), price: money }))),
    'your carrier’s table; the dry weight of the piece and its packing decide the step',
  ),
  fee: z.optional(
    z.strictObject({
      share: told(z.optional(quantity), 'percent of the selling price that selling takes'),
      each: told(z.optional(money), 'fixed sum that each sale takes'),
    }),
  ),
  margin: told(z.optional(quantity), 'percent of the selling price that is to be left over'),
  breakage: told(z.optional(quantity), 'percent of the pieces cast that cannot be sold'),
};
