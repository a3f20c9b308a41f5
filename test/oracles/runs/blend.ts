import { evaluate } from '../../../src/core/blend/assess.js';
import { type Conditions, DEFAULT_CONDITIONS } from '../../../src/core/blend/conditions.js';
import { propertyById } from '../../../src/core/blend/properties/index.js';
import { propertyValue } from '../../../src/core/blend/property.js';
import { worldOf } from '../../../src/core/blend/world.js';
import { material, model, numberOf } from '../../support/shipped-table.js';
import type { Given } from '../oracle.js';
import { number, numberOr, type Run, word } from './given.js';

type Parts = Readonly<Record<string, number>>;

const PART = 'of ';
const PRICE = 'price of ';

/** What is given as "of MATERIAL", in grams. */
const partsOf = (given: Given): Parts =>
  Object.fromEntries(
    Object.keys(given)
      .filter((key) => key.startsWith(PART))
      .map((key) => [key.slice(PART.length), number(given, key)]),
  );

/** Prices given as "price of MATERIAL", per gram. */
const pricesOf = (given: Given): ReadonlyMap<string, number> =>
  new Map(
    Object.keys(given)
      .filter((key) => key.startsWith(PRICE))
      .map((key) => [key.slice(PRICE.length), number(given, key)]),
  );

/** One property of a blend with the central figures of the shipped table. */
function propertyOf(id: string, parts: Parts, given: Given, more: Partial<Conditions> = {}): number {
  const world = worldOf({
    materials: Object.keys(parts).map(material),
    figures: model,
    conditions: {
      ...DEFAULT_CONDITIONS,
      temperature: numberOr(given, 'temperature', DEFAULT_CONDITIONS.temperature),
      ...more,
    },
    prices: pricesOf(given),
  });
  const { state } = evaluate(world, Object.values(parts));
  const { value } = propertyValue(propertyById(id)!, world, state);
  if (value === null) throw new RangeError(`the blend has no ${id}`);
  return value;
}

const figure = (key: string): number => numberOf(model[key]);

export const blendRuns: Readonly<Record<string, Run>> = {
  blend: (given) =>
    Object.fromEntries(
      word(given, 'properties')
        .split(' ')
        .map((id) => [id, propertyOf(id, partsOf(given), given, { waste: 0 })]),
    ),

  'adiabatic-rise': (given) => ({
    rise: propertyOf('peak-temperature', partsOf(given), given) - number(given, 'temperature'),
  }),

  'loss-on-drying': (given) => {
    const parts = partsOf(given);
    return { loss: 1 - propertyOf('dry-weight', parts, given) / propertyOf('fresh-weight', parts, given) };
  },

  // Whether a part of plaster makes cement set sooner.
  'set-with-plaster': (given) => {
    const { 'casting-plaster': _out, ...plain } = partsOf(given);
    const without = propertyOf('initial-set', plain, given);
    return { set: propertyOf('initial-set', partsOf(given), given) < without ? 'sooner' : 'no sooner' };
  },

  // Set at a temperature, from the set at another, with the table's activation energy.
  'set-by-temperature': (given) => {
    const plain = word(given, 'binder');
    const at = (temperature: number): number =>
      propertyOf('initial-set', { [plain]: 100, water: 50 }, given, { temperature });
    const own = number(given, 'time') / at(number(given, 'reference'));
    return { time: own * at(number(given, 'celsius')) };
  },

  // Set of a plaster with an admixture of the table, from its own set without.
  'dosed-set': (given) => {
    const plaster = { 'casting-plaster': 100, water: 70 };
    const dosed = { ...plaster, [word(given, 'admixture')]: number(given, 'percent') };
    return {
      time:
        (number(given, 'time') * propertyOf('initial-set', dosed, given)) / propertyOf('initial-set', plaster, given),
    };
  },

  'working-time': (given) => ({ working: figure('working-share') * number(given, 'set') }),

  // Strength of plaster with closed light grains taking up a share of its volume, over that without.
  'lightened-plaster': (given) => {
    const parts: Parts = { 'casting-plaster': 100, water: 100 * number(given, 'waterToPlaster') };
    const share = 1 - number(given, 'lightened') / number(given, 'plain');
    const spheres = worldOf({
      materials: [material('hollow-glass-spheres')],
      figures: model,
      conditions: DEFAULT_CONDITIONS,
    }).materials[0]!;
    const solid = propertyOf('fresh-volume', parts, given) * (1 - figure('air-poured'));
    const grams = (solid * share) / (1 - share) / spheres.grainVolume;
    const light = propertyOf('strength', { ...parts, 'hollow-glass-spheres': grams }, given);
    return { ratio: light / propertyOf('strength', parts, given) };
  },
};
