import { Decimal } from 'decimal.js';
import { createUnitClass, type UnitCtor } from 'mathjs';

// The factory is exported by mathjs but missing from its types. Importing only the factory lets the bundler drop
// the rest of mathjs: 41 kB of unit tables instead of a cold start of half a second.
declare module 'mathjs' {
  // biome-ignore lint/suspicious/noExplicitAny: the dependency list of a mathjs factory is not typed by mathjs
  export const createUnitClass: (dependencies: Record<string, any>) => UnitCtor;
}

type Numeric = Decimal | number | Ratio;

/** The one rational mathjs's tables build (5/9 of a kelvin), with the fields mathjs reads: sign, numerator, denominator. */
class Ratio {
  readonly isFraction = true;
  readonly s = 1;
  constructor(
    readonly n: number,
    readonly d: number,
  ) {}
}

const WORKING_DIGITS = 40;
const KEPT_DIGITS = 32;

/** What mathjs lacks or defines otherwise. Factors: NIST Handbook 44 Appendix C; imperial: UK Weights and Measures Act 1985. */
const MADE_UNITS: Readonly<Record<string, string>> = {
  // mathjs's spoons are 5 and 15 mL (food labels); these are the US customary ones that fit a US cup: gallon/768 and gallon/256.
  spoonTea: '4.92892159375 cm3',
  spoonTable: '14.78676478125 cm3',
  imperialGallon: '4.54609 L',
  imperialQuart: '1.1365225 L',
  imperialPint: '0.56826125 L',
  imperialOunce: '28.4130625 cm3',
  shortTon: '907.18474 kg',
  longTon: '1016.0469088 kg',
};

const Exact = Decimal.clone({ precision: WORKING_DIGITS });
// mathjs recognises its number types by this mark.
Object.defineProperty(Exact.prototype, 'isBigNumber', { value: true, configurable: true });

let built: UnitCtor | undefined;

/**
 * mathjs's Unit class over decimal arithmetic, so that a definition such as 1 lb = 453.59237 g stays exact.
 * Built on first use (about 4 ms) because many commands never read a quantity.
 */
function unitClass(): UnitCtor {
  if (built) return built;
  const exact = (x: Numeric): Decimal => (x instanceof Ratio ? new Exact(x.n).div(x.d) : new Exact(x));
  built = createUnitClass({
    config: { number: 'number' },
    addScalar: (a: Numeric, b: Numeric) => exact(a).plus(exact(b)),
    subtractScalar: (a: Numeric, b: Numeric) => exact(a).minus(exact(b)),
    multiplyScalar: (a: Numeric, b: Numeric) => exact(a).times(exact(b)),
    divideScalar: (a: Numeric, b: Numeric) => exact(a).div(exact(b)),
    pow: (a: Numeric, b: Numeric) => exact(a).pow(exact(b)),
    abs: (a: Numeric) => exact(a).abs(),
    fix: (a: Numeric) => exact(a).trunc(),
    round: (a: Numeric) => exact(a).round(),
    equal: (a: Numeric, b: Numeric) => exact(a).equals(exact(b)),
    isNumeric: (a: unknown) => typeof a === 'number' || Decimal.isDecimal(a) || a instanceof Ratio,
    format: String,
    number: (a: Numeric) => exact(a).toNumber(),
    Complex: {},
    BigNumber: Exact,
    Fraction: Ratio,
  });
  for (const [name, definition] of Object.entries(MADE_UNITS)) built.createUnitSingle(name, definition);
  return built;
}

const factors = new Map<string, Decimal>();
let foreseen: Readonly<Record<string, string>> = {};

/** Factors that a build worked out (`coreFactors`): they are taken as they stand, and the engine is built for others only. */
export function foresee(known: Readonly<Record<string, string>>): void {
  foreseen = known;
}

/** The factor between two units of one dimension, as a decimal in words with all working digits. */
export const factorOf = (from: string, to: string): string => converted(1, from, to).toString();

/**
 * Degrees in one degree Celsius, and what the scale shows at 0 °C; exact (NIST SP 811, B.8). Cautions have their degrees in
 * both systems, so nearly every command converts some, and the engine takes longer to build than all that is told of them.
 */
const SCALES: Readonly<Record<string, { readonly degrees: number; readonly zero: number }>> = {
  degC: { degrees: 1, zero: 0 },
  degF: { degrees: 1.8, zero: 32 },
  K: { degrees: 1, zero: 273.15 },
};

/**
 * Converts between two units of the same dimension; temperatures with their offset.
 * `from` and `to` are names of the engine (vocabulary.ts lists them), never the maker's text.
 */
export function convertExact(value: Decimal | number, from: string, to: string): Decimal {
  if (from === to) return new Decimal(value);
  const [scale, other] = [SCALES[from], SCALES[to]];
  if (scale !== undefined && other !== undefined) {
    const celsius = new Exact(value).minus(scale.zero).div(scale.degrees);
    // Division by 1.8 leaves crumbs in the last working digits; near 0 °C nothing but crumbs.
    return celsius.times(other.degrees).plus(other.zero).toDecimalPlaces(KEPT_DIGITS);
  }
  // The engine takes a tenth of a millisecond for each conversion, and a report prints hundreds of quantities.
  const key = `${from} ${to}`;
  const known = foreseen[key];
  const factor = factors.get(key) ?? (known === undefined ? converted(1, from, to) : new Exact(known));
  factors.set(key, factor);
  return new Exact(value).times(factor).toSignificantDigits(KEPT_DIGITS);
}

function converted(value: Decimal | number, from: string, to: string): Decimal {
  const Unit = unitClass();
  const amount = new Unit(new Decimal(value) as never, from);
  return amount.toNumeric(to) as unknown as Decimal;
}
