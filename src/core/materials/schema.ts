import { z } from 'zod';
import { figureIn, figureOrGapIn, figureSchema } from './figure.js';
import { BINDER_FAMILIES, DOSE_BASES, type FigureUnit, KINDS, SERVICES } from './words.js';

const phases = z.strictObject({
  hemihydrate: figureIn('g/g').optional().describe('g CaSO4.0.5H2O per g (gypsum binders: purity)'),
  clinker: figureIn('g/g').optional().describe('g portland clinker per g'),
  c3a: figureIn('percent').optional().describe('percent of the cement'),
  yeelimite: figureIn('g/g').optional().describe('g per g'),
  anhydrite: figureIn('g/g').optional().describe('g CaSO4 per g, inter-ground'),
  belite: figureIn('g/g').optional().describe('g per g'),
  monocalciumAluminate: figureIn('g/g').optional().describe('g per g'),
  calciumHydroxide: figureIn('g/g').optional().describe('g Ca(OH)2 per g'),
  reactiveSilica: figureIn('g/g').optional().describe('g per g, amorphous'),
  reactiveAlumina: figureIn('g/g').optional().describe('g per g, amorphous'),
});

const oxides = z.strictObject({
  cao: figureIn('percent'),
  sio2: figureIn('percent'),
  al2o3: figureIn('percent'),
  fe2o3: figureIn('percent'),
  so3: figureIn('percent'),
  freeLime: figureIn('percent').optional(),
  mgo: figureIn('percent').optional(),
});

const binder = z.strictObject({
  family: z.enum(BINDER_FAMILIES),
  initialSet: figureOrGapIn('min').optional().describe('min, neat at use consistency, 20 °C'),
  finalSet: figureOrGapIn('min').optional().describe('min, likewise'),
  demould: figureOrGapIn('min').optional().describe('min to handling strength, neat, 20 °C'),
  heat: figureIn('J/g').optional().describe('J per g of the binder at full hydration'),
  phases: phases.optional(),
  oxides: oxides
    .optional()
    .describe('oxide analysis of a portland cement, percent; C3A and heat follow from it where the row has none'),
});

const pozzolan = z.strictObject({
  k: figureIn('g/g').optional().describe('g/g, k-value of EN 206: counts as k grams of cement'),
  kCap: figureIn('g/g').optional().describe('g/g, counted at most up to this mass ratio to cement'),
  activity: figureIn('g/g').describe(
    'g/g, share counted as reactive pozzolan in the sulfate screen (1 silica fume, 0.5 fly ash and slag)',
  ),
  phases: phases.optional(),
});

const doseWindow = z.strictObject({
  of: z.enum(DOSE_BASES),
  least: figureIn('percent').optional().describe('percent; below it nothing useful happens'),
  usual: figureIn('percent').describe('percent'),
  warn: figureIn('percent').optional().describe('percent above which the maker is warned'),
  most: figureIn('percent').describe('percent; never proposed above it'),
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
    in: z.enum(BINDER_FAMILIES).optional().describe('binder family it acts on; absent: all'),
    per: figureSchema.describe(
      'set and strength: change of ln(value) per percent; water-demand: fraction saved (negative) or added per percent; air: percent of the volume per percent',
    ),
    of: z.enum(DOSE_BASES).describe('what the percent is a percent of'),
    limit: figureIn('percent').optional().describe('percent; the effect stops growing at this dose'),
  })
  .refine((e) => e.per.unit === EFFECT_UNITS[e.on], {
    error:
      'an effect on set or strength is in "ln per percent", on water-demand in "fraction per percent", on air in "percent per percent"',
  });

const hazard = z.strictObject({
  code: z.string().regex(/^(H\d{3}[A-Za-z]{0,3}|EUH\d{3}[A-Z]?)$/),
  region: z.enum(['EU', 'US', 'both']),
  source: z.string(),
  where: z.string().optional(),
  status: z.enum(['looked-up', 'from-memory', 'common-practice', 'computed', 'ours']),
  note: z.string().optional(),
});

/** One thing on the shelf. */
export const materialSchema = z.strictObject({
  id: z
    .string()
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
    .describe('lower case words joined by hyphens; never changes its meaning'),
  name: z.string().describe('generic trade term'),
  kind: z.enum(KINDS),
  also: z.array(z.string()).optional().describe('other generic words makers use'),
  use: z.string().optional().describe('one plain line: what it is for'),
  density: figureOrGapIn('g/cm3').describe(
    'g/cm3, particle density (solid grains; the grain with its pores for sand and light aggregates); liquids: the liquid',
  ),
  bulkDensity: figureOrGapIn('g/cm3').optional().describe('g/cm3, loose, as scooped'),
  solids: figureIn('g/g').optional().describe('g solids per g; the rest is water (emulsions, liquid admixtures)'),
  absorption: figureOrGapIn('percent').optional().describe('percent of oven-dry mass'),
  moisture: figureOrGapIn('percent').optional().describe('percent of oven-dry mass, as it usually stands on a shelf'),
  so3: figureOrGapIn('percent').optional().describe('percent'),
  waterDemand: figureOrGapIn('g/g')
    .optional()
    .describe('g/g to a pourable slurry (powders) or to wet the grains (sand, pigment, fibre)'),
  blaine: figureOrGapIn('m2/kg').optional().describe('m2/kg'),
  grading: z
    .array(z.strictObject({ sieve: z.number().positive().describe('mm'), passing: figureIn('percent') }))
    .optional()
    .describe('percent passing per sieve'),
  binder: binder.optional(),
  pozzolan: pozzolan.optional(),
  dose: doseWindow.optional(),
  effects: z.array(effect).optional(),
  crystallineSilica: figureOrGapIn('fraction').optional().describe('fraction by mass'),
  respirableSilica: figureOrGapIn('fraction')
    .optional()
    .describe('fraction of the material that is respirable crystalline silica'),
  hazards: z
    .union([z.array(hazard), z.strictObject({ unknown: z.string() })])
    .describe('hazard statements; unknown says why there are none'),
  tags: z
    .array(z.string())
    .optional()
    .describe(
      'words the caution rules look for, such as borate, lithium, glass, carbonate, white, dusty, preservative; liquid: poured',
    ),
  notFor: z.array(z.enum(SERVICES)).optional().describe('services it must not go into'),
  shelfLife: figureOrGapIn('months').optional().describe('months in a closed bag, dry'),
  notes: z.array(z.string()).optional(),
});

export const sourceSchema = z.strictObject({
  title: z.string(),
  by: z.string().optional(),
  year: z.number().int().optional(),
  url: z.string().optional(),
  kind: z.enum(['standard', 'paper', 'agency', 'handbook', 'trade', 'supplier', 'project', 'memory']),
  note: z.string().optional(),
});

/** One family file in materials/: the sources it cites are defined once in sources.yaml. */
export const familyFileSchema = z.strictObject({ materials: z.array(materialSchema) });
export const sourcesFileSchema = z.strictObject({
  sources: z.record(z.string().regex(/^[a-z0-9][a-z0-9.-]*$/), sourceSchema),
});

/** A user's own file: materials overlay the shipped ones by id; its own sources may be added. */
export const userFileSchema = z.strictObject({
  materials: z.array(materialSchema),
  sources: sourcesFileSchema.shape.sources.optional(),
});

export type Material = z.infer<typeof materialSchema>;
export type Source = z.infer<typeof sourceSchema>;
