import { Decimal } from 'decimal.js';
import { nearestWord } from '../problems/nearest.js';
import { type ProblemCode, refuse, type Where } from '../problems/problem.js';
import { convertExact } from './engine.js';
import { plainText, readNumber } from './number.js';
import {
  type Dimension,
  densityParts,
  KIND_INFO,
  type QuantityKind,
  SHARE_FACTOR,
  spellings,
  twoMeanings,
  type UnitWord,
  unitOf,
} from './vocabulary.js';

/** A mass or a volume, as packs, doses and stock are written. */
export type Amount = { readonly grams: number } | { readonly cm3: number };

export interface QuantityOptions {
  /** Unit of a bare number. Without it a bare number is refused, and so is one below 1 where percent is meant: 0.06 is 6 % too. */
  readonly assume?: string;
  /** Refuse zero too (masses to weigh, packs, mould sides). */
  readonly positive?: boolean;
  /** Beside `positive`: what is not used may be left out, and that is what a zero meant. */
  readonly optional?: boolean;
}

const LONGEST_TEXT = 100;
const LONGEST_FOUND = 200;
/** A million tonnes of anything in core units: no cast comes near it, and sums stay finite. */
const LARGEST = 1e12;
/** Less than this counts as nothing where something is needed, so that what is divided by it stays finite too. */
const SMALLEST = 1e-9;
const ABSOLUTE_ZERO = -273.15;

const NOT_USED = 'more than 0; leave the line out if it is not used';
const AMOUNT_EXPECTED = 'a mass or a volume such as “25 kg”, “55 lb”, “1 L” or “8 fl oz”';

/**
 * A maker's quantity in the core's unit of that kind: g, cm3, cm, h, min, °C, fraction, g/cm3, MPa.
 *
 * Grammar: `number unit`, or several of falling size for mass, volume, length and time ("2 lb 3 oz"). Nothing else is
 * evaluated. Throws InputProblems: field-wrong-type, quantity-unreadable, quantity-ambiguous, unit-unknown,
 * unit-wrong-kind, field-out-of-range (below zero too), amount-not-positive (where zero will not do).
 */
export function parseQuantity(
  input: unknown,
  kind: QuantityKind,
  where?: Where,
  options: QuantityOptions = {},
): number {
  const { dimension, expected } = KIND_INFO[kind];
  const reading = readTerms(input, [dimension], expected, where, options);
  const value = toCore(reading, kind);
  checkSize(value, kind === 'temperature', expected, String(input), where, options);
  return value;
}

/** As parseQuantity for a field that takes a mass or a volume. An ounce is a mass; a fluid ounce is a volume. */
export function parseAmount(input: unknown, where?: Where, options: QuantityOptions = {}): Amount {
  const reading = readTerms(input, ['mass', 'volume'], AMOUNT_EXPECTED, where, options);
  const kind = reading[0]?.unit.dimension === 'volume' ? 'volume' : 'mass';
  const value = toCore(reading, kind);
  checkSize(value, false, AMOUNT_EXPECTED, String(input), where, options);
  return kind === 'mass' ? { grams: value } : { cm3: value };
}

/** Whether a text or number begins as no amount at all: zero, less than that, or no finite number. */
export function isNothing(input: unknown): boolean {
  if (typeof input === 'number' && !Number.isFinite(input)) return true;
  const read = readNumber(plainText(String(input)));
  return read.kind === 'number' && read.value.lt(SMALLEST);
}

/** Grams of an amount; a volume needs the density in g/cm3 (the loose one for a scoop, the liquid's for a bottle). */
export function gramsOf(amount: Amount, density: number | undefined, where?: Where): number {
  if ('grams' in amount) return amount.grams;
  if (density === undefined) {
    const hint = 'give this amount by mass, or add the density of the material';
    refuse({ code: 'material-density-missing', ...(where && { where }), hint });
  }
  return amount.cm3 * density;
}

/** A value in one of the vocabulary's units, in another of the same kind; words as a maker writes them. */
export function convert(value: number, from: string, to: string): number {
  const [source, target] = [unitOf(from), unitOf(to)];
  if (!source || !target || source.dimension !== target.dimension)
    throw new RangeError(`no conversion from ${from} to ${to}`);
  return convertUnit(new Decimal(value), source, target).toNumber();
}

interface Term {
  readonly value: Decimal;
  readonly unit: UnitWord;
}

function convertUnit(value: Decimal, from: UnitWord, to: UnitWord): Decimal {
  if (from.dimension === 'fraction') return value.times(SHARE_FACTOR[from.engine]!).div(SHARE_FACTOR[to.engine]!);
  if (from.dimension !== 'density') return convertExact(value, from.engine, to.engine);
  const [mass, volume] = densityParts(from);
  const [massTo, volumeTo] = densityParts(to);
  return convertExact(value, mass, massTo).div(convertExact(1, volume, volumeTo));
}

function toCore(terms: readonly Term[], kind: QuantityKind): number {
  const core = unitOf(KIND_INFO[kind].core)!;
  return sum(terms.map((term) => convertUnit(term.value, term.unit, core)));
}

const sum = (values: readonly Decimal[]): number =>
  values.reduce((total, value) => total.plus(value), new Decimal(0)).toNumber();

