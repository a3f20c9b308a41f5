import { z } from 'zod';
import { KINDS, STATUSES } from '../materials/words.js';
import { RISK_LEVELS } from '../risks/risk.js';
import { choiceSchemas } from './choices-result.js';
import { reasonsSchema, surenessSchema, waysOutSchema } from './reasons-schema.js';

/**
 * The JSON that verbs print with --json. Versioned: a field keeps its meaning within a version; new fields may be
 * added. Numbers are in core units, named beside them.
 */

const nullable = z.number().nullable();

export const ingredientSchema = z.strictObject({
  material: z.string().describe('id on the shelf'),
  name: z.string(),
  kind: z.enum(KINDS),
  pieceGrams: z.number().describe('g in one piece'),
  batchGrams: z.number().describe('g to weigh for the whole batch, waste included, on the steps of the scale'),
  partsByMass: z.number().describe('per 100 parts of binder by mass; of all solids where there is no binder'),
  litres: nullable.describe(
    'L as measured out for the batch: loose powder and grains, liquid volume; null: loose density not known',
  ),
  scoops: nullable.describe("the same in the shop's scoops"),
});

export const propertySchema = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  value: nullable,
  low: nullable.describe('5th percentile of the likely range'),
  high: nullable.describe('95th percentile'),
  why: z.string().nullable().describe('why there is no value'),
  restsOn: z.string(),
  models: z.array(z.string()),
  contributors: z
    .array(
      z.strictObject({
        figure: z.string().describe('key of the figure: <material>.<field> or model.<id>'),
        title: z.string().describe('the figure in words'),
        share: z.number().describe('share of the spread that goes with this figure alone, 0..1'),
        direction: z.enum(['rises', 'falls']).describe('what the property does as the figure rises'),
      }),
    )
    .describe('the figures that the likely range comes from, largest first, at most three'),
});

export const verdictSchema = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  min: nullable,
  max: nullable,
  value: nullable,
  met: z.boolean(),
  margin: nullable.describe('distance to the nearer limit in the unit; negative: missed by so much'),
  chance: nullable.describe('share of 2,000-draw style samples that meet it, 0..1'),
});

const cautionSchema = z.strictObject({
  id: z.string(),
  severity: z.enum(['stop', 'warn', 'caution', 'info']),
  title: z.string(),
  text: z.string(),
  short: z.string(),
  source: z.string(),
  status: z.enum(STATUSES),
  because: z.string(),
  region: z.enum(['US', 'EU']).optional(),
});

export const riskSchema = z.strictObject({
  id: z.string(),
  level: z.enum(RISK_LEVELS),
  text: z.string(),
  models: z.array(z.string()),
  source: z.string(),
});

export const cautionSetSchema = z.strictObject({
  form: z.enum(['full', 'short']),
  region: z.enum(['US', 'EU']),
  cautions: z.array(cautionSchema),
  firstAid: z.array(
    z.strictObject({ when: z.string(), act: z.string(), source: z.string(), status: z.enum(STATUSES) }),
  ),
  closing: z.string(),
});

export const warningSchema = z.strictObject({
  code: z.string(),
  severity: z.enum(['error', 'warning', 'note']),
  message: z.string(),
  file: z.string().optional(),
  line: z.number().optional(),
  path: z.string().optional(),
});

export const pieceSchema = z.strictObject({
  volume: nullable.describe('cm3 of the mould; null: assessed by itself'),
  wall: z.number().describe('cm'),
  service: z.string(),
  pour: z.string(),
  temperature: z.number().describe('°C'),
  humidity: z.number().describe('0..1'),
});

export const ownFiguresSchema = z
  .array(z.strictObject({ figure: z.string(), title: z.string() }))
  .describe("figures that come from the shop's own pours and bear on this blend");

/** What is told of any blend. */
export const blendFields = {
  blend: z.array(ingredientSchema),
  properties: z.array(propertySchema),
  ownFigures: ownFiguresSchema,
  risks: z.array(riskSchema).describe('what may spoil the piece, the worst first'),
  cautions: cautionSetSchema,
};

