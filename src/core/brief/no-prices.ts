import type { Problem, Where } from '../problems/problem.js';
import type { Shelf } from './shelf.js';

/** That a cost is asked for on a shelf without prices: there is no list, or the one there is has no rows. */
export const noPrices = ({ priceList }: Pick<Shelf, 'priceList'>, where: Where): Problem => ({
  code: 'price-list-missing',
  severity: 'error',
  where,
  ...(priceList === undefined ? {} : { found: `${priceList}, without a row below its first` }),
  expected:
    priceList === undefined
      ? 'a price list: name a shop that has one (shop: …), or the list itself with --prices'
      : 'a row for each material you can buy, with its pack and price',
});
