import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { assess } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { mediumSchema } from '../../src/core/brief/medium-schema.js';
import { readBrief } from '../../src/core/brief/read-brief.js';
import { readMedium } from '../../src/core/brief/read-medium.js';
import { readRecipe } from '../../src/core/brief/read-recipe.js';
import { readShop } from '../../src/core/brief/read-shop.js';
import { recipeBlend } from '../../src/core/brief/recipe-blend.js';
import { briefSchema, recipeSchema, shopSchema } from '../../src/core/brief/schema.js';
import type { Shelf } from '../../src/core/brief/shelf.js';
import { shelfOf } from '../../src/core/brief/shelf-of.js';
import { worldInput } from '../../src/core/brief/world-input.js';
import { isGap } from '../../src/core/materials/gap.js';
import { overlay } from '../../src/core/materials/overlay.js';
import { cheapestPerGram, readPrices, stockOf } from '../../src/core/materials/price-list.js';
import { materialTable } from '../../src/core/materials/table.js';
import { dottedPlaces } from '../../src/core/reading/located.js';
import { checkShape } from '../../src/core/reading/shape.js';
import { readYaml } from '../../src/core/reading/yaml.js';
import { learnedSchema, overlayLearned } from '../../src/core/shop/learned.js';
import { readDay } from '../../src/core/shop/order-calendar.js';
import { orderSchema, readOrder } from '../../src/core/shop/order-file.js';
import { readBlend, readWeights } from '../../src/core/shop/pours-cells.js';
import { newRecord, pourLine } from '../../src/core/shop/pours-columns.js';
import { readPours } from '../../src/core/shop/pours-record.js';
import { readSieve, readSieveCsv, type SieveSample, sieveSchema } from '../../src/core/sieve/read-sieve.js';
import { sandOfSample } from '../../src/core/sieve/sand.js';
import { sieveResult } from '../../src/core/sieve/sieve-result.js';
import { currencyCode, parseMoney, parsePrice } from '../../src/core/units/money.js';
import { parseAmount, parseQuantity } from '../../src/core/units/quantity.js';
import { KIND_INFO, type QuantityKind } from '../../src/core/units/vocabulary.js';
import { materials, model, sources } from '../support/shipped-table.js';

/** What a maker may hand in, and the code that reads it. */
export interface Reader {
  readonly name: string;
  /** Good texts to start from. */
  readonly seeds: readonly string[];
  /** Reads it as far as the program would. Throws InputProblems where it is refused. */
  readonly read: (text: string) => unknown;
}

export const EXAMPLES = new URL('../../examples/garden-stall', import.meta.url).pathname;
const example = (name: string): string => readFileSync(join(EXAMPLES, name), 'utf8');

const table = materialTable({ materials, sources });
const prices = readPrices(example('prices.csv'), 'prices.csv', table, { currency: 'EUR' });

export const located = (text: string) => readYaml(text, 'input.yaml');
const shopOf = (text: string) => {
  const file = located(text);
  return readShop(checkShape(shopSchema, file), dottedPlaces(file));
};
const shop = shopOf(example('shop.yaml'));
export const shelf: Shelf = shelfOf({ shop, table, figures: model, prices });

/** A plaster, a sand and water through the forward model, on figures that a spoilt file may have changed. */
function assessedOn(on: Shelf, words: readonly string[]): unknown {
  const parts = words.map((word) => on.find(word));
  const conditions = { ...DEFAULT_CONDITIONS, volume: 300 };
  return assess(worldInput(on, parts, conditions), [200, 300, 150], [], { draws: 4 });
}

function readsRecipe(text: string): unknown {
  const file = located(text);
  const recipe = readRecipe(checkShape(recipeSchema, file), shelf, dottedPlaces(file));
  const blend = recipeBlend(recipe, shelf);
  const assessed = assess(
    worldInput(shelf, blend.materials, recipe.setting.conditions),
    blend.pieceGrams,
    recipe.targets,
    {
      draws: 0,
    },
  );
  return { recipe, blend, assessed };
}

function readsOwn(text: string): unknown {
  const laid = overlay(table, text, 'own.yaml');
  const sand = [...laid.own].find((id) => laid.byId(id)!.kind !== 'water' && !isGap(laid.byId(id)!.density));
  if (sand === undefined) return laid.own;
  return assessedOn(shelfOf({ shop, table: laid, figures: model, prices }), ['casting-plaster', sand, 'water']);
}

function readsBrief(text: string): unknown {
  const file = located(text);
  return readBrief(checkShape(briefSchema, file), shelf, dottedPlaces(file));
}

function readsSieve(text: string): SieveSample {
  const file = located(text);
  return readSieve(checkShape(sieveSchema, file), file.file, dottedPlaces(file));
}

const sieved = (samples: readonly SieveSample[]) =>
  sieveResult(samples.slice(0, 2).map(sandOfSample), { curve: 'andreasen' }, true);

const LEARNED = `format: pourwright.learned/1
from: { file: pours.csv, pours: 7, measurements: 31, fitted: 2026-03-01 }
figures:
  casting-plaster.initialSet: { title: set, value: 14, low: 10, high: 19, unit: min, before: { value: 15, low: 8, high: 30 } }
  shop.waste: { title: waste, value: 0.07, low: 0.05, high: 0.09, unit: fraction, before: { value: 0.06, low: 0.02, high: 0.1 } }
together: [[1], [0.2, 1]]
`;

