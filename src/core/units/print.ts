import { Decimal } from 'decimal.js';
import { convert } from './quantity.js';
import { KIND_INFO, type QuantityKind } from './vocabulary.js';

export type UnitSystem = 'metric' | 'us';

export interface PrintOptions {
  /** Default metric. */
  readonly system?: UnitSystem;
  /** Decimals of the last printed unit, zeros kept. Default: three figures or a little more, zeros dropped. */
  readonly digits?: number;
  /** Figures kept where that is more than the usual ones, zeros dropped. */
  readonly figures?: number;
  /**
   * Of a mass: what a scale can tell [g]. Decimals that show it are kept, zeros too unless figures are asked for besides,
   * and pounds have their ounces however many there are.
   */
  readonly step?: number;
}

/** A way to write a quantity: one unit, or a large and a small one ("2 lb 3.5 oz"). */
interface Form {
  /** Used for sizes below this. */
  readonly below: number;
  readonly unit: string;
  /** Words of the vocabulary, largest first. */
  readonly units: readonly [string] | readonly [string, string];
  /** Figures kept by default; 3 when absent. Bags keep 4, so that 24.95 kg is not 24.9. */
  readonly figures?: number;
}

const one = (unit: string, figures = 3): readonly Form[] => [
  { below: Number.POSITIVE_INFINITY, unit, units: [unit], figures },
];

const TIME: readonly Form[] = [
  { below: 1, unit: 'h', units: ['min'] },
  { below: 48, unit: 'h', units: ['h'] },
  ...one('days'),
];
const SET_TIME: readonly Form[] = [
  { below: 120, unit: 'min', units: ['min'] },
  { below: 48, unit: 'h', units: ['h', 'min'] },
  ...one('days'),
];

const FORMS: Readonly<Record<QuantityKind, Readonly<Record<UnitSystem, readonly Form[]>>>> = {
  mass: {
    // Bench scales read grams; kilograms are for bags.
    metric: [{ below: 10, unit: 'kg', units: ['g'] }, ...one('kg', 4)],
    us: [{ below: 1, unit: 'lb', units: ['oz'] }, { below: 50, unit: 'lb', units: ['lb', 'oz'] }, ...one('lb', 4)],
  },
  volume: {
    metric: [{ below: 10, unit: 'L', units: ['mL'] }, ...one('L', 4)],
    us: [{ below: 1, unit: 'gal', units: ['fl oz'] }, ...one('gal', 4)],
  },
  length: {
    metric: [{ below: 1, unit: 'cm', units: ['mm'] }, { below: 200, unit: 'cm', units: ['cm'] }, ...one('m', 4)],
    us: one('in'),
  },
  time: { metric: TIME, us: TIME },
  setTime: { metric: SET_TIME, us: SET_TIME },
  temperature: { metric: one('°C'), us: one('°F') },
  fraction: { metric: one('%'), us: one('%') },
  density: { metric: one('g/cm3'), us: one('lb/ft3') },
  pressure: { metric: one('MPa'), us: one('psi') },
};

/** As scales show it. */
const WEIGHED: Readonly<Record<UnitSystem, readonly Form[]>> = {
  metric: FORMS.mass.metric,
  us: [
    { below: 1, unit: 'lb', units: ['oz'] },
    { below: Number.POSITIVE_INFINITY, unit: 'lb', units: ['lb', 'oz'] },
  ],
};

/** Units that a value of one kind is printed in, or compared with on the way: one is converted into another of its set. */
export const printedTogether = (): readonly ReadonlySet<string>[] =>
  Object.values(FORMS)
    .flatMap((systems) => Object.values(systems))
    .map((forms) => new Set(forms.flatMap(({ unit, units }) => [unit, ...units])));

const MOST_DECIMALS = 8;

/** Decimals that keep this many figures of a size from 1 upwards; small doses keep them too, up to a limit. */
function usualDecimals(size: Decimal, figures: number): number {
  if (size.isZero()) return 0;
  const leading = size.e;
  return Math.min(MOST_DECIMALS, Math.max(0, figures - 1 - leading));
}

