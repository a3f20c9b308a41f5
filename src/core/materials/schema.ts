import * as z from 'zod/mini';
import { told } from '../reading/told.js';
import { figureIn, figureOrGapIn, figureWithin, type Plausible } from './figure.js';
import { BINDER_FAMILIES, DOSE_BASES, type FigureUnit, KINDS, SERVICES } from './words.js';

/** Parts of a whole. */
const SHARE: Plausible = { least: 0, most: 1 };
const PERCENT: Plausible = { least: 0, most: 100 };
/** Minutes; lime is left in the mould for weeks. */
const TIME: Plausible = { above: 0, most: 144_000 };

const phases = z.strictObject({
  hemihydrate: told(z.optional(figureIn('g/g', SHARE)), 'g CaSO4.0.5H2O per g (gypsum binders: purity)'),
  clinker: told(z.optional(figureIn('g/g', SHARE)), 'g portland clinker per g'),
  c3a: told(z.optional(figureIn('percent', PERCENT)), 'percent of the cement'),
  yeelimite: told(z.optional(figureIn('g/g', SHARE)), 'g per g'),
  anhydrite: told(z.optional(figureIn('g/g', SHARE)), 'g CaSO4 per g, inter-ground'),
  belite: told(z.optional(figureIn('g/g', SHARE)), 'g per g'),
  monocalciumAluminate: told(z.optional(figureIn('g/g', SHARE)), 'g per g'),
  calciumHydroxide: told(z.optional(figureIn('g/g', SHARE)), 'g Ca(OH)2 per g'),
  reactiveSilica: told(z.optional(figureIn('g/g', SHARE)), 'g per g, amorphous'),
  reactiveAlumina: told(z.optional(figureIn('g/g', SHARE)), 'g per g, amorphous'),
});

const oxides = z.strictObject({
  cao: figureIn('percent', PERCENT),
  sio2: figureIn('percent', PERCENT),
  al2o3: figureIn('percent', PERCENT),
  fe2o3: figureIn('percent', PERCENT),
  so3: figureIn('percent', PERCENT),
  freeLime: z.optional(figureIn('percent', PERCENT)),
  mgo: z.optional(figureIn('percent', PERCENT)),
});

const binder = z.strictObject({
  family: z.enum(BINDER_FAMILIES),
  initialSet: told(z.optional(figureOrGapIn('min', TIME)), 'min, neat at use consistency, 20 °C'),
  finalSet: told(z.optional(figureOrGapIn('min', TIME)), 'min, likewise'),
  demould: told(z.optional(figureOrGapIn('min', TIME)), 'min to handling strength, neat, 20 °C'),
  heat: told(z.optional(figureIn('J/g', { least: 0, most: 1500 })), 'J per g of the binder at full hydration'),
  phases: z.optional(phases),
  oxides: told(
    z.optional(oxides),
    'oxide analysis of a portland cement, percent; C3A and heat follow from it where the row has none',
  ),
});

const pozzolan = z.strictObject({
  k: told(z.optional(figureIn('g/g', { least: 0, most: 5 })), 'g/g, k-value of EN 206: counts as k grams of cement'),
  kCap: told(
    z.optional(figureIn('g/g', { least: 0, most: 10 })),
    'g/g, counted at most up to this mass ratio to cement',
  ),
  activity: told(
    figureIn('g/g', SHARE),
    'g/g, share counted as reactive pozzolan in the sulfate screen (1 silica fume, 0.5 fly ash and slag)',
  ),
  phases: z.optional(phases),
});

const doseWindow = z.strictObject({
  of: z.enum(DOSE_BASES),
  least: told(z.optional(figureIn('percent', PERCENT)), 'percent; below it nothing useful happens'),
  usual: told(figureIn('percent', PERCENT), 'percent'),
  warn: told(z.optional(figureIn('percent', PERCENT)), 'percent above which the maker is warned'),
  most: told(figureIn('percent', PERCENT), 'percent; never proposed above it'),
});

/** Unit of an effect's `per`, by what it acts on. */
const EFFECT_UNITS = {
  set: 'ln per percent',
  strength: 'ln per percent',
  'water-demand': 'fraction per percent',
  air: 'percent per percent',
} as const satisfies Record<string, FigureUnit>;

const effect = z
  .strictObject({
    on: z.enum(['set', 'water-demand', 'strength', 'air']),
    in: told(z.optional(z.enum(BINDER_FAMILIES)), 'binder family it acts on; absent: all'),
    per: told(
      figureWithin({ least: -100, most: 100 }),
      'set and strength: change of ln(value) per percent; water-demand: fraction saved (negative) or added per percent; air: percent of the volume per percent',
    ),
    of: told(z.enum(DOSE_BASES), 'what the percent is a percent of'),
    limit: told(z.optional(figureIn('percent', PERCENT)), 'percent; the effect stops growing at this dose'),
  })
  .check(
    z.refine((e) => e.per.unit === EFFECT_UNITS[e.on], {
      error:
        'an effect on set or strength is in "ln per percent", on water-demand in "fraction per percent", on air in "percent per percent"',
    }),
  );

