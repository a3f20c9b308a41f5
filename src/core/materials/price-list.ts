import { gather } from '../problems/gather.js';
import { type Problem, refuse, type Where } from '../problems/problem.js';
import { type ColumnRule, type CsvRow, type CsvTable, readCsv } from '../reading/csv.js';
import { type MoneyOptions, oneCurrency, type Price, parsePrice, pricePerGram } from '../units/money.js';
import { plainText, readNumber } from '../units/number.js';
import { type Amount, gramsOf, parseAmount } from '../units/quantity.js';
import type { Material } from './schema.js';
import { densityAsMeasured, type MaterialTable } from './table.js';

/** One pack of one material, as a shop sells it. */
export interface Offer extends Price {
  readonly material: Material;
  /** The pack in the maker's words. */
  readonly packText: string;
  /** What is on hand, where the list says. */
  readonly inStock?: Amount;
  readonly note?: string;
  readonly where: Where;
}

export interface PriceList {
  readonly file: string;
  /** Null when no row names one: the shop's own. */
  readonly currency: string | null;
  /** Every pack, in the list's order; a material may have several. */
  readonly offers: readonly Offer[];
  /** Warnings and notes; errors are thrown. */
  readonly problems: readonly Problem[];
}

/** A list with more mistakes than this is the wrong file. */
const MOST_PROBLEMS = 100;
const LONGEST_STOCK = 60;

type Column = 'material' | 'pack' | 'price' | 'currency' | 'in stock' | 'note';
type Row = CsvRow<Column>;

export const PRICE_RULES: Readonly<Record<Column, ColumnRule>> = {
  material: { also: ['item', 'product', 'name', 'material id', 'ingredient'], required: true },
  pack: { also: ['pack size', 'size', 'package', 'unit', 'per', 'contents'] },
  price: { also: ['cost', 'pack price', 'price per pack'], required: true },
  currency: { also: ['cur', 'curr'] },
  'in stock': { also: ['stock', 'on hand', 'have', 'on the shelf'] },
  note: { also: ['notes', 'remark', 'remarks', 'comment', 'comments'] },
};

/**
 * Reads a maker's price list (CSV) against the materials table. The pack may stand in its own column or behind the
 * price ("27.50 per 55 lb").
 *
 * Throws InputProblems with every problem of every row: csv-malformed, field-missing, material-unknown (with the
 * nearest), price-duplicate, price-free, amount-not-positive, currency-mixed, unit and quantity problems. A price of zero is a
 * warning: it counts as free.
 */
export function readPrices(text: string, file: string, table: MaterialTable, options: MoneyOptions = {}): PriceList {
  const csv = readCsv(text, file, PRICE_RULES);
  const noted = gather();
  for (const problem of csv.problems) noted.add(problem);
  const offers: Offer[] = [];
  for (const row of csv.rows) {
    const offer = readOffer(row, csv, table, options, noted.add);
    if (offer) offers.push(offer);
    if (noted.problems.length >= MOST_PROBLEMS) break;
  }
  for (const problem of duplicates(offers)) noted.add(problem);
  const currency = noted.attempt(() => oneCurrency(offers, { file })) ?? null;
  return { file, currency, offers, problems: noted.finish() };
}

function readOffer(
  row: Row,
  csv: CsvTable<Column>,
  table: MaterialTable,
  options: MoneyOptions,
  note: (problem: Problem) => void,
): Offer | undefined {
  // Each cell is tried on its own, so that a row with two mistakes shows both.
  const cells = gather();
  const { material: word, pack, currency } = row.cells;
  const material = cells.attempt(() => table.get(needed(row, csv, 'material'), csv.where(row, 'material')));
  const where = csv.where(row, 'price');
  const read = cells.attempt((): Price => {
    const written = needed(row, csv, 'price');
    const fields = { price: written, ...(pack !== '' && { pack }), ...(currency !== '' && { currency }) };
    return parsePrice(fields, where, { ...options, packWhere: csv.where(row, 'pack') });
  });
  const inStock = cells.attempt(() => readStock(row.cells['in stock'], read?.pack, csv.where(row, 'in stock')));
  for (const problem of cells.problems) note(problem);
  if (!material || !read || cells.problems.length > 0) return undefined;
  if (Number(read.amount) === 0)
    note({
      code: 'price-free',
      severity: 'warning',
      where,
      found: row.cells.price,
      hint: `if ${word} is not free, write what a pack of it costs, or take the row out`,
    });
  return {
    ...read,
    material,
    packText: pack === '' ? row.cells.price : pack,
    where: csv.where(row),
    ...(inStock && { inStock }),
    ...(row.cells.note !== '' && { note: row.cells.note }),
  };
}

