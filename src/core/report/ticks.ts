import type { Quantity } from '../blend/property.js';
import { currencyDecimals } from '../units/currency.js';
import { printMoney } from '../units/money.js';
import { printQuantity, type UnitSystem } from '../units/print.js';
import { convert } from '../units/quantity.js';
import type { QuantityKind } from '../units/vocabulary.js';
import type { Wording } from './print.js';

/** A place on an axis: its value in core units and what is written at it. */
export interface Tick {
  readonly value: number;
  readonly text: string;
}

/** What an axis of one quantity is divided in. */
interface Ladder {
  readonly kind: QuantityKind;
  /** The unit that properties of this quantity are kept in, and the one that is counted in. */
  readonly core: string;
  readonly unit: Readonly<Record<UnitSystem, string>>;
  /** From 1 up, where a larger unit is not ten or a hundred of it: steps up to that unit, which goes on by tens. */
  readonly steps?: Readonly<Record<UnitSystem, { readonly small: readonly number[]; readonly large: number } | null>>;
}

const both = <T>(one: T): Readonly<Record<UnitSystem, T>> => ({ metric: one, us: one });

/** Money, ratios and percentages are plain numbers, and have none. */
const LADDERS: Partial<Record<Quantity, Ladder>> = {
  mass: {
    kind: 'mass',
    core: 'g',
    unit: { metric: 'g', us: 'oz' },
    steps: { metric: null, us: { small: [1, 2, 4, 8], large: 16 } },
  },
  volume: {
    kind: 'volume',
    core: 'cm3',
    unit: { metric: 'mL', us: 'fl oz' },
    steps: { metric: null, us: { small: [1, 2, 4, 8, 16, 32, 64], large: 128 } },
  },
  density: { kind: 'density', core: 'g/cm3', unit: { metric: 'g/cm3', us: 'lb/ft3' } },
  'set-time': {
    kind: 'setTime',
    core: 'min',
    unit: both('min'),
    steps: both({ small: [1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 360, 720], large: 1440 }),
  },
  days: { kind: 'time', core: 'days', unit: both('h'), steps: both({ small: [1, 2, 3, 6, 12], large: 24 }) },
  strength: { kind: 'pressure', core: 'MPa', unit: { metric: 'MPa', us: 'psi' } },
  temperature: { kind: 'temperature', core: '°C', unit: { metric: '°C', us: '°F' } },
};

/** 1, 2 and 5 of every power of ten from this one's to the next. */
const decades = (near: number): number[] => {
  const ten = 10 ** Math.floor(Math.log10(near));
  return [ten, 2 * ten, 5 * ten, 10 * ten];
};

type Steps = { readonly small: readonly number[]; readonly large: number } | null;

/** Steps near one of this size that a maker counts in. */
function stepsNear(size: number, steps: Steps): readonly number[] {
  if (steps === null || size < 1) return decades(size);
  return size < steps.large ? [...steps.small, steps.large] : decades(size / steps.large).map((n) => n * steps.large);
}

const nearestStep = (size: number, steps: Steps): number =>
  stepsNear(size, steps).reduce((best, s) =>
    Math.abs(Math.log(s / size)) < Math.abs(Math.log(best / size)) ? s : best,
  );

/** Free of the dust that multiplying by a tenth leaves. */
const clean = (value: number): number => Number(value.toPrecision(12));

const even = (low: number, high: number, step: number): number[] => {
  const first = Math.ceil(low / step - 1e-9);
  const count = Math.floor(high / step + 1e-9) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_v, i) => clean((first + i) * step));
};

/** Round values over several powers of ten, thinned evenly to about so many. */
function rising(low: number, high: number, count: number, steps: Steps): number[] {
  const all = new Set<number>();
  for (let size = low; size <= high * 10; size *= 2) for (const s of stepsNear(size, steps)) all.add(clean(s));
  const within = [...all].filter((v) => v >= low && v <= high).sort((a, b) => a - b);
  const every = Math.max(1, Math.ceil(within.length / count));
  return within.filter((_v, i) => i % every === 0);
}

const decimalsOf = (step: number): number => Math.max(0, -Math.floor(Math.log10(step) + 1e-9));

/**
 * Ticks between two values of a quantity (core units), about `count` of them, at values that are round in the units they
 * are printed in: 2000 psi and not 1987 psi, 1 h 30 min and not 1 h 23 min. What is written at a tick is its exact place.
 */
export function roundTicks(
  quantity: Quantity,
  [low, high]: readonly [number, number],
  count: number,
  wording: Wording,
  logarithmic = false,
): readonly Tick[] {
  const { system, currency } = wording;
  const ladder = LADDERS[quantity];
  const unit = ladder?.unit[system];
  const toUnit = (v: number): number => (ladder === undefined ? v : convert(v, ladder.core, unit!));
  const toCore = (v: number): number => (ladder === undefined ? v : convert(v, unit!, ladder.core));
  const [from, to] = [toUnit(low), toUnit(high)];
  if (!(to > from)) return [];
  const steps = ladder?.steps?.[system] ?? null;
  const step = nearestStep((to - from) / count, steps);
  const say = (value: number, decimals: number): string => {
    if (ladder !== undefined) {
      const exact = convert(value, unit!, coreOf(ladder));
      return printQuantity(exact, ladder.kind, { system, ...(decimals > 0 ? { digits: decimals } : {}) });
    }
    if (quantity === 'money') return printMoney(value, currency, Math.max(currencyDecimals(currency), decimals));
    return `${value.toFixed(decimals)}${quantity === 'percent' ? ' %' : ''}`;
  };
  if (logarithmic) {
    return rising(from, to, count, steps).map((v) => ({ value: toCore(v), text: say(v, decimalsOf(v)) }));
  }
  return even(from, to, step).map((v) => ({ value: toCore(v), text: say(v, decimalsOf(step)) }));
}

/** The unit that printQuantity takes a value of this kind in. */
const coreOf = ({ kind, core }: Ladder): string => (kind === 'time' ? 'h' : core);
