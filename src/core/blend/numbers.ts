import { cementFromOxides, readOxides } from '../materials/cement-phases.js';
import type { Figure } from '../materials/figure.js';
import { isGap } from '../materials/gap.js';
import type { ModelFigures } from '../materials/model-figures.js';
import type { Material } from '../materials/schema.js';
import { bringsSulfate, isLime } from '../materials/sorts.js';
import { isPoured } from '../materials/table.js';
import type { BinderFamily, DoseBasis, Kind } from '../materials/words.js';
import { refuse } from '../problems/problem.js';
import type { Grading } from '../science/grading.js';
import { type Grains, grainsOf } from '../science/skeleton.js';
import { type Keyed, type MaterialFigures, materialFigures } from './material-figures.js';

/**
 * Reads one number out of a figure. The central reading takes the value; a draw takes a point of the range.
 * The key (`silica-sand-fine.density`, `model.air-poured`) lets a draw use the same point for the same figure.
 */
export type Reading = (key: string, figure: Figure) => number;

export const central: Reading = (_key, figure) => figure.value;

/** Effect of a material on a property, per percent of its dose. */
export interface EffectNumbers {
  readonly on: 'set' | 'water-demand' | 'strength' | 'air';
  readonly family: BinderFamily | null;
  /** Change of ln(value), or fraction, per percent of dose. */
  readonly per: number;
  /** What the percent is a percent of. */
  readonly of: DoseBasis;
  /** Dose in percent at which the effect stops growing. */
  readonly limit: number | null;
}

/** A material as the forward model sees it: plain numbers, all per gram as weighed. */
export interface MaterialNumbers {
  readonly id: string;
  readonly name: string;
  readonly kind: Kind;
  readonly family: BinderFamily | null;
  /** cm³ taken in the fresh mix per gram as weighed, water it brings or drinks included. */
  readonly volume: number;
  /** g/cm³ as scooped, or null when not known. */
  readonly bulkDensity: number | null;
  /** cm³ of solid grains per gram, for paste and skeleton. */
  readonly grainVolume: number;
  /** Share of the loose volume that is voids; 0.4 where no bulk density is known. */
  readonly voids: number;
  /** How the grains pack beside others: sizes as in the table (not drawn); null where no grading is known. */
  readonly grains: Grains | null;
  /** g of solids per gram as weighed. */
  readonly solids: number;
  /** True for water and for what is poured: emulsions, liquid admixtures. */
  readonly liquid: boolean;
  /** g of water that reaches the mix per gram (negative: it drinks). */
  readonly freeWater: number;
  /** g of water demand per gram. */
  readonly demand: number;
  /** fraction SO3 by mass. */
  readonly so3: number;
  readonly hemihydrate: number;
  readonly c3a: number;
  readonly yeelimite: number;
  readonly anhydrite: number;
  readonly aluminate: number;
  readonly calciumHydroxide: number;
  /** Of a hydraulic lime; 0 of a cement, whose own laws hold it. */
  readonly belite: number;
  /** J per gram at full hydration. */
  readonly heat: number;
  readonly initialSet: number | null;
  readonly finalSet: number | null;
  readonly demould: number | null;
  /** k-value and cap of a pozzolan or slag; 0 for others. */
  readonly k: number;
  readonly kCap: number;
  /** g of fly ash, and of slag, per gram: they hold hydration back and raise what it reaches. */
  readonly flyAsh: number;
  readonly slag: number;
  /** Share counted as reactive pozzolan beside plaster and portland. */
  readonly activity: number;
  /** A natural pozzolan, of which plaster and portland need more. */
  readonly natural: boolean;
  /** What may make calcium aluminate cement set in the bowl. */
  readonly sulfate: boolean;
  readonly lime: boolean;
  readonly effects: readonly EffectNumbers[];
  /** What works in it, where others may hold the same: their effects then share their limits. */
  readonly active: string | null;
}

const WATER_DENSITY = 0.9982;

/** True for what hardens or takes part in hardening: the denominators of water-to-binder. */
export const isBinder = (m: { kind: Kind }): boolean =>
  m.kind === 'cement' || m.kind === 'gypsum' || m.kind === 'lime' || m.kind === 'pozzolan';

/** True for grains that form the skeleton which paste has to fill. */
export const isAggregate = (m: { kind: Kind }): boolean => m.kind === 'sand' || m.kind === 'light-aggregate';

export type ModelNumbers = (id: string) => number;

/** Numbers of the model's own figures under a reading. Throws a RangeError on an id that model.yaml lacks. */
export function modelNumbers(figures: ModelFigures, read: Reading): ModelNumbers {
  // Models ask for the same few figures many times over one blend.
  const known = new Map<string, number>();
  return (id) => {
    const before = known.get(id);
    if (before !== undefined) return before;
    const figure = figures[id];
    if (figure === undefined) throw new RangeError(`no model figure "${id}"`);
    const value = read(`model.${id}`, figure);
    known.set(id, value);
    return value;
  };
}

