import { Decimal } from 'decimal.js';

/** What a number in a maker's text turned out to be; `ambiguous` carries both readings. */
export type NumberReading =
  | { readonly kind: 'number'; readonly value: Decimal; readonly rest: string }
  | { readonly kind: 'ambiguous'; readonly readings: readonly [string, string] }
  | { readonly kind: 'none' };

const VULGAR: ReadonlyMap<string, string> = new Map([
  ['½', '1/2'],
  ['⅓', '1/3'],
  ['⅔', '2/3'],
  ['¼', '1/4'],
  ['¾', '3/4'],
  ['⅕', '1/5'],
  ['⅖', '2/5'],
  ['⅗', '3/5'],
  ['⅘', '4/5'],
  ['⅙', '1/6'],
  ['⅚', '5/6'],
  ['⅛', '1/8'],
  ['⅜', '3/8'],
  ['⅝', '5/8'],
  ['⅞', '7/8'],
]);

/** Typographic spaces, minus signs and fractions in the plain form the grammar reads. */
export function plainText(text: string): string {
  return text
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR.get(sign)} `)
    .replace(/[\u00a0\u2007\u2009\u202f]/g, ' ')
    .replace(/\u2212/g, '-')
    .replace(/\u2044/g, '/')
    .replace(/℃/g, '°C')
    .replace(/℉/g, '°F')
    .replace(/º/g, '°')
    .trim();
}

const NONE: NumberReading = { kind: 'none' };

/** "1 1/2", "1-1/2", "3/4": whole part, numerator, denominator. */
const FRACTION = /^([+-]?)\s*(?:(\d{1,9})(?:\s+|-))?(\d{1,9})\s*\/\s*(\d{1,9})(?![\d.,])/;

/** Digits with separators inside, then perhaps an exponent. */
const DECIMAL = /^([+-]?)\s*((?:\d|[.,](?=\d))(?:[\d.,]|['’ ](?=\d{3}(?!\d)))*)(?:[eE]([+-]?\d{1,4})(?![\d.,]))?/;

/**
 * Reads the number a text begins with: "1.5", "1,5", "1 1/2", "½", "1,250.5", "1.250,5", "1 250", "2e-3".
 *
 * A single comma before exactly three digits ("1,234") is a thousand to one maker and a decimal to another, so it is
 * reported as ambiguous. A point before three digits is a decimal point, because files and scales write it so.
 */
export function readNumber(text: string): NumberReading {
  const fraction = FRACTION.exec(text);
  if (!fraction) return readDecimal(text);
  const [all, sign = '', whole, over = '', under = ''] = fraction;
  const denominator = new Decimal(under);
  if (denominator.isZero() || (whole !== undefined && new Decimal(over).gte(denominator))) return NONE;
  const size = new Decimal(over).div(denominator).plus(whole ?? 0);
  return { kind: 'number', value: sign === '-' ? size.neg() : size, rest: text.slice(all.length) };
}

/** As readNumber, but a slash ends the number: prices ("3/kg") are never fractions. */
export function readDecimal(text: string): NumberReading {
  const decimal = DECIMAL.exec(text);
  if (!decimal) return NONE;
  const [all, sign = '', body = '', exponent] = decimal;
  const digits = pointForm(body);
  if (digits === undefined) return NONE;
  if (typeof digits !== 'string') return { kind: 'ambiguous', readings: digits };
  const value = new Decimal(`${sign}${digits}${exponent === undefined ? '' : `e${exponent}`}`);
  return { kind: 'number', value, rest: text.slice(all.length) };
}

const GROUPED = /^[1-9]\d{0,2}([.,'’ ])\d{3}(?:\1\d{3})*$/;

/** The body with a decimal point and no grouping; both readings if there are two; undefined if it is no number. */
function pointForm(body: string): string | readonly [string, string] | undefined {
  const marks = body.replace(/\d/g, '');
  if (marks === '') return body;
  const last = marks.charAt(marks.length - 1);
  const at = body.lastIndexOf(last);
  const whole = body.slice(0, at);
  const part = body.slice(at + 1);
  const asDecimal = `${whole || '0'}.${part}`;

  if (marks === '.') return part === '' ? undefined : asDecimal;
  if (marks === ',') {
    if (part === '') return undefined;
    return GROUPED.test(body) ? [`${whole}${part}`, asDecimal] : asDecimal;
  }
  if (GROUPED.test(body)) return body.replace(/\D/g, '');
  // Grouping before, one decimal mark after: 1,234.5 or 1.234,5 or 1 234,5.
  if ((last === '.' || last === ',') && !whole.includes(last) && GROUPED.test(whole) && part !== '')
    return `${whole.replace(/\D/g, '')}.${part}`;
  return undefined;
}