export const batchSchema = z.strictObject({ pieces: z.number(), waste: z.number(), step: z.number() });

const common = {
  title: z.string(),
  invented: z.boolean().describe('true: the input says it is a made-up example'),
  currency: z.string().nullable(),
  piece: pieceSchema,
  batch: batchSchema,
  ...blendFields,
  targets: z.array(verdictSchema),
  met: z.boolean(),
  jointChance: nullable.describe('chance that all targets hold at once; null without targets'),
  warnings: z.array(warningSchema),
};

export const assessmentResultSchema = z.strictObject({
  format: z.literal('pourwright.assessment/1'),
  ...common,
  fills: nullable.describe('how many moulds the recipe as written fills; null without a mould or without weights'),
});

const collisionSchema = z.strictObject({
  property: z.string(),
  side: z.enum(['min', 'max']),
  limit: z.number(),
  kind: z.enum(['target', 'standing']),
  nearest: nullable,
  missedBy: z.number(),
});

export const systemSchema = z.strictObject({
  system: z.string(),
  name: z.string(),
  outcome: z.enum(['chosen', 'possible', 'behind', 'misses', 'closed', 'absent']),
  value: nullable,
  why: z.string().nullable(),
});

const tradeSchema = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  first: z.number().describe('of the first proposal'),
  here: z.number(),
  difference: z.number().describe('here less first'),
  is: z.enum(['gain', 'loss']),
});

export const alternativeSchema = z.strictObject({
  system: z.string(),
  systemName: z.string(),
  exact: nullable.describe("the objective's property before rounding to the scale"),
  weighed: nullable,
  without: z
    .array(z.string())
    .describe('names of ingredients that count in the first proposal and are not in this one'),
  instead: z.array(z.string()).describe('the other way round'),
  trades: z.array(tradeSchema).describe('what it gains and gives up against the first, the largest share first'),
  ...blendFields,
  targets: z.array(verdictSchema),
  met: z.boolean(),
  jointChance: nullable,
});

export const proposalResultSchema = z.strictObject({
  format: z.literal('pourwright.proposal/1'),
  status: z.enum(['met', 'nearest']).describe('nearest: no blend meets everything; this one misses least'),
  objective: z.strictObject({
    aim: z.string(),
    property: z.string(),
    exact: nullable.describe('before rounding to the scale'),
    weighed: nullable,
  }),
  system: z.string().describe('binder system of the blend'),
  systems: z.array(systemSchema),
  standing: z.array(verdictSchema).describe('limits every proposal keeps unless the brief sets its own'),
  conflict: z
    .strictObject({ system: z.string(), collisions: z.array(collisionSchema), missed: z.array(collisionSchema) })
    .nullable(),
  still: z
    .boolean()
    .describe('false: re-solving still moved the blend; it was judged by the forward model all the same'),
  ...choiceSchemas,
  leftOut: z.array(z.strictObject({ material: z.string(), why: z.string() })),
  sureness: surenessSchema.optional().describe('only where a chance was asked for'),
  alternatives: z
    .array(alternativeSchema)
    .optional()
    .describe('other ingredients, the best first; only where asked for'),
  reasons: reasonsSchema.nullable().optional().describe('only where asked for; null: the brief is not met'),
  waysOut: waysOutSchema.nullable().optional().describe('only where nothing fits'),
  ...common,
});

export const problemResultSchema = z.strictObject({
  format: z.literal('pourwright.problems/1'),
  problems: z.array(warningSchema),
});

export type AssessmentResult = z.infer<typeof assessmentResultSchema>;
export type ProposalResult = z.infer<typeof proposalResultSchema>;
export type AlternativeResult = z.infer<typeof alternativeSchema>;
export type IngredientResult = z.infer<typeof ingredientSchema>;
export type PropertyResult = z.infer<typeof propertySchema>;
export type RiskResult = z.infer<typeof riskSchema>;
export type VerdictResult = z.infer<typeof verdictSchema>;
export type ProblemResult = z.infer<typeof problemResultSchema>;