const hazard = z.strictObject({
  code: z.string().check(z.regex(/^(H\d{3}[A-Za-z]{0,3}|EUH\d{3}[A-Z]?)$/)),
  region: z.enum(['EU', 'US', 'both']),
  source: z.string(),
  where: z.optional(z.string()),
  status: z.enum(['looked-up', 'from-memory', 'common-practice', 'computed', 'ours']),
  note: z.optional(z.string()),
});

/** One thing on the shelf. */
export const materialSchema = z.strictObject({
  id: told(
    z.string().check(z.regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)),
    'lower case words joined by hyphens; never changes its meaning',
  ),
  name: told(z.string(), 'generic trade term'),
  kind: z.enum(KINDS),
  also: told(z.optional(z.array(z.string())), 'other generic words makers use'),
  use: told(z.optional(z.string()), 'one plain line: what it is for'),
  density: told(
    figureOrGapIn('g/cm3', { above: 0, most: 25 }),
    'g/cm3, particle density (solid grains; the grain with its pores for sand and light aggregates); liquids: the liquid',
  ),
  bulkDensity: told(z.optional(figureOrGapIn('g/cm3', { above: 0, most: 25 })), 'g/cm3, loose, as scooped'),
  solids: told(
    z.optional(figureIn('g/g', { above: 0, most: 1 })),
    'g solids per g; the rest is water (emulsions, liquid admixtures)',
  ),
  absorption: told(z.optional(figureOrGapIn('percent', { least: 0, most: 1000 })), 'percent of oven-dry mass'),
  moisture: told(
    z.optional(figureOrGapIn('percent', { least: 0, most: 500 })),
    'percent of oven-dry mass, as it usually stands on a shelf',
  ),
  so3: told(z.optional(figureOrGapIn('percent', PERCENT)), 'percent'),
  waterDemand: told(
    z.optional(figureOrGapIn('g/g', { least: 0, most: 5 })),
    'g/g to a pourable slurry (powders) or to wet the grains (sand, pigment, fibre)',
  ),
  blaine: told(z.optional(figureOrGapIn('m2/kg', { above: 0, most: 500_000 })), 'm2/kg'),
  grading: told(
    z.optional(
      z.array(
        z.strictObject({
          sieve: told(z.number().check(z.positive(), z.lte(200)), 'mm'),
          passing: figureIn('percent', PERCENT),
        }),
      ),
    ),
    'percent passing per sieve',
  ),
  binder: z.optional(binder),
  pozzolan: z.optional(pozzolan),
  active: told(
    z.optional(z.string().check(z.regex(/^[a-z0-9]+(-[a-z0-9]+)*$/))),
    'what works in it; materials with the same one share their dose windows and the limits of their effects',
  ),
  dose: z.optional(doseWindow),
  effects: z.optional(z.array(effect)),
  crystallineSilica: told(z.optional(figureOrGapIn('fraction', SHARE)), 'fraction by mass'),
  respirableSilica: told(
    z.optional(figureOrGapIn('fraction', SHARE)),
    'fraction of the material that is respirable crystalline silica',
  ),
  hazards: told(
    z.union([z.array(hazard), z.strictObject({ unknown: z.string() })]),
    'hazard statements; unknown says why there are none',
  ),
  tags: told(
    z.optional(z.array(z.string())),
    'words the caution rules look for, such as borate, lithium, glass, carbonate, white, dusty, preservative; liquid: poured',
  ),
  notFor: told(z.optional(z.array(z.enum(SERVICES))), 'services it must not go into'),
  shelfLife: told(z.optional(figureOrGapIn('months', { above: 0, most: 1200 })), 'months in a closed bag, dry'),
  notes: z.optional(z.array(z.string())),
});

export const sourceSchema = z.strictObject({
  title: z.string(),
  by: z.optional(z.string()),
  year: z.optional(z.int()),
  url: z.optional(z.string()),
  kind: z.enum(['standard', 'paper', 'agency', 'handbook', 'trade', 'supplier', 'project', 'memory']),
  note: z.optional(z.string()),
});

/** One family file in materials/: the sources it cites are defined once in sources.yaml. */
export const familyFileSchema = z.strictObject({ materials: z.array(materialSchema) });
export const sourcesFileSchema = z.strictObject({
  sources: z.record(z.string().check(z.regex(/^[a-z0-9][a-z0-9.-]*$/)), sourceSchema),
});

/** A user's own file: materials overlay the shipped ones by id; its own sources may be added. */
export const userFileSchema = z.strictObject({
  materials: z.array(materialSchema),
  sources: z.optional(sourcesFileSchema.shape.sources),
});

export type Material = z.infer<typeof materialSchema>;
export type Source = z.infer<typeof sourceSchema>;
