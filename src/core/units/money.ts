import { Decimal } from 'decimal.js';
import { refuse, type Where } from '../problems/problem.js';
import { currencyDecimals } from './currency.js';
import { plainText, readDecimal } from './number.js';
import { type Amount, gramsOf, parseAmount } from './quantity.js';

/**
 * An exact sum of money. `amount` is a plain decimal string; `currency` is an ISO 4217 code, a sign that several currencies
 * share where no shop says which it is, or null for the shop's own.
 */
export interface Money {
  readonly amount: string;
  readonly currency: string | null;
}

/** What one pack costs and holds. */
export interface Price extends Money {
  readonly pack: Amount;
}

export interface MoneyOptions {
  /** The shop's currency: what a bare number, and a sign several currencies share, stands for. */
  readonly currency?: string;
  /** Where the pack stands, if not where the price does. */
  readonly packWhere?: Where;
}

const MONEY_EXPECTED = 'a price such as “27.50” or “27.50 EUR”';
const PRICE_EXPECTED = 'a price per pack such as “27.50 per 55 lb”, “1.20 EUR/kg” or “4.90 per 500 mL”';
const LONGEST_TEXT = 120;
const LARGEST = new Decimal('1e12');

const SIGNS: ReadonlyMap<string, readonly string[]> = new Map([
  ['€', ['EUR']],
  ['£', ['GBP']],
  ['₹', ['INR']],
  ['₩', ['KRW']],
  ['zł', ['PLN']],
  ['kr', ['SEK', 'NOK', 'DKK', 'ISK']],
  ['¥', ['JPY', 'CNY']],
  ['$', ['USD', 'CAD', 'AUD', 'NZD', 'SGD', 'HKD', 'MXN']],
]);

const SIGN = '(?:[A-Za-z]{3}(?![A-Za-z])|[€£₹₩¥$]|zł|kr\\.?(?![A-Za-z]))';
const LEADING = new RegExp(`^(${SIGN})\\s*`);
const TRAILING = new RegExp(`^\\s*(${SIGN})\\s*`);

/**
 * Reads "27.50", "€3.20", "1,20 EUR", "USD 5". Throws InputProblems: quantity-unreadable, quantity-ambiguous,
 * currency-mixed, field-out-of-range (below zero, or no sum that is paid).
 */
export function parseMoney(input: unknown, where?: Where, options: MoneyOptions = {}): Money {
  const [money, rest] = readMoney(input, MONEY_EXPECTED, where, options);
  if (rest !== '')
    refuse({
      code: 'quantity-unreadable',
      ...(where && { where }),
      found: String(input).slice(0, LONGEST_TEXT),
      expected: MONEY_EXPECTED,
    });
  return money;
}

/** The two fields of a price list's row. */
export interface PriceFields {
  readonly price: unknown;
  /** Absent when it stands behind the price. */
  readonly pack?: unknown;
  readonly currency?: string;
}

/** Reads "27.50 per 55 lb", "1.20 EUR/kg", "€3.20 for 1 L", or a price and a pack that stand apart. */
export function parsePrice(input: string | PriceFields, where?: Where, options: MoneyOptions = {}): Price {
  if (typeof input !== 'string') {
    const named = [options.currency, input.currency === undefined ? undefined : currencyCode(input.currency, where)];
    const currency = oneOf(named.filter((code) => code !== undefined));
    if (currency === undefined)
      refuse({ code: 'currency-mixed', ...(where && { where }), found: input.currency!, expected: options.currency! });
    const own = currency === null ? {} : { currency };
    if (input.pack === undefined) return parsePrice(String(input.price), where, own);
    return { ...parseMoney(input.price, where, own), pack: parsePack(input.pack, options.packWhere ?? where) };
  }
  const [money, rest] = readMoney(input, PRICE_EXPECTED, where, options);
  const pack = /^(?:\/|(?:per|for)\b)\s*(.+)$/i.exec(rest)?.[1];
  if (pack === undefined)
    refuse({ code: 'quantity-unreadable', ...(where && { where }), found: input, expected: PRICE_EXPECTED });
  return { ...money, pack: parsePack(pack, where) };
}

/** A pack is a mass or a volume, with or without the word for its container: "25 kg bag", "kg", "1 L". */
function parsePack(input: unknown, where: Where | undefined): Amount {
  if (typeof input !== 'string' || input.length > LONGEST_TEXT) return parseAmount(input, where, { positive: true });
  const bare = input
    .trim()
    .replace(/\s*-?\s*(?:bags?|sacks?|tubs?|buckets?|pails?|bottles?|jars?|cans?|tins?|packs?|boxes|box)$/i, '');
  const spaced = bare.replace(/(?<=\d)-(?=[a-z])/gi, ' ');
  const counted = /^[-+\d.,]/.test(plainText(spaced)) || spaced.trim() === '' ? spaced : `1 ${spaced}`;
  return parseAmount(counted, where, { positive: true });
}

