import { propertyById } from '../blend/properties/index.js';
import type { Property } from '../blend/property.js';
import type { Verdict } from '../blend/target.js';
import { currencyDecimals } from '../units/currency.js';
import { lastPlace } from '../units/print.js';
import { convert } from '../units/quantity.js';
import { KIND_INFO, type QuantityKind } from '../units/vocabulary.js';
import { LIMIT_DIGITS, printDifference, printLimit, significant, stepOfMinutes, type Wording } from './print.js';
import { perCoreUnit, SHOWN_KINDS } from './shown-unit.js';
import { printTold } from './told-figures.js';

/** The size of the last of so many significant figures; nothing of nothing. */
const lastFigure = (value: number, digits: number): number =>
  value === 0 ? 0 : 10 ** (Math.floor(Math.log10(Math.abs(significant(value, digits)))) - digits + 1);

/** How finely a property's value is told in print, in its core unit: to 1 g in “1120 g”, to 100 psi in “2200 psi”. */
function toldTo(value: number, { quantity, digits }: Property, { system, currency }: Wording): number {
  const printed = (size: number, kind: QuantityKind): number => {
    const last = lastPlace(size, kind, { system });
    return convert(last.size, last.unit, KIND_INFO[kind].core);
  };
  const per = perCoreUnit(quantity, value, system);
  // Figures are counted in the unit that is shown.
  const figure = lastFigure(value * per, digits) / per;
  switch (quantity) {
    case 'ratio':
    case 'percent':
      return figure;
    case 'temperature':
      return 1;
    case 'money':
      return 10 ** -currencyDecimals(currency);
    case 'set-time':
      return Math.max(stepOfMinutes(value) ?? figure, printed(value, 'setTime'));
    case 'days':
      return Math.max(figure, printed(24 * value, 'time') / 24);
    default:
      return Math.max(figure, printed(value, SHOWN_KINDS[quantity]!));
  }
}

/**
 * A distance from a limit, no finer than the value that has it is told: of “2200 psi” no 14 psi are known. What is smaller
 * than that is "less than 100 psi".
 */
export function printMargin(id: string, margin: number, value: number, wording: Wording): string {
  const property = propertyById(id)!;
  const last = toldTo(value, property, wording);
  if (isWithin(margin, last)) return `less than ${printDifference(id, last, wording, 1)}`;
  const told = last === 0 ? margin : last * Math.round(margin / last);
  // Zeros behind the point are kept of these, so they have no more figures than the value has places.
  const bare = ['ratio', 'percent', 'temperature'].includes(property.quantity);
  const decades = Math.floor(Math.log10(told) + HAIR) - Math.floor(Math.log10(last) + HAIR);
  return printDifference(id, told, wording, bare && last > 0 ? Math.min(2, decades + 1) : 2);
}

/** A share of the value that is no miss to speak of, and a figure that reads as nothing. */
const DUST = 1e-5;
const NOTHING = /^0(\.0+)?( |$)/;

/** By how much a limit is missed: a figure, be it finer than the value is told, so that none is missed by nothing. */
export function printMiss(id: string, miss: number, value: number, wording: Wording): string {
  const fine = printDifference(id, miss, wording, 1);
  const within = isWithin(miss, toldTo(value, propertyById(id)!, wording));
  const dust = miss < DUST * Math.abs(value) || NOTHING.test(fine);
  return within && !dust ? fine : printMargin(id, miss, value, wording);
}

/** Relative slack for arithmetic. */
const HAIR = 1e-8;

/** Whether a margin is smaller than the last place of the value; a hair apart. */
const isWithin = (margin: number, last: number): boolean => margin < last * (1 - HAIR);

/** How a target stands: "14 min to spare", "just met", "by 34 MPa" or "by 0.06 g"; empty where nothing is told. */
export function marginWords({ property, value, margin, met }: Omit<Verdict, 'min' | 'max'>, wording: Wording): string {
  if (margin === null || value === null) return '';
  if (!met) return `by ${printMiss(property, -margin, value, wording)}`;
  const just = margin <= 0 || isWithin(margin, toldTo(value, propertyById(property)!, wording));
  return just ? 'just met' : `${printMargin(property, margin, value, wording)} to spare`;
}

/** Figures that a value just past its limit may have, from those of the limit on. */
const MOST_DIGITS = 8;
/** Rounding of it that the miss, told in one figure, bears. */
const MOST_OFF = 0.25;

/** A value that misses a limit by less than is told of it, in as many figures as show that. Null where none do. */
function justPast(value: number, limit: number, of: Property, wording: Wording): string | null {
  // Times go over from one unit to another.
  if (of.quantity === 'set-time' || of.quantity === 'days') return null;
  const per = perCoreUnit(of.quantity, value, wording.system);
  const wanted = significant(limit * per, LIMIT_DIGITS);
  const words = printLimit(limit, of.quantity, wording);
  for (let digits = LIMIT_DIGITS; digits <= MOST_DIGITS; digits++) {
    const shown = significant(value * per, digits);
    const past = Math.sign(shown - wanted) === Math.sign(value - limit);
    const near = Math.abs(shown - value * per) <= MOST_OFF * Math.abs(value - limit) * per;
    const told = printLimit(value, of.quantity, wording, digits);
    if (past && near && told !== words) return told;
  }
  return null;
}

/**
 * A property's value beside its limits, in words. What misses one by less than the value is told has as many figures as show
 * it. Where rounding would carry it across one of them ("2200 psi" for 2170 where at least 2176 are wanted) it has as many
 * figures as a limit. `why`: why there is no value, see `printTold`.
 */
export function printBeside(
  { property, value, min, max }: Pick<Verdict, 'property' | 'value' | 'min' | 'max'>,
  why: string | null,
  wording: Wording,
): string {
  const of = propertyById(property)!;
  const last = value === null ? 0 : toldTo(value, of, wording);
  if (value === null || last === 0) return printTold({ property, value, why }, wording);
  // As both are printed: by the figures of a limit in the unit that is shown.
  const missed = [min, max].find(
    (limit, i) => limit !== null && (i === 0 ? limit - value : value - limit) > HAIR * Math.abs(limit || 1),
  );
  if (missed != null && isWithin(Math.abs(value - missed), last)) {
    const told = justPast(value, missed, of, wording);
    if (told !== null) return told;
  }
  const printed = (size: number): number =>
    significant(size * perCoreUnit(of.quantity, value, wording.system), LIMIT_DIGITS);
  const shown = printed(last * Math.round(value / last));
  const carried = [min, max].some((limit) => {
    if (limit === null) return false;
    const side = printed(limit);
    const above = (value - limit) / Math.abs(limit || 1);
    return (above <= HAIR && shown > side) || (above >= -HAIR && shown < side);
  });
  return carried ? printLimit(value, of.quantity, wording) : printTold({ property, value, why }, wording);
}
