import { gramsOfMaterial, type PriceList } from '../materials/price-list.js';
import { writeCsv } from '../reading/csv.js';
import { printQuantity } from '../units/print.js';
import type { Amount } from '../units/quantity.js';
import { packWords } from './packs-on-sale.js';
import { Sum } from './sums.js';

const COLUMNS = ['material', 'called', 'pack', 'price', 'currency', 'price per kg', 'in stock', 'note'] as const;

const stockText = (amount: Amount): string =>
  'grams' in amount
    ? printQuantity(amount.grams, 'mass', { digits: 1 })
    : printQuantity(amount.cm3, 'volume', { digits: 1 });

/**
 * A price list in this program's own columns, as CSV that no spreadsheet runs as a formula (reading/csv.ts) and that
 * readPrices reads back. Prices stay as exact as they were read. Throws InputProblems for a pack by volume of a material
 * of unknown density.
 */
export function priceCsv(list: PriceList, currency: string | null): string {
  const rows = list.offers.map((offer) => {
    const grams = gramsOfMaterial(offer.pack, offer.material, offer.where);
    return {
      material: offer.material.id,
      called: offer.material.name,
      pack: packWords(offer.packText),
      price: offer.amount,
      currency: offer.currency ?? currency ?? '',
      'price per kg': new Sum(offer.amount).times(1000).div(grams).toDecimalPlaces(4).toFixed(),
      'in stock': offer.inStock === undefined ? '' : stockText(offer.inStock),
      note: offer.note ?? '',
    };
  });
  return writeCsv(rows, COLUMNS);
}
