import { isMarked, MARK, unmarked } from '../problems/marks.js';
import type { Problem } from '../problems/problem.js';
import { printQuantity, type UnitSystem } from './print.js';
import { convert } from './quantity.js';
import { type Dimension, KIND_INFO, unitOf } from './vocabulary.js';

/** Figures and, last, their unit: “40 °C”, “60 or 70 °C”, “0.5 kg”. */
const QUANTITIES = /^(-?\d+(?:\.\d+)?(?:(?: to | or | and |, )-?\d+(?:\.\d+)?)*) ([^\d\s].*)$/;
const FIGURE = /-?\d+(?:\.\d+)?/g;

/** What is printed in one unit whatever its size. */
const ONE_UNIT: Partial<Record<Dimension, string>> = { length: 'in', density: 'lb/ft3', pressure: 'psi' };

/** Figures of a number as written: 2 for 0.45, 3 for 100. */
const figuresOf = (written: string): number => written.replace(/^-?[0.]*|\./g, '').length;
const decimalsOf = (written: string): number => written.split('.')[1]?.length ?? 0;

/** A written metric quantity with US units and about as many figures; itself where the unit is the same in both systems. */
function inUs(written: string, unit: string): string {
  const dimension = unitOf(unit)?.dimension;
  const value = Number(written);
  if (dimension === 'temperature') return `${Number(convert(value, unit, '°F').toFixed(decimalsOf(written)))} °F`;
  if (dimension === 'mass' || dimension === 'volume') {
    return printQuantity(convert(value, unit, KIND_INFO[dimension].core), dimension, { system: 'us' });
  }
  const us = dimension === undefined ? undefined : ONE_UNIT[dimension];
  if (us === undefined) return `${written} ${unit}`;
  return `${Number(convert(value, unit, us).toPrecision(Math.max(2, figuresOf(written))))} ${us}`;
}

/** A mark's inside with US units; what cannot be read as quantities stays as it stands. */
function quantitiesInUs(inside: string): string {
  const [, figures, unit] = QUANTITIES.exec(inside) ?? [];
  if (figures === undefined) return inside;
  const each = figures.match(FIGURE)!.map((written) => inUs(written, unit!));
  // The unit once, behind the last figure, where all have the same and it alone.
  const units = new Set(each.map((text) => text.replace(/^-?[\d.]+ /, '')));
  const once = units.size === 1 && ![...units].some((word) => /\d /.test(word));
  let at = 0;
  return figures.replace(FIGURE, () => {
    const text = each[at++]!;
    return once && at < each.length ? text.split(' ')[0]! : text;
  });
}

/** Marked words in a system of units, their marks taken out. */
export const wordsIn = (marked: string, system: UnitSystem): string =>
  system === 'metric' || !isMarked(marked)
    ? unmarked(marked)
    : marked.replace(MARK, (_mark, inside: string, us?: string) => us ?? quantitiesInUs(inside));

/** The texts of a result that US units change, in those; see `inUnits`. */
export interface InUs<Texts> {
  readonly us?: Texts;
}

/**
 * A result with, under `us`, its texts that US units change; none where they change nothing. They are worked out when
 * they are asked for: a metric sheet never does, and the first pound and gallon build the whole engine of units.
 */
export function withUs<T extends object, Texts extends object>(result: T, us: () => Texts): T & InUs<Texts> {
  let known: Texts | undefined;
  return Object.defineProperty(result, 'us', {
    enumerable: true,
    get: () => {
      known ??= us();
      return Object.keys(known).length === 0 ? undefined : known;
    },
  });
}

/** A result with marked texts: in metric, and under `us` those that read otherwise there. */
export function inBoth<T extends object, K extends string>(
  result: T,
  marked: Readonly<Record<K, string>>,
): T & Record<K, string> & InUs<Partial<Record<K, string>>> {
  const all = Object.entries(marked) as [K, string][];
  const texts = Object.fromEntries(all.map(([key, text]) => [key, unmarked(text)])) as Record<K, string>;
  const told = { ...result, ...texts };
  if (all.every(([, text]) => !isMarked(text))) return told;
  return withUs(told, () => {
    const us = all.map(([key, text]) => [key, wordsIn(text, 'us')] as const);
    return Object.fromEntries(us.filter(([key, text]) => text !== texts[key])) as Partial<Record<K, string>>;
  });
}

/** A problem whose texts are in a system of units. */
export const problemIn = (problem: Problem, system: UnitSystem): Problem => ({
  ...problem,
  ...(problem.found === undefined ? {} : { found: wordsIn(problem.found, system) }),
  ...(problem.expected === undefined ? {} : { expected: wordsIn(problem.expected, system) }),
  ...(problem.hint === undefined ? {} : { hint: wordsIn(problem.hint, system) }),
});

/**
 * A result, or a part of one, whose words are in a system of units: what stands under `us` takes the place of what stands
 * beside it. Figures stay in core units.
 */
export const inUnits = <T>(result: T, system: UnitSystem): T => (system === 'us' ? (laidOver(result) as T) : result);

function laidOver(part: unknown): unknown {
  if (Array.isArray(part)) return part.map(laidOver);
  if (typeof part !== 'object' || part === null) return part;
  const { us, ...rest } = part as { readonly us?: object };
  return Object.fromEntries(Object.entries({ ...rest, ...us }).map(([key, value]) => [key, laidOver(value)]));
}
