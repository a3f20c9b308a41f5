import type { Conditions } from '../blend/conditions.js';
import { propertyById } from '../blend/properties/index.js';
import type { Question } from '../optimise/question.js';
import type { Closeness, Wanted } from '../optimise/wanted.js';
import { type Gather, gather } from '../problems/gather.js';
import { type Problem, refuse, type Where } from '../problems/problem.js';
import { waterDensity } from '../science/water-density.js';
import { parsePrice } from '../units/money.js';
import { gramsOf, parseAmount, parseQuantity } from '../units/quantity.js';
import { inPlay } from './in-play.js';
import type { Described, HARDNESSES, WrittenMedium } from './medium-schema.js';
import { contradictions, type Observed, type Tells, tellsOf } from './medium-tells.js';
import { readLimits } from './read-limits.js';
import { readMould } from './read-mould.js';
import { readSetting, type Setting } from './read-setting.js';
import { readLimit, readTargets } from './read-targets.js';
import type { Shelf } from './shelf.js';

/** A medium that a stand-in is sought for. */
export interface Medium {
  readonly title: string;
  readonly observed: Observed;
  readonly tells: Tells;
  readonly closeness: Closeness;
  readonly question: Question;
  readonly setting: Setting;
  readonly leftOut: readonly { readonly material: string; readonly why: string }[];
  readonly warnings: readonly Problem[];
}

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

/** What all of the wanted price counts for as a tie-breaker, in tolerances. */
const THRIFT = 0.02;

/** g/cm³ of acrylic casting liquids at a quarter to a half of solids; from memory. */
const ACRYLIC_DENSITY = 1.04;

/**
 * A checked description of a medium in core units: what is wanted, each with its own tolerance, and the question that
 * says what may be used and must hold.
 * @throws InputProblems with everything that is wrong, each with its place.
 */
export function readMedium(written: WrittenMedium, shelf: Shelf, at: At): Medium {
  const all = gather();
  const { shop } = shelf;
  const setting = readSetting(written, { written: written.batch?.waste, path: 'batch.waste' }, shop, all, at);
  const sample = written.sample === undefined ? null : readSample(written.sample, setting.conditions, all, at);
  const mould =
    written.mould === undefined ? null : all.attempt(() => readMould(written.mould!, shelf, setting.conditions, at));
  const volume = mould?.volume ?? sample?.volume;
  if (volume === undefined && mould !== undefined) {
    all.add({
      code: 'field-missing',
      severity: 'error',
      where: at('mould'),
      expected: 'a mould, or a sample with its volume',
    });
  }
  const mix = written.mix === undefined ? null : (all.attempt(() => readMix(written, all, at)) ?? null);
  const observed: Observed = {
    kind: written.kind ?? null,
    water: mix?.water ?? null,
    polymer: mix?.polymer ?? 0,
    demoulded: perVolume(sample?.demoulded, sample?.volume),
    dry: perVolume(sample?.dry, sample?.volume),
    liquidDensity: mix?.density ?? 1,
  };
  const wanted = readWanted(written, observed, volume ?? 1, setting.conditions, shelf, all, at);
  const targets = readTargets(written.targets ?? {}, shop.currency, all, at);
  const wantsPrices = [...wanted, ...targets].some((w) => w.property === 'cost');
  const acrylic = written.mix?.['liquid-is'] === 'acrylic';
  const play = inPlay(written, shelf, [], wantsPrices, at, all, (m) => acrylic && m.kind === 'polymer');
  const limits = readLimits(written.limits, [], play.materials, all, at);
  checkKind(written, all, at);
  if (wanted.length === 0) {
    const expected = 'something to come close to: a sample with its weights, times, hardness or a price';
    all.add({ code: 'field-missing', severity: 'error', where: at('sample'), expected });
  }
  if (wantsPrices && shelf.prices.size === 0) {
    const expected = 'a price list: name a shop with prices (shop: …), or leave the price out';
    all.add({ code: 'price-missing', severity: 'error', where: at('price'), expected });
  }
  const tells = tellsOf(observed);
  const warnings = [...all.finish(), ...contradictions(observed, tells, at)];
  const conditions = {
    ...setting.conditions,
    volume: volume!,
    wall: written.wall === undefined && mould?.wall != null ? mould.wall : setting.conditions.wall,
  };
  const price = wanted.find((w) => w.property === 'cost')?.high;
  return {
    title: written.title ?? 'untitled medium',
    observed,
    tells,
    closeness: { sense: 'min', wanted, thrift: price === undefined ? 0 : THRIFT / price },
    setting: { ...setting, conditions },
    leftOut: play.leftOut,
    warnings,
    question: {
      objective: 'cheapest',
      targets,
      conditions,
      materials: play.materials,
      doses: [],
      figures: shelf.figures,
      ...(shelf.learned === null ? {} : { together: shelf.learned.together }),
      prices: shelf.prices,
      stock: shelf.stock,
      batch: { pieces: written.batch?.pieces ?? 1, ...shop.scale },
      limits,
    },
  };
}

