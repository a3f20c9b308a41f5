import type { Conditions } from '../blend/conditions.js';
import { propertyById } from '../blend/properties/index.js';
import type { Wanted } from '../optimise/wanted.js';
import type { Gather } from '../problems/gather.js';
import { refuse, type Where } from '../problems/problem.js';
import { parsePrice } from '../units/money.js';
import { gramsOf, parseQuantity } from '../units/quantity.js';
import type { Described, HARDNESSES, WrittenMedium } from './medium-schema.js';
import type { Observed } from './medium-tells.js';
import { readLimit } from './read-targets.js';
import type { Shelf } from './shelf.js';

type At = (path: string) => Where;

/** Dry crushing strength that goes with a scratch [MPa]: soft, a fingernail marks it; medium, a coin; hard, only steel. Ours. */
export const HARDNESS: Readonly<Record<(typeof HARDNESSES)[number], { readonly low: number; readonly high?: number }>> =
  {
    soft: { low: 3, high: 10 },
    medium: { low: 10, high: 22 },
    hard: { low: 22, high: 45 },
    'very-hard': { low: 45 },
  };

/** How far off still passes for the same, as a share of the value. Ours: about what a caster would not notice. */
const WITHIN: Readonly<Record<Described, number>> = {
  'demould-weight': 0.03,
  'dry-weight': 0.03,
  'water-to-powder': 0.25,
  'polymer-share': 0.3,
  'working-time': 0.25,
  'demould-time': 0.25,
  strength: 0.3,
  cost: 0.1,
};

/** Of how little the powder's own water matters for a piece that weighs, sets and scratches alike. Ours. */
const COUNTS: Partial<Record<Described, number>> = { 'water-to-powder': 0.3 };

/** Money that a piece costs at the least: below it nothing can be compared. */
const LEAST_COST = 1e-9;

/** What the description asks of a piece of this volume, in the order it is printed. */
export function readWanted(
  written: WrittenMedium,
  observed: Observed,
  volume: number,
  conditions: Conditions,
  shelf: Shelf,
  all: Gather,
  at: At,
): Wanted[] {
  const { demoulded, dry, water, polymer } = observed;
  const windows: Partial<Record<Described, { low?: number; high?: number }>> = {
    ...(demoulded === null ? {} : { 'demould-weight': just(demoulded * volume) }),
    ...(dry === null ? {} : { 'dry-weight': just(dry * volume) }),
    ...(water === null ? {} : { 'water-to-powder': just(water) }),
    ...(polymer > 0 ? { 'polymer-share': just(100 * polymer) } : {}),
    ...timed(written, 'working-time', 'low', all, at),
    ...timed(written, 'demould-time', 'high', all, at),
    ...(written.hardness === undefined ? {} : { strength: HARDNESS[written.hardness] }),
    ...price(written, observed, volume, conditions, shelf, all, at),
  };
  return (Object.keys(windows) as Described[]).flatMap((property): Wanted[] => {
    const window = windows[property]!;
    const tolerance = all.attempt(() => toleranceOf(property, window, written, shelf, at));
    const weight = written.counts?.[property] ?? COUNTS[property] ?? 1;
    return tolerance === undefined ? [] : [{ property, ...window, tolerance, weight }];
  });
}

const just = (value: number) => ({ low: value, high: value });

function timed(
  written: WrittenMedium,
  property: 'working-time' | 'demould-time',
  side: 'low' | 'high',
  all: Gather,
  at: At,
): Partial<Record<Described, { low?: number; high?: number }>> {
  const time = written[property];
  if (time === undefined) return {};
  const read = (text: unknown, path: string) =>
    all.attempt(() => parseQuantity(text, 'setTime', at(path), { positive: true, assume: 'min' }));
  if (typeof time !== 'object') {
    const value = read(time, property);
    return value === undefined ? {} : { [property]: { [side]: value } };
  }
  const low = time.min === undefined ? undefined : read(time.min, `${property}.min`);
  const high = time.max === undefined ? undefined : read(time.max, `${property}.max`);
  if (time.min === undefined && time.max === undefined) {
    all.add({ code: 'field-missing', severity: 'error', where: at(property), expected: 'a time, or min, max or both' });
  }
  if (low !== undefined && high !== undefined && low > high) {
    const found = `min ${String(time.min)}, max ${String(time.max)}`;
    const expected = 'a min that is not above the max';
    all.add({ code: 'target-contradicts', severity: 'error', where: at(property), found, expected });
  }
  return { [property]: { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) } };
}

/** What a piece of the medium costs in powder and liquid, waste included: no more than that is wanted. */
function price(
  written: WrittenMedium,
  { demoulded, water, polymer, liquidDensity }: Observed,
  volume: number,
  conditions: Conditions,
  shelf: Shelf,
  all: Gather,
  at: At,
): Partial<Record<Described, { low?: number; high?: number }>> {
  if (written.price === undefined) return {};
  const options = shelf.shop.currency === null ? {} : { currency: shelf.shop.currency };
  const perGram = (text: string, path: string, density: number | undefined): number | undefined =>
    all.attempt(() => {
      const { amount, pack } = parsePrice(text, at(path), options);
      return Number(amount) / gramsOf(pack, density, at(path));
    });
  const powder = perGram(written.price, 'price', undefined);
  const liquid =
    written['liquid-price'] === undefined ? 0 : perGram(written['liquid-price'], 'liquid-price', liquidDensity);
  if (written.mix === undefined || written.sample?.demoulded === undefined) {
    const expected = 'mix and sample.demoulded beside the price, to tell how much powder a piece takes';
    all.add({ code: 'field-missing', severity: 'error', where: at('mix'), expected });
    return {};
  }
  // What could not be read has been told.
  if (demoulded === null || water === null || powder === undefined || liquid === undefined) return {};
  const grams = (demoulded * volume) / (1 + water + polymer);
  const high = (grams * (powder + (water + polymer) * liquid)) / (1 - conditions.waste);
  if (high >= LEAST_COST) return { cost: { high } };
  const expected = 'more than 0; leave the line out if the price is not known';
  all.add({ code: 'amount-not-positive', severity: 'error', where: at('price'), found: written.price, expected });
  return {};
}

/** "3 %" is a share of the value; anything else an amount in the property's own unit. */
function toleranceOf(
  property: Described,
  { low, high }: { readonly low?: number; readonly high?: number },
  written: WrittenMedium,
  shelf: Shelf,
  at: At,
): number {
  const value = high ?? low ?? 1;
  const text = written.within?.[property];
  const where = at(`within.${property}`);
  if (text === undefined) return WITHIN[property] * value;
  const { quantity } = propertyById(property)!;
  const relative = /%\s*$/.test(String(text)) && quantity !== 'percent';
  const tolerance = relative
    ? value * parseQuantity(text, 'fraction', where)
    : readLimit(text, quantity, shelf.shop.currency, where);
  if (!(tolerance > 0 && tolerance < value)) {
    refuse({
      code: 'field-out-of-range',
      where,
      found: String(text),
      expected: 'more than zero and less than the value',
    });
  }
  return tolerance;
}