/** A sign as the list has it: "KR." is "kr". */
const signOf = (word: string): string => word.trim().replace(/\.$/, '').toLowerCase();

/** Checks a currency column's word: three letters, or a sign; one that means one currency becomes its code. */
export function currencyCode(word: string, where?: Where): string {
  const sign = SIGNS.get(signOf(word));
  if (sign !== undefined) return sign.length === 1 ? sign[0]! : signOf(word);
  const code = word.trim().toUpperCase();
  if (/^[A-Z]{3}$/.test(code)) return code;
  const expected = 'a currency code such as EUR, GBP or USD';
  return refuse({ code: 'quantity-unreadable', ...(where && { where }), found: word, expected });
}

function readMoney(
  input: unknown,
  expected: string,
  where: Where | undefined,
  options: MoneyOptions,
): readonly [Money, string] {
  const at = where && { where };
  if (typeof input !== 'string' && typeof input !== 'number')
    refuse({ code: 'field-wrong-type', ...at, found: input === null ? 'nothing' : typeof input, expected });
  const found = String(input).slice(0, LONGEST_TEXT + 1);
  if (found.length > LONGEST_TEXT) refuse({ code: 'quantity-unreadable', ...at, found, expected });
  let text = plainText(found);
  const before = LEADING.exec(text);
  if (before) text = text.slice(before[0].length);
  const number = readDecimal(text);
  if (number.kind === 'ambiguous') {
    const [large, small] = number.readings;
    refuse({ code: 'quantity-ambiguous', ...at, found, expected, hint: `write “${large}” or “${small}”` });
  }
  if (number.kind === 'none') refuse({ code: 'quantity-unreadable', ...at, found, expected });
  const after = TRAILING.exec(number.rest);
  // "5 per kg": "per" has three letters and is no currency.
  const sign = after && !/^(per|for)$/i.test(after[1]!) ? after : null;
  const rest = number.rest.slice(sign?.[0].length ?? 0).trim();
  if (number.value.isNegative() && !number.value.isZero())
    refuse({ code: 'field-out-of-range', ...at, found, expected: `${expected}, 0 or more` });
  if (number.value.gt(LARGEST)) refuse({ code: 'field-out-of-range', ...at, found, expected });
  const words = [before?.[1], sign?.[1]].filter((word) => word !== undefined);
  return [{ amount: number.value.toFixed(), currency: currencyOf(words, found, where, options) }, rest];
}

function currencyOf(
  words: readonly string[],
  found: string,
  where: Where | undefined,
  options: MoneyOptions,
): string | null {
  const shop = options.currency;
  const codes = words.map((word) => currencyCode(word, where));
  const one = oneOf(shop === undefined ? codes : [...codes, shop]);
  if (one !== undefined) return one;
  return refuse({ code: 'currency-mixed', ...(where && { where }), found, expected: shop ?? 'one currency' });
}

/** What all of these are: one code, which any sign beside it may stand for, or one sign; null of none, undefined of more. */
function oneOf(currencies: readonly string[]): string | null | undefined {
  const all = [...new Set(currencies)];
  const [code, ...others] = all.filter((currency) => !SIGNS.has(currency));
  const signs = all.filter((currency) => SIGNS.has(currency));
  if (code === undefined) return signs.length > 1 ? undefined : (signs[0] ?? null);
  return others.length === 0 && signs.every((sign) => SIGNS.get(sign)!.includes(code)) ? code : undefined;
}

/** The one currency of many prices, a sign where none says more, or null when none names any. Throws currency-mixed with what was found. */
export function oneCurrency(prices: readonly Money[], where?: Where): string | null {
  const codes = [...new Set(prices.map((price) => price.currency).filter((code) => code !== null))];
  const one = oneOf(codes);
  if (one !== undefined) return one;
  const hint = 'put all prices in one currency; exchange rates are not known here';
  return refuse({ code: 'currency-mixed', ...(where && { where }), found: codes.join(', '), hint });
}

/**
 * Money per gram, in the price's currency. A pack sold by volume needs the density in g/cm3; without one this throws
 * material-density-missing.
 */
export function pricePerGram(price: Price, density?: number, where?: Where): number {
  return new Decimal(price.amount).div(gramsOf(price.pack, density, where)).toNumber();
}

/** Signs that stand before their sum. */
const LEADS: ReadonlySet<string> = new Set(['$', '¥']);

/** A sum of money with its currency, rounded half up to the currency's smallest coin or to `digits` decimals. */
export function printMoney(amount: string | number, currency: string | null, digits?: number): string {
  const decimals = digits ?? currencyDecimals(currency);
  const figure = new Decimal(amount).toFixed(decimals, Decimal.ROUND_HALF_UP);
  if (currency === null) return figure;
  return LEADS.has(currency) ? `${currency}${figure}` : `${figure} ${currency}`;
}