const perVolume = (weight: number | undefined, volume: number | undefined): number | null =>
  weight === undefined || volume === undefined ? null : weight / volume;

function readSample(
  sample: NonNullable<WrittenMedium['sample']>,
  conditions: Conditions,
  all: Gather,
  at: At,
): { volume: number; demoulded?: number; dry?: number } | undefined {
  const volume = all.attempt(() => {
    const fill = parseAmount(sample.volume, at('sample.volume'), { positive: true });
    return 'cm3' in fill ? fill.cm3 : fill.grams / waterDensity(conditions.temperature);
  });
  const weight = (name: 'demoulded' | 'dry') =>
    sample[name] === undefined
      ? undefined
      : all.attempt(() => parseQuantity(sample[name], 'mass', at(`sample.${name}`), { positive: true }));
  const [demoulded, dry] = [weight('demoulded'), weight('dry')];
  if (demoulded !== undefined && dry !== undefined && dry > demoulded) {
    all.add({
      code: 'target-contradicts',
      severity: 'error',
      where: at('sample.dry'),
      found: `${String(sample.dry)} dry, ${String(sample.demoulded)} when demoulded`,
      expected: 'a dry piece that is not heavier than when it left the mould',
    });
  }
  if (volume === undefined) return undefined;
  return { volume, ...(demoulded === undefined ? {} : { demoulded }), ...(dry === undefined ? {} : { dry }) };
}

/** Grams of water and polymer for each gram of powder, and the liquid's density. */
function readMix(written: WrittenMedium, all: Gather, at: At): { water: number; polymer: number; density: number } {
  const mix = written.mix!;
  const acrylic = mix['liquid-is'] === 'acrylic';
  const density = acrylic ? ACRYLIC_DENSITY : 1;
  const powder = parseQuantity(mix.powder, 'mass', at('mix.powder'), { positive: true, assume: 'g' });
  const liquid = gramsOf(parseAmount(mix.liquid, at('mix.liquid'), { positive: true, assume: 'g' }), density);
  const left = mix['left-when-dry'];
  if (!acrylic) {
    if (left !== undefined) {
      const expected = 'only beside liquid-is: acrylic';
      all.add({ code: 'brief-contradicts', severity: 'error', where: at('mix.left-when-dry'), expected });
    }
    return { water: liquid / powder, polymer: 0, density };
  }
  if (left === undefined) {
    refuse({
      code: 'field-missing',
      where: at('mix.left-when-dry'),
      expected: 'what is left of the liquid when it has dried, such as "28 %"',
      hint: 'weigh a spoonful of it, let it dry in a warm room for a few days, and weigh again',
    });
  }
  const solids = parseQuantity(left, 'fraction', at('mix.left-when-dry'), { positive: true, assume: '%' });
  if (solids >= 0.8) {
    const found = String(left);
    refuse({ code: 'field-out-of-range', where: at('mix.left-when-dry'), found, expected: 'less than 80 %' });
  }
  return { water: (liquid * (1 - solids)) / powder, polymer: (liquid * solids) / powder, density };
}

function checkKind(written: WrittenMedium, all: Gather, at: At): void {
  if (written.kind !== 'polymer-gypsum' || written.mix?.['liquid-is'] === 'acrylic') return;
  all.add({
    code: 'brief-contradicts',
    severity: 'error',
    where: at('mix.liquid-is'),
    found: 'a polymer-modified gypsum mixed with water',
    expected: 'liquid-is: acrylic, with powder, liquid and what is left of it when dry',
  });
}

/** What the description asks of a piece of this volume, in the order it is printed. */
function readWanted(
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
  if (demoulded === null || water === null) {
    const expected = 'mix and sample.demoulded beside the price, to tell how much powder a piece takes';
    all.add({ code: 'field-missing', severity: 'error', where: at('mix'), expected });
    return {};
  }
  if (powder === undefined || liquid === undefined) return {};
  const grams = (demoulded * volume) / (1 + water + polymer);
  return { cost: { high: (grams * (powder + (water + polymer) * liquid)) / (1 - conditions.waste) } };
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
