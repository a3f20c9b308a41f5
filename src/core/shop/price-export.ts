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

/** One pack of a price list as it is exported. */
export interface PriceRow {
  readonly material: string;
  readonly called: string;
  readonly pack: string;
  /** g in the pack. */
  readonly grams: number;
  /** Plain decimals, as exact as they were read. */
  readonly price: string;
  readonly pricePerKg: string;
  readonly currency: string | null;
  readonly inStock: string | null;
  readonly note: string | null;
}

/** The packs of a price list. Throws InputProblems for a pack by volume of a material of unknown density. */
export const priceRows = (list: PriceList, currency: string | null): readonly PriceRow[] =>
  list.offers.map((offer) => {
    const grams = gramsOfMaterial(offer.pack, offer.material, offer.where);
    return {
      material: offer.material.id,
      called: offer.material.name,
      pack: packWords(offer.packText),
      grams,
      price: offer.amount,
      pricePerKg: new Sum(offer.amount).times(1000).div(grams).toDecimalPlaces(4).toFixed(),
      currency: offer.currency ?? currency,
      inStock: offer.inStock === undefined ? null : stockText(offer.inStock),
      note: offer.note ?? null,
    };
  });

/**
 * A price list in this program's own columns, as CSV that no spreadsheet runs as a formula (reading/csv.ts) and that
 * readPrices reads back. Prices stay as exact as they were read. Throws as priceRows.
 */
export const priceCsv = (list: PriceList, currency: string | null): string =>
  writeCsv(
    priceRows(list, currency).map(({ material, called, pack, price, currency, pricePerKg, inStock, note }) => ({
      material,
      called,
      pack,
      price,
      currency: currency ?? '',
      'price per kg': pricePerKg,
      'in stock': inStock ?? '',
      note: note ?? '',
    })),
    COLUMNS,
  );