const RECORD =
  newRecord() +
  [
    { pour: 1, date: '2026-02-01', brief: 'wall-pocket.yaml', 'batch g': 900, pieces: 2, 'room C': 18, 'set min': 17 },
    { pour: 1, weights: '1 h: 285; 3 d: 249 g' },
    {
      pour: 2,
      date: '2026-02-03',
      blend: 'silica-sand-fine 300; casting-plaster 200; water 140 g',
      'room %': 55,
      note: 'a "good" one, dry',
    },
  ]
    .map((row) => `${pourLine(row, newRecord(), 'pours.csv')}\n`)
    .join('');

const OWN = `sources:
  bag: { title: The bag, kind: supplier }
materials:
  - id: our-sand
    name: Our sand
    kind: sand
    density: { value: 2.65, low: 2.6, high: 2.7, unit: g/cm3, source: bag, where: front, status: looked-up }
    bulkDensity: { value: 1.5, low: 1.4, high: 1.6, unit: g/cm3, source: none, status: common-practice }
    hazards: []
`;

const kinds = Object.keys(KIND_INFO) as QuantityKind[];

/** Every kind of quantity reads the same text: whatever it is, each either gives a finite number or refuses. */
function readsQuantity(text: string): unknown {
  const readings = kinds.map((kind) => () => parseQuantity(text, kind));
  return firstRefusal([...readings, () => parseAmount(text, undefined, { positive: true })]);
}

function readsMoney(text: string): unknown {
  return firstRefusal([
    () => parseMoney(text),
    () => parsePrice(text, undefined, { currency: 'EUR' }),
    () => parsePrice({ price: '1', pack: text }),
    () => currencyCode(text),
  ]);
}

/** All are run, so that each is tried with each text; a refusal of the last one that refused is what is told. */
function firstRefusal(readings: readonly (() => unknown)[]): unknown {
  let refusal: unknown;
  const values = readings.map((read) => {
    try {
      return read();
    } catch (error) {
      if ((error as Error).name !== 'InputProblems') throw error;
      refusal = error;
      return undefined;
    }
  });
  if (values.every((value) => value === undefined)) throw refusal;
  return values;
}

const briefs = ['herb-planter', 'wall-pocket', 'bookends', 'soap-tray', 'incense-dish', 'impossible-planter'];
const recipes = ['old-planter', 'plaster-and-cement', 'far-too-wet'];

export const READERS: readonly Reader[] = [
  { name: 'brief', seeds: briefs.map((name) => example(`${name}.yaml`)), read: readsBrief },
  { name: 'recipe', seeds: recipes.map((name) => example(`recipes/${name}.yaml`)), read: readsRecipe },
  { name: 'shop', seeds: [example('shop.yaml')], read: shopOf },
  {
    name: 'order',
    seeds: [example('spring-market.yaml')],
    read: (text) => {
      const file = located(text);
      return readOrder(checkShape(orderSchema, file), shop, dottedPlaces(file));
    },
  },
  { name: 'own materials', seeds: [OWN], read: readsOwn },
  {
    name: 'learned',
    seeds: [LEARNED],
    read: (text) => {
      const file = located(text);
      const data = checkShape(learnedSchema, file);
      const { tables, waste } = overlayLearned(data, { materials, figures: model }, 'learned.yaml', dottedPlaces(file));
      const taught = { ...shelf, figures: tables.figures, find: materialTable({ ...tables, sources }).get };
      return { waste, assessed: assessedOn(taught, ['casting-plaster', 'silica-sand-fine', 'water']) };
    },
  },
  {
    name: 'prices',
    seeds: [
      example('prices.csv'),
      'item;pack;price;in stock\nperlite;100 L;21,00;2 packs\ncitric acid;2 lb 3 oz;7,50;500 g\n',
    ],
    read: (text) => {
      const list = readPrices(text, 'prices.csv', table, { currency: 'EUR' });
      return { offers: list.offers.length, best: cheapestPerGram(list), stock: stockOf(list) };
    },
  },
  { name: 'pours', seeds: [RECORD], read: (text) => readPours(text, 'pours.csv') },
  {
    name: 'medium',
    seeds: ['stand-in-gypsum', 'stand-in-acrylic-gypsum', 'stand-in-rapid-cement'].map((name) =>
      example(`${name}.yaml`),
    ),
    read: (text) => {
      const file = located(text);
      return readMedium(checkShape(mediumSchema, file), shelf, dottedPlaces(file)).closeness;
    },
  },
  { name: 'sieve weights', seeds: [example('sieves/dune-sand.yaml')], read: (text) => sieved([readsSieve(text)]) },
  {
    name: 'sieve table',
    seeds: [example('sieves/yard-sand.csv')],
    read: (text) => sieved(readSieveCsv(text, 'sieves.csv')),
  },
  {
    name: 'quantity',
    seeds: [
      '250 g',
      '2 lb 3 oz',
      '27,5 kg',
      '1 1/2 cups',
      '45 min',
      '3 1/4 in',
      '-5 °C',
      '55 %',
      '1.2e3 mL',
      '8 fl oz',
    ],
    read: readsQuantity,
  },
  {
    name: 'money',
    seeds: ['27.50 per 55 lb', '€3.20 for 1 L', '1,20 EUR/kg', 'USD 5', '1 234.50', '25 kg bag'],
    read: readsMoney,
  },
  {
    name: 'cells',
    seeds: ['1 h: 285; 3 d: 249 g', 'silica-sand-fine 150; water 75 g', '2026-02-28'],
    read: (text) => firstRefusal([() => readWeights(text), () => readBlend(text), () => readDay(text)]),
  },
];