function needed(row: Row, csv: CsvTable<Column>, column: Column): string {
  const cell = row.cells[column];
  return cell === '' ? refuse({ code: 'field-missing', where: csv.where(row, column) }) : cell;
}

const PACKS = /^\s*(?:packs?|bags?|sacks?|tubs?|buckets?|bottles?|jars?|tins?|cans?|boxes|box)\s*$/i;

/** "3 packs", "1/2 bag" or an amount; a bare number is refused because it could be either. */
function readStock(text: string, pack: Amount | undefined, where: Where): Amount | undefined {
  if (text === '' || text === '-') return undefined;
  if (text.length > LONGEST_STOCK) return parseAmount(text, where);
  const number = readNumber(plainText(text));
  if (number.kind === 'number' && PACKS.test(number.rest) && pack) {
    const count = number.value.toNumber();
    if (count < 0) refuse({ code: 'field-out-of-range', where, found: text, expected: '0 packs or more' });
    return 'grams' in pack ? { grams: count * pack.grams } : { cm3: count * pack.cm3 };
  }
  if (number.kind === 'number' && number.value.isZero()) return { grams: 0 };
  if (number.kind === 'number' && number.rest.trim() === '')
    refuse({ code: 'quantity-unreadable', where, found: text, expected: 'an amount such as “2 packs” or “500 g”' });
  return parseAmount(text, where);
}

function duplicates(offers: readonly Offer[]): readonly Problem[] {
  const seen = new Map<string, Offer>();
  return offers.flatMap((offer): readonly Problem[] => {
    const key = `${offer.material.id} ${JSON.stringify(offer.pack)}`;
    const earlier = seen.get(key);
    if (!earlier) {
      seen.set(key, offer);
      return [];
    }
    const found = `${offer.material.id}, ${offer.packText}`;
    const hint = `line ${earlier.where.line} has the same pack; keep one of them`;
    return [{ code: 'price-duplicate', severity: 'error', where: offer.where, found, hint }];
  });
}

/** Grams of a material in an amount; a volume goes by the density as it is measured out. */
export const gramsOfMaterial = (amount: Amount, material: Material, where?: Where): number =>
  gramsOf(amount, densityAsMeasured(material), where);

export interface BestOffer {
  readonly offer: Offer;
  /** In the list's currency. */
  readonly perGram: number;
}

/** The cheapest pack per gram of each material that has a price. Throws material-density-missing for packs by volume. */
export function cheapestPerGram(list: PriceList): ReadonlyMap<string, BestOffer> {
  const best = new Map<string, BestOffer>();
  const noted = gather();
  for (const offer of list.offers) {
    const perGram = noted.attempt(() => pricePerGram(offer, densityAsMeasured(offer.material), offer.where));
    if (perGram === undefined) continue;
    const earlier = best.get(offer.material.id);
    if (!earlier || perGram < earlier.perGram) best.set(offer.material.id, { offer, perGram });
  }
  noted.finish();
  return best;
}

/** Grams on hand by material id; materials whose stock the list does not give are absent. */
export function stockOf(list: PriceList): ReadonlyMap<string, number> {
  const stock = new Map<string, number>();
  for (const { material, inStock, where } of list.offers) {
    if (inStock) stock.set(material.id, (stock.get(material.id) ?? 0) + gramsOfMaterial(inStock, material, where));
  }
  return stock;
}
