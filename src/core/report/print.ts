import { propertyById } from '../blend/properties/index.js';
import type { Quantity } from '../blend/property.js';
import { printForetold, printStrength } from '../units/foretold.js';
import { printMoney } from '../units/money.js';
import { printQuantity, type UnitSystem } from '../units/print.js';
import { convert } from '../units/quantity.js';

export interface Wording {
  readonly system: UnitSystem;
  readonly currency: string | null;
}

/** Rounds to significant digits, so that no more is printed than is known. */
export function significant(value: number, digits: number): number {
  if (value === 0 || !Number.isFinite(value)) return value;
  return Number(value.toPrecision(digits));
}

const plain = (value: number, digits: number): string => {
  const rounded = significant(value, digits);
  const decimals = rounded === 0 ? 0 : Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(rounded))));
  return rounded.toFixed(Math.min(6, decimals));
};

/** Minutes to two figures up to two hours, then to five minutes, then to a quarter and to half an hour. */
function wholeMinutes(minutes: number, digits: number): number {
  if (minutes < 120) return significant(minutes, digits);
  const step = minutes < 6 * 60 ? 5 : minutes < 12 * 60 ? 15 : 30;
  return Math.round(minutes / step) * step;
}

/** A foretold time of setting or demoulding [min] in words: "35 min", "22 h 30 min", "2.5 days", "over a year". */
export const printMinutes = (minutes: number, digits = 2): string =>
  printForetold(wholeMinutes(minutes, digits), 'setTime');

const decimalsOf = (figure: string): number => /\.(\d+)/.exec(figure)?.[1]?.length ?? 0;

/** Coins, or as many decimals as so many figures take: makers compare pieces by parts of a coin. */
function moneyWords(value: number, digits: number, currency: string | null): string {
  const fine = String(Number(plain(value, digits)));
  return printMoney(
    Number(value.toFixed(6)),
    currency,
    Math.max(decimalsOf(printMoney(0, currency)), decimalsOf(fine)),
  );
}

/** A number of one quantity in words a maker reads: "245 g", "0.45", "12 %", "35 min", "3.20 EUR". */
export function printAs(value: number, quantity: Quantity, digits: number, wording: Wording): string {
  const { system, currency } = wording;
  const known = significant(value, digits);
  switch (quantity) {
    case 'ratio':
      return plain(value, digits);
    case 'percent':
      return `${plain(value, digits)} %`;
    case 'money':
      return moneyWords(value, digits, currency);
    case 'mass':
      return printQuantity(known, 'mass', { system });
    case 'volume':
      return printQuantity(known, 'volume', { system });
    case 'density':
      return printQuantity(known, 'density', { system });
    case 'set-time':
      return printMinutes(value, digits);
    case 'days':
      return printForetold(24 * known, 'time');
    case 'strength':
      return printStrength(value, digits, system);
    case 'temperature':
      return printQuantity(Math.round(value), 'temperature', { system, digits: 0 });
  }
}

/** A property's value in words; "none" for what the blend does not have. */
export function printProperty(id: string, value: number | null, wording: Wording): string {
  const property = propertyById(id);
  if (value === null || property === undefined) return '–';
  return printAs(value, property.quantity, property.digits, wording);
}

/** Figures of a limit: it is the maker's own, so more than a prediction is good for. */
const LIMIT_DIGITS = 4;

/** A limit as a maker would write it: "0.5", "5 %", "2 h 3 min", "0.40 EUR"; no zeros behind it but a coin's. */
export function printLimit(value: number, quantity: Quantity, wording: Wording): string {
  const { system, currency } = wording;
  const bare = String(Number(plain(value, LIMIT_DIGITS)));
  switch (quantity) {
    case 'ratio':
      return bare;
    case 'percent':
      return `${bare} %`;
    case 'money':
      return moneyWords(value, 3, currency);
    // Limits are not rounded as predictions are: that would move them.
    case 'set-time':
      return printQuantity(significant(value, LIMIT_DIGITS), 'setTime', { system });
    case 'days':
      return printQuantity(24 * significant(value, LIMIT_DIGITS), 'time', { system });
    case 'temperature':
      return printQuantity(significant(value, LIMIT_DIGITS), 'temperature', { system });
    // In the maker's own unit: 3000 psi rounded in MPa would come back as 2999.
    case 'strength':
      if (system === 'us') return `${Number(plain(convert(value, 'MPa', 'psi'), LIMIT_DIGITS))} psi`;
      return printQuantity(significant(value, LIMIT_DIGITS), 'pressure', { system });
    case 'density':
      if (system === 'us') return `${Number(plain(convert(value, 'g/cm3', 'lb/ft3'), LIMIT_DIGITS))} lb/ft3`;
      return printAs(value, quantity, LIMIT_DIGITS, wording);
    default:
      return printAs(value, quantity, LIMIT_DIGITS, wording);
  }
}

/** "at most 250 g", "at least 10 min", "0.9 to 1.1". */
export function printWindow(id: string, min: number | null, max: number | null, wording: Wording): string {
  const property = propertyById(id)!;
  const say = (v: number) => printLimit(v, property.quantity, wording);
  if (min !== null && max !== null) return min === max ? `just ${say(min)}` : `${say(min)} to ${say(max)}`;
  if (max !== null) return `at most ${say(max)}`;
  return min === null ? 'any' : `at least ${say(min)}`;
}

/** Differences of temperature have no offset; all else prints like the property itself. */
export function printDifference(id: string, difference: number, wording: Wording): string {
  const property = propertyById(id)!;
  if (property.quantity === 'temperature') {
    return wording.system === 'us' ? `${plain(difference * 1.8, 2)} °F` : `${plain(difference, 2)} °C`;
  }
  return printAs(difference, property.quantity, 2, wording);
}

/** A price by weight: "0.36 EUR per kg", or per pound. */
export function printPriceByMass(perGram: number, { system, currency }: Wording): string {
  const unit = system === 'us' ? 'lb' : 'kg';
  return `${printMoney(Number((perGram * convert(1, unit, 'g')).toFixed(6)), currency)} per ${unit}`;
}