/** Decimals of a unit that show this step of it: all of a round one's (0.25), else as many as tell one from the next. */
function stepDecimals(step: number): number {
  const round = new Decimal(step).toSignificantDigits(3);
  const decimals = Math.abs(step / round.toNumber() - 1) < 1e-6 ? round.decimalPlaces() : Math.ceil(-Math.log10(step));
  return Math.min(MOST_DECIMALS, Math.max(0, decimals));
}

/** Rounded half up; zeros at the end are dropped when the number of decimals was not asked for. */
function rounded(value: Decimal, decimals: number, keepZeros: boolean): string {
  const text = value.toFixed(decimals, Decimal.ROUND_HALF_UP);
  const trimmed = !keepZeros && text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return /^-0(\.0*)?$/.test(trimmed) ? trimmed.slice(1) : trimmed;
}

interface Written {
  /** Words of the vocabulary: the large unit of two, or the only one. */
  readonly large: string;
  readonly small: string | undefined;
  /** The value in the last of them. */
  readonly inLast: Decimal;
  /** Decimals that are kept of it. */
  readonly decimals: number;
}

function writtenIn(value: number, kind: QuantityKind, options: PrintOptions): Written {
  const { core } = KIND_INFO[kind];
  const { digits, step, system = 'metric' } = options;
  const forms = step === undefined ? FORMS[kind][system] : WEIGHED[system];
  const written = ({ units: [large, small], figures = 3 }: Form): Written => {
    const last = small ?? large;
    const inLast = new Decimal(convert(value, core, last));
    const kept = step === undefined ? Math.max(figures, options.figures ?? 0) : (options.figures ?? 1);
    const shown = step === undefined ? 0 : stepDecimals(convert(step, core, last));
    const decimals = digits ?? Math.max(usualDecimals(inLast, kept), shown);
    return { large, small, inLast, decimals };
  };
  // By the size as rounded: what is all but a pound is a pound, not 16 oz.
  const fits = (form: Form): boolean => {
    if (form.below === Number.POSITIVE_INFINITY) return true;
    if (Math.abs(value) >= convert(form.below, form.unit, core)) return false;
    const { large, small, inLast, decimals } = written(form);
    const most = new Decimal(convert(form.below, form.unit, small ?? large)).toDecimalPlaces(9);
    return inLast.abs().toDecimalPlaces(decimals, Decimal.ROUND_HALF_UP).lt(most);
  };
  return written(forms.find(fits)!);
}

/** The unit a printed value ends in ("oz" for “2 lb 3.5 oz”), and the size of its last place there. */
export function lastPlace(
  value: number,
  kind: QuantityKind,
  options: PrintOptions = {},
): { unit: string; size: number } {
  const { large, small, decimals } = writtenIn(value, kind, options);
  return { unit: small ?? large, size: 10 ** -decimals };
}

/**
 * A value in core units (g, cm3, cm, h, min, °C, fraction, g/cm3, MPa) as a maker reads it. What is printed is read back
 * by parseQuantity of the same kind. Infinity prints as "no limit".
 *
 * Throws RangeError for NaN.
 */
export function printQuantity(value: number, kind: QuantityKind, options: PrintOptions = {}): string {
  if (Number.isNaN(value)) throw new RangeError(`no ${kind} to print`);
  if (!Number.isFinite(value)) return 'no limit';
  const { large, small, inLast, decimals } = writtenIn(value, kind, options);
  const weighed = options.step !== undefined && options.figures === undefined;
  const keepZeros = weighed || options.digits !== undefined;
  if (small === undefined) return joined(rounded(inLast, decimals, keepZeros), large);

  const step = new Decimal(convert(1, large, small));
  // Rounding before splitting carries 15.97 oz into a whole pound.
  const total = inLast.abs().toDecimalPlaces(decimals, Decimal.ROUND_HALF_UP);
  const wholes = total.div(step).floor();
  const left = rounded(total.minus(wholes.times(step)), decimals, keepZeros);
  const sign = value < 0 ? '-' : '';
  const tail = new Decimal(left).isZero() && !weighed ? '' : ` ${joined(left, small)}`;
  return `${sign}${joined(wholes.toFixed(), large)}${tail}`;
}

function joined(figure: string, unit: string): string {
  if (unit === 'days' && figure === '1') return '1 day';
  return `${figure} ${unit}`;
}