/** Dimensions that may be written in several steps, such as "2 lb 3 oz". */
const STEPPED: ReadonlySet<Dimension> = new Set(['mass', 'volume', 'length', 'time']);

function readTerms(
  input: unknown,
  dimensions: readonly Dimension[],
  expected: string,
  where: Where | undefined,
  options: QuantityOptions,
): readonly Term[] {
  const found =
    input === null
      ? 'nothing'
      : typeof input === 'object'
        ? 'a list or a group'
        : String(input).slice(0, LONGEST_FOUND);
  const fail = (code: ProblemCode, more: { nearest?: string; hint?: string } = {}): never =>
    refuse({ code, ...(where && { where }), found, expected, ...more });

  if (typeof input !== 'string' && typeof input !== 'number') return fail('field-wrong-type');
  if (typeof input === 'number' && !Number.isFinite(input)) return fail('field-out-of-range');
  if (typeof input === 'string' && input.length > LONGEST_TEXT) return fail('quantity-unreadable');

  const terms: Term[] = [];
  let rest = plainText(String(input));
  while (rest !== '' || terms.length === 0) {
    const number = readNumber(rest);
    if (number.kind === 'ambiguous') {
      const [large, small] = number.readings;
      return fail('quantity-ambiguous', { hint: `write “${large}” or “${small}”, with a point for decimals` });
    }
    if (number.kind === 'none') return fail('quantity-unreadable');
    const [word, tail] = splitUnit(number.rest.trim());
    const unitWord = word === '' && terms.length === 0 ? (options.assume ?? '') : word;
    if (unitWord === '' && options.positive && number.value.lt(SMALLEST))
      return notPositive(found, where, options, expected);
    if (unitWord === '') return fail('quantity-unreadable', { hint: 'a number needs its unit here' });
    if (word === '' && unitWord === '%' && number.value.gt(0) && number.value.lt(1)) {
      const hint = `write “${number.value} %” or “${number.value.times(100)} %”`;
      return fail('quantity-ambiguous', { hint });
    }
    const unit = unitOf(unitWord);
    if (!unit) return unknownUnit(unitWord, dimensions, fail);
    if (!dimensions.includes(unit.dimension)) return fail('unit-wrong-kind', ounceHint(unit, dimensions));
    const previous = terms.at(-1);
    if (previous && !follows(previous, { value: number.value, unit })) return fail('quantity-unreadable');
    terms.push({ value: number.value, unit });
    rest = tail;
  }
  return terms;
}

/**
 * The unit that the text begins with, and what follows it. The longest known unit wins, so that "ft3" is not "ft" with
 * a 3 after it; an unknown text is given back whole.
 */
function splitUnit(text: string): readonly [string, string] {
  if (unitOf(text)) return [text, ''];
  const starts = [...text.matchAll(/(?<!\d)\d/g)].map((match) => match.index).reverse();
  for (const at of starts) {
    const head = text
      .slice(0, at)
      .replace(/[\s,]+$/, '')
      .replace(/\s+and$/, '');
    if (unitOf(head)) return [head, text.slice(at)];
  }
  return [text, ''];
}

function follows(previous: Term, next: Term): boolean {
  if (!STEPPED.has(next.unit.dimension) || next.unit.dimension !== previous.unit.dimension) return false;
  if (next.value.isNegative()) return false;
  return convertUnit(new Decimal(1), previous.unit, next.unit).gt(1);
}

function unknownUnit(
  word: string,
  dimensions: readonly Dimension[],
  fail: (code: ProblemCode, more?: { nearest?: string; hint?: string }) => never,
): never {
  const hint = twoMeanings(word);
  if (hint !== undefined) return fail('unit-unknown', { hint: `“${word}” means two things: ${hint}` });
  const nearest = nearestWord(word, dimensions.flatMap(spellings));
  return fail('unit-unknown', nearest === undefined ? {} : { nearest });
}

function ounceHint(unit: UnitWord, dimensions: readonly Dimension[]): { hint?: string } {
  if (unit.print === 'oz' && dimensions.includes('volume'))
    return { hint: '“oz” is an ounce of mass; write “fl oz” for fluid ounces' };
  if (unit.print === 'fl oz' && dimensions.includes('mass'))
    return { hint: '“fl oz” is a volume; write “oz” for ounces of mass' };
  return {};
}

function checkSize(
  value: number,
  mayBeNegative: boolean,
  expected: string,
  found: string,
  where: Where | undefined,
  options: QuantityOptions,
): void {
  const lowest = mayBeNegative ? ABSOLUTE_ZERO : -LARGEST;
  if (!(value >= lowest && value <= LARGEST))
    refuse({ code: 'field-out-of-range', ...(where && { where }), found, expected });
  if (options.positive && value < SMALLEST) notPositive(found, where, options, expected);
  if (value < 0 && !mayBeNegative)
    refuse({ code: 'field-out-of-range', ...(where && { where }), found, expected: `${expected}, 0 or more` });
}

/** What a zero or less is told where something is needed. */
function notPositive(found: string, where: Where | undefined, options: QuantityOptions, expected: string): never {
  return refuse({
    code: 'amount-not-positive',
    ...(where && { where }),
    found,
    expected: options.optional ? NOT_USED : `${expected}, more than zero`,
  });
}
