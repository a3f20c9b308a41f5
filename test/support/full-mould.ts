import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import type { Target } from '../../src/core/blend/target.js';
import type { Question } from '../../src/core/optimise/question.js';
import { material, model, numberOf } from './shipped-table.js';

/**
 * Briefs whose blends are told by hand. Flow and strength are let go, so that a water-to-binder ratio R is all that holds
 * the water: a gram of binder with R of water and f of filler takes up 1/d + R/0.9982 + f/d' cm³, and as many grams of it
 * as fill the mould between the air make the piece. Prices are invented.
 */
export const VOLUME = 500;
export const WASTE = 0.05;
export const RATIO = 0.6;
/** The standing limit on sand and filler to binder. */
export const LEANEST = 3;
const AIR = numberOf(model['air-poured']);
const WATER_DENSITY = 0.9982;

export type Dry =
  | 'casting-plaster'
  | 'alpha-gypsum-cement'
  | 'portland-cement-grey'
  | 'portland-cement-white'
  | 'csa-rapid-cement'
  | 'limestone-flour'
  | 'hydrated-lime'
  | 'silica-fume'
  | 'silica-sand-fine'
  | 'perlite'
  | 'plasticiser-powder';

/** What lets flow and strength go. */
export const LOOSE: readonly Target[] = [
  { property: 'flow', min: 0.05, max: 20 },
  { property: 'strength', min: 0.01 },
];

/** A brief for the cheapest piece of these materials at these prices per gram; null: on the shelf without a price. */
export function fullMould(shelf: Partial<Record<Dry, number | null>>, more: Partial<Question> = {}): Question {
  const entries = Object.entries(shelf) as [Dry, number | null][];
  return {
    objective: 'cheapest',
    targets: [{ property: 'water-to-binder', max: RATIO }, ...LOOSE],
    conditions: { ...DEFAULT_CONDITIONS, volume: VOLUME, waste: WASTE },
    materials: ['water', ...entries.map(([id]) => id)].map(material),
    doses: [],
    figures: model,
    prices: new Map(entries.flatMap(([id, price]) => (price === null ? [] : [[id, price] as const]))),
    stock: new Map(),
    batch: { pieces: 1, step: 0.1, fine: null },
    ...more,
  };
}

const densityOf = (id: Dry): number => numberOf(material(id).density);

/** cm³ that a gram of binder takes up with its water and so much filler. */
export const perGram = (binder: Dry, ratio = RATIO, filler = 0): number =>
  1 / densityOf(binder) + ratio / WATER_DENSITY + filler / densityOf('limestone-flour');

/** Grams of binder in a full mould. */
export const binderIn = (binder: Dry, ratio = RATIO, filler = 0): number =>
  (VOLUME * (1 - AIR)) / perGram(binder, ratio, filler);

/** Grams of filler that fill the mould beside so much binder with its water. */
export const fillerBeside = (binder: Dry, grams: number, ratio = RATIO): number =>
  (VOLUME * (1 - AIR) - grams * perGram(binder, ratio)) * densityOf('limestone-flour');

/** Cost of a piece from the money in its dry stuff: what is wasted is paid for too. */
export const costOf = (money: number): number => money / (1 - WASTE);
