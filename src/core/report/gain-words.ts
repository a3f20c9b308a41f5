import { propertyById } from '../blend/properties/index.js';
import type { Quantity } from '../blend/property.js';
import { printMoney } from '../units/money.js';
import type { UnitSystem } from '../units/print.js';
import { printDifference, significant, type Wording } from './print.js';
import { perCoreUnit, shownUnit } from './shown-unit.js';

const BETTER: Readonly<Record<string, string>> = {
  cheapest: 'cheaper',
  lightest: 'lighter',
  heaviest: 'heavier',
  strongest: 'stronger',
  quickest: 'quicker',
};

/** Digits of a gain: it is a slope, good for little more. */
const DIGITS = 2;

/** A difference in a property, to two figures; money below the smallest coin too. */
export function fineDifference(property: string, difference: number, wording: Wording): string {
  if (propertyById(property)!.quantity !== 'money') return printDifference(property, difference, wording);
  const digits = difference === 0 ? 2 : Math.max(2, DIGITS - 1 - Math.floor(Math.log10(Math.abs(difference))));
  return printMoney(Number(difference.toFixed(12)), wording.currency, Math.min(6, digits));
}

/** "0.6 % cheaper (0.0021 EUR)": a gain in the objective. */
export function gainWords(aim: string, property: string, gain: number, whole: number | null, wording: Wording): string {
  const share = whole === null || whole === 0 ? '' : `${significant((100 * gain) / Math.abs(whole), DIGITS)} % `;
  return `${share}${BETTER[aim] ?? 'better'} (${fineDifference(property, gain, wording)})`;
}

const MINUTES = [1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 1440] as const;

/** A step of a limit that is round as it is shown, about a tenth of it: 1 MPa of 15 MPa, 100 g of 1350 g, 5 psi of 58 psi. */
export function stepOf(quantity: Quantity, limit: number, system: UnitSystem): number {
  const per = perCoreUnit(quantity, limit, system);
  const most = (Math.abs(limit) * per) / 10;
  if (quantity === 'set-time') return [...MINUTES].reverse().find((m) => m <= most) ?? 1;
  if (most === 0) return 1;
  const ten = 10 ** Math.floor(Math.log10(most));
  return ([5, 2, 1].map((n) => n * ten).find((n) => n <= most * (1 + 1e-9)) ?? ten) / per;
}

/** Of a unit of the last figure. */
const HAIR = 1e-9;

/** A step in the property's unit: "1 MPa", "100 g". */
export const stepWords = (property: string, step: number, wording: Wording): string =>
  fineDifference(property, step, wording);

/** A property as it is shown, for limits that are round there. */
export interface ShownAs {
  readonly property: string;
  readonly system: UnitSystem;
  /** Figures of the limit: 3. */
  readonly digits?: number;
}

/** A reachable value rounded to three figures on the side that can be kept: of the core unit, or as it is shown. */
export function reachableLimit(side: 'min' | 'max', value: number, shown?: ShownAs): number {
  const { digits = 3 } = shown ?? {};
  const { to, from } = shownUnit(
    shown === undefined ? 'ratio' : propertyById(shown.property)!.quantity,
    value,
    shown?.system ?? 'metric',
  );
  const size = to(value);
  if (size === 0) return value;
  const unit = 10 ** (Math.floor(Math.log10(Math.abs(size))) - digits + 1);
  // What is round already stays, whatever arithmetic made of it.
  const rounded = (side === 'max' ? Math.ceil(size / unit - HAIR) : Math.floor(size / unit + HAIR)) * unit;
  return from(Number(rounded.toPrecision(digits)));
}