/** By the table's own list: gradings are not drawn, and what rests on one is worked out once. */
const gradings = new WeakMap<object, Grading>();

function gradingOf(points: NonNullable<Material['grading']>): Grading {
  const known = gradings.get(points);
  if (known !== undefined) return known;
  const grading = points.map((p) => ({ sieve: p.sieve, passing: p.passing.value }));
  gradings.set(points, grading);
  return grading;
}

const orNull = (one: Keyed | null, read: Reading): number | null => (one === null ? null : read(one.key, one.figure));
const orNone = (one: Keyed | null, read: Reading): number => (one === null ? 0 : read(one.key, one.figure));

const isPozzolan = ({ kind, tags }: Material, tag: string): boolean =>
  kind === 'pozzolan' && tags?.includes(tag) === true;

const NO_EFFECTS: readonly EffectNumbers[] = [];

const effectsOf = (effects: NonNullable<Material['effects']>, told: MaterialFigures, read: Reading): EffectNumbers[] =>
  effects.map((e, i) => ({
    on: e.on,
    family: e.in ?? null,
    per: orNone(told.effects[i]!.per, read),
    of: e.of,
    limit: orNull(told.effects[i]!.limit, read),
  }));

/**
 * A material's figures as numbers under a reading.
 *
 * Grains take mixing water into their pores up to their absorption, so their volume in the mix is that of the grain
 * less nothing, while the water they drink vanishes from the paste: freeWater = (moisture - absorption)/(1 + moisture).
 *
 * @throws InputProblems `material-density-missing` when the density is a gap.
 */
export function numbersOf(material: Material, read: Reading): MaterialNumbers {
  const told = materialFigures(material);
  const density = orNull(told.density, read);
  if (density === null) {
    refuse({
      code: 'material-density-missing',
      where: { path: material.id },
      found: isGap(material.density) ? material.density.reason : 'no density',
      expected: 'a particle density in g/cm3',
    });
  }
  const moisture = orNone(told.moisture, read) / 100;
  const absorption = orNone(told.absorption, read) / 100;
  const liquidSolids = orNull(told.solids, read);
  const water = material.kind === 'water' ? 1 : liquidSolids === null ? moisture / (1 + moisture) : 1 - liquidSolids;
  const solids = 1 - water;
  const drinks = absorption * solids;
  const wet = material.kind === 'water' || liquidSolids !== null;
  const freeWater = water - drinks;
  const volume = wet ? 1 / density : solids / density + freeWater / WATER_DENSITY;
  const bulkDensity = orNull(told.bulkDensity, read);
  const { phases } = told;
  const oxides = readOxides(material, (key, figure) => read(`${material.id}.${key}`, figure));
  const made = oxides === null ? null : cementFromOxides(oxides);
  const voids = bulkDensity === null ? 0.4 : Math.min(0.95, Math.max(0.05, 1 - bulkDensity / density));
  return {
    id: material.id,
    name: material.name,
    kind: material.kind,
    family: material.binder?.family ?? null,
    volume,
    bulkDensity,
    grainVolume: solids / density,
    voids,
    grains: material.grading ? grainsOf(gradingOf(material.grading), voids) : null,
    solids,
    liquid: isPoured(material),
    freeWater,
    demand: orNone(told.waterDemand, read),
    so3: (orNull(told.so3, read) ?? made?.so3 ?? 0) / 100,
    hemihydrate: Math.min(1, orNone(phases.hemihydrate, read)),
    c3a: (orNull(phases.c3a, read) ?? made?.c3a ?? 0) / 100,
    yeelimite: Math.min(1, orNone(phases.yeelimite, read)),
    anhydrite: Math.min(1, orNone(phases.anhydrite, read)),
    aluminate: Math.min(1, orNone(phases.monocalciumAluminate, read)),
    calciumHydroxide: Math.min(1, orNone(phases.calciumHydroxide, read)),
    belite: material.kind === 'lime' ? Math.min(1, orNone(phases.belite, read)) : 0,
    heat: orNull(told.heat, read) ?? made?.heat ?? 0,
    initialSet: orNull(told.initialSet, read),
    finalSet: orNull(told.finalSet, read),
    demould: orNull(told.demould, read),
    k: orNone(told.k, read),
    kCap: orNull(told.kCap, read) ?? Number.POSITIVE_INFINITY,
    flyAsh: isPozzolan(material, 'fly-ash') ? solids : 0,
    slag: isPozzolan(material, 'slag') ? solids : 0,
    active: material.active ?? null,
    activity: orNone(told.activity, read),
    natural: material.tags?.includes('natural-pozzolan') === true,
    sulfate: bringsSulfate(material),
    lime: isLime(material),
    effects: material.effects === undefined ? NO_EFFECTS : effectsOf(material.effects, told, read),
  };
}
