import { propertyById } from '../blend/properties/index.js';
import type { Quantity } from '../blend/property.js';
import { printForetold, printStrength } from '../units/foretold.js';
import { printMoney } from '../units/money.js';
import { printQuantity, type UnitSystem } from '../units/print.js';
import { convert } from '../units/quantity.js';
import { perCoreUnit, SHOWN_KINDS, shownUnit } from './shown-unit.js';

export interface Wording {
  readonly system: UnitSystem;
  readonly currency: string | null;
}

/** Rounds to significant digits, so that no more is printed than is known. */
export function significant(value: number, digits: number): number {
  if (value === 0 || !Number.isFinite(value)) return value;
  return Number(value.toPrecision(digits));
}

/** The same by the figures of the unit that a property's value is shown in. */
export function significantShown(value: number, digits: number, quantity: Quantity, system: UnitSystem): number {
  const { to, from } = shownUnit(quantity, value, system);
  return from(significant(to(value), digits));
}

const plain = (value: number, digits: number): string => {
  const rounded = significant(value, digits);
  const decimals = rounded === 0 ? 0 : Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(rounded))));
  const text = rounded.toFixed(Math.min(6, decimals));
  return Number(text) === 0 ? '0' : text;
};

/** Minutes that foretold times are told to: five beyond two hours, then a quarter and half an hour; null: by figures. */
export const stepOfMinutes = (minutes: number): number | null =>
  minutes < 120 ? null : minutes < 6 * 60 ? 5 : minutes < 12 * 60 ? 15 : 30;

function wholeMinutes(minutes: number, digits: number): number {
  const step = stepOfMinutes(minutes);
  return step === null ? significant(minutes, digits) : Math.round(minutes / step) * step;
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
  switch (quantity) {
    case 'ratio':
      return plain(value, digits);
    case 'percent':
      return `${plain(value, digits)} %`;
    case 'money':
      return moneyWords(value, digits, currency);
    case 'set-time':
      return printMinutes(value, digits);
    case 'days':
      return printForetold(24 * significant(value, digits), 'time');
    case 'strength':
      return printStrength(value, digits, system);
    case 'temperature':
      return printQuantity(Math.round(value), 'temperature', { system, digits: 0 });
    // 0.7 oz would be 0.705 oz by way of 20 g.
    default:
      return printQuantity(significantShown(value, digits, quantity, system), SHOWN_KINDS[quantity]!, { system });
  }
}

/** Beyond this there are next to no grains, and a figure would say nothing. */
const MOST_TOLD: Readonly<Record<string, number>> = { 'paste-to-voids': 100 };

/** A property's value in words; "none" for what the blend does not have. */
export function printProperty(id: string, value: number | null, wording: Wording): string {
  const property = propertyById(id);
  if (value === null || property === undefined) return '–';
  const most = MOST_TOLD[id] ?? Number.POSITIVE_INFINITY;
  return value > most ? `over ${most}` : printAs(value, property.quantity, property.digits, wording);
}

/** Figures of a limit: it is the maker's own, so more than a prediction is good for. */
export const LIMIT_DIGITS = 4;

/** A limit as a maker would write it: "0.5", "5 %", "2 h 3 min", "0.40 EUR"; no zeros behind it but a coin's. Four figures, or more. */
export function printLimit(value: number, quantity: Quantity, wording: Wording, digits = LIMIT_DIGITS): string {
  const { system, currency } = wording;
  const bare = String(Number(plain(value, digits)));
  const figures = digits > LIMIT_DIGITS ? { figures: digits } : {};
  switch (quantity) {
    case 'ratio':
      return bare;
    case 'percent':
      return `${bare} %`;
    case 'money':
      return moneyWords(value, digits > LIMIT_DIGITS ? digits : 3, currency);
    // Limits are not rounded as predictions are: that would move them.
    case 'set-time':
      return printQuantity(significant(value, digits), 'setTime', { system, ...figures });
    case 'days':
      return printQuantity(24 * significant(value, digits), 'time', { system, ...figures });
    case 'temperature':
      return printQuantity(value, 'temperature', { system, figures: digits });
    // In the maker's own unit: 3000 psi rounded in MPa would come back as 2999.
    default:
      return printQuantity(value, SHOWN_KINDS[quantity]!, { system, figures: digits });
  }
}

/** "at most 250 g", "at least 10 min", "0.9 to 1.1", "exactly 400 g". */
export function printWindow(id: string, min: number | null, max: number | null, wording: Wording): string {
  const property = propertyById(id)!;
  const say = (v: number) => printLimit(v, property.quantity, wording);
  if (min !== null && max !== null) return min === max ? `exactly ${say(min)}` : `${say(min)} to ${say(max)}`;
  if (max !== null) return `at most ${say(max)}`;
  return min === null ? 'any' : `at least ${say(min)}`;
}

/** Differences of temperature have no offset; all else prints like the property itself. */
export function printDifference(id: string, difference: number, wording: Wording, digits = 2): string {
  const { quantity } = propertyById(id)!;
  if (quantity !== 'temperature') return printAs(difference, quantity, digits, wording);
  const { system } = wording;
  const shown = difference * perCoreUnit(quantity, difference, system);
  return `${plain(shown, digits)} ${system === 'us' ? '°F' : '°C'}`;
}

/** A price by weight: "0.36 EUR per kg", or per pound. */
export function printPriceByMass(perGram: number, { system, currency }: Wording): string {
  const unit = system === 'us' ? 'lb' : 'kg';
  return `${printMoney(Number((perGram * convert(1, unit, 'g')).toFixed(6)), currency)} per ${unit}`;
}
