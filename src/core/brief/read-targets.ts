import { propertiesWith } from '../blend/properties/index.js';
import type { Quantity } from '../blend/property.js';
import type { Target } from '../blend/target.js';
import type { Gather } from '../problems/gather.js';
import type { Where } from '../problems/problem.js';
import { parseMoney } from '../units/money.js';
import { parseQuantity } from '../units/quantity.js';
import type { QuantityKind } from '../units/vocabulary.js';

const KIND_OF: Readonly<Record<Exclude<Quantity, 'money'>, QuantityKind>> = {
  mass: 'mass',
  volume: 'volume',
  density: 'density',
  ratio: 'fraction',
  percent: 'fraction',
  'set-time': 'setTime',
  days: 'time',
  strength: 'pressure',
  temperature: 'temperature',
};

/** One side of a target in the property's core unit. Ratios may be bare; percents may be bare percents. */
export function readLimit(text: unknown, quantity: Quantity, currency: string | null, where: Where): number {
  if (quantity === 'money') {
    return Number(parseMoney(text, where, currency === null ? {} : { currency }).amount);
  }
  const kind = KIND_OF[quantity];
  if (quantity === 'ratio') return parseQuantity(text, kind, where, { assume: 'fraction' });
  if (quantity === 'percent') return 100 * parseQuantity(text, kind, where, { assume: '%' });
  if (quantity === 'days') return parseQuantity(text, kind, where) / 24;
  return parseQuantity(text, kind, where);
}

/** The windows of a brief. Notes `target-contradicts` where a window is upside down, `field-missing` where it is empty. */
export function readTargets(
  written: Readonly<Record<string, { min?: unknown; max?: unknown } | undefined>>,
  currency: string | null,
  gather: Gather,
  at: (path: string) => Where,
): Target[] {
  return propertiesWith(Object.keys(written), []).flatMap((property): Target[] => {
    const window = written[property.id];
    if (window === undefined) return [];
    const path = `targets.${property.id}`;
    const side = (name: 'min' | 'max'): number | undefined =>
      window[name] === undefined
        ? undefined
        : gather.attempt(() => readLimit(window[name], property.quantity, currency, at(`${path}.${name}`)));
    const [min, max] = [side('min'), side('max')];
    if (window.min === undefined && window.max === undefined) {
      gather.add({ code: 'field-missing', severity: 'error', where: at(path), expected: 'min, max or both' });
      return [];
    }
    if (min !== undefined && max !== undefined && min > max) {
      gather.add({
        code: 'target-contradicts',
        severity: 'error',
        where: at(path),
        found: `min ${String(window.min)}, max ${String(window.max)}`,
        expected: 'a min that is not above the max',
      });
      return [];
    }
    return [
      { property: property.id, path, ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) },
    ];
  });
}
