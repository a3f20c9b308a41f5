import * as z from 'zod/mini';
import { KINDS, STATUSES } from '../materials/words.js';
import { told } from '../reading/told.js';
import { RISK_LEVELS } from '../risks/risk.js';
import { choiceSchemas } from './choices-result.js';
import { inUs } from './in-us.js';
import { reasonsSchema, surenessSchema, waysOutSchema } from './reasons-schema.js';
import { modelsUsedSchema } from './why-schema.js';

/**
 * The JSON that verbs print with --json. Versioned: a field keeps its meaning within a version; new fields may be
 * added. Numbers are in core units, named beside them.
 */

const nullable = z.nullable(z.number());
const words = z.optional(z.string());

export const ingredientSchema = z.strictObject({
  material: told(z.string(), 'id on the shelf'),
  name: z.string(),
  kind: z.enum(KINDS),
  pieceGrams: told(z.number(), 'g in one piece: a mould full of the blend, or the batch where there is no mould'),
  batchGrams: told(z.number(), 'g to weigh for the whole batch, waste included, on the steps of the scale'),
  step: told(z.nullable(z.number()), 'g that the scale it is weighed on can tell; null: told as a recipe has it'),
  partsByMass: told(z.number(), 'per 100 parts of binder by mass; of all solids where there is no binder'),
  litres: told(
    nullable,
    'L as measured out for the batch: loose powder and grains, liquid volume; null: loose density not known',
  ),
  scoops: told(nullable, "the same in the shop's scoops"),
  volumeError: told(
    nullable,
    'share by which so much of it by volume can weigh too much or too little; null: not known',
  ),
});

export const propertySchema = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  value: told(nullable, 'null: see why'),
  low: told(nullable, '5th percentile of the likely range'),
  high: told(nullable, '95th percentile; null beside a low: over a year'),
  why: told(z.nullable(z.string()), 'why there is no value; "over a year" for a time beyond what is told'),
  restsOn: z.string(),
  models: z.array(z.string()),
  contributors: told(
    z.array(
      z.strictObject({
        figure: told(z.string(), 'key of the figure: <material>.<field> or model.<id>'),
        title: told(z.string(), 'the figure in words'),
        share: told(z.number(), 'share of the spread that goes with this figure alone, 0..1'),
        direction: told(z.enum(['rises', 'falls']), 'what the property does as the figure rises'),
        us: inUs({ title: words }),
      }),
    ),
    'the figures that the likely range comes from, largest first, at most three',
  ),
});

export const verdictSchema = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  min: nullable,
  max: nullable,
  value: nullable,
  met: z.boolean(),
  margin: told(nullable, 'distance to the nearer limit in the unit; negative: missed by so much'),
  chance: told(nullable, 'share of the draws that meet it, 0..1'),
});

const cautionSchema = z.strictObject({
  id: z.string(),
  severity: told(z.enum(['stop', 'warn', 'caution', 'info']), 'stop: the blend is barred, whatever targets it meets'),
  title: z.string(),
  text: z.string(),
  short: z.string(),
  source: z.string(),
  status: z.enum(STATUSES),
  because: z.string(),
  region: z.optional(z.enum(['US', 'EU'])),
  us: inUs({ title: words, text: words, short: words, because: words }),
});

export const riskSchema = z.strictObject({
  id: z.string(),
  level: z.enum(RISK_LEVELS),
  text: z.string(),
  models: z.array(z.string()),
  source: z.string(),
  us: inUs({ text: words }),
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
  file: z.optional(z.string()),
  line: z.optional(z.number()),
  path: z.optional(z.string()),
  us: inUs({ message: words }),
});

export const pieceSchema = z.strictObject({
  volume: told(nullable, 'cm3 of the mould; null: assessed by itself'),
  wall: told(z.number(), 'cm'),
  service: z.string(),
  pour: z.string(),
  temperature: told(z.number(), '°C'),
  humidity: told(z.number(), '0..1'),
});

export const ownFiguresSchema = told(
  z.array(z.strictObject({ figure: z.string(), title: z.string() })),
  "figures that come from the shop's own pours and bear on this blend",
);

/** What is told of any blend. */
export const blendFields = {
  blend: z.array(ingredientSchema),
  properties: z.array(propertySchema),
  ownFigures: ownFiguresSchema,
  risks: told(z.array(riskSchema), 'what may spoil the piece, the worst first'),
  cautions: cautionSetSchema,
};

const FILLS =
  'how many moulds the batch as weighed fills, waste included: its steps on the scale leave it a little short or over';

/** What is told of a blend that is not the first of a result: the notes that are its own stand with it. */
export const besideFields = {
  ...blendFields,
  fills: told(z.number(), FILLS),
  warnings: told(z.array(warningSchema), 'where the batch is far from filling its moulds'),
};

export const batchSchema = z.strictObject({
  pieces: told(z.number(), 'pieces asked for, or moulds that a recipe as written fills, waste taken off'),
  waste: told(z.number(), 'share of what is mixed'),
  step: told(z.number(), 'g the scale can tell'),
});

const common = {
  title: z.string(),
  invented: told(z.boolean(), 'true: the input says it is a made-up example'),
  currency: z.nullable(z.string()),
  piece: pieceSchema,
  batch: batchSchema,
  ...blendFields,
  targets: z.array(verdictSchema),
  met: z.boolean(),
  jointChance: told(nullable, 'chance that all targets hold at once; null without targets'),
  models: modelsUsedSchema,
  warnings: z.array(warningSchema),
};

export const assessmentResultSchema = z.strictObject({
  format: z.literal('pourwright.assessment/1'),
  ...common,
  fills: told(
    nullable,
    'how many moulds the recipe as written fills, waste included (batch.pieces: taken off); null without a mould or without weights',
  ),
});

const collisionSchema = z.strictObject({
  property: z.string(),
  side: z.enum(['min', 'max']),
  limit: z.number(),
  kind: z.enum(['target', 'standing']),
  nearest: told(nullable, 'null: the blend has none, or over a year'),
  missedBy: told(nullable, 'null: by more than is told'),
});

export const systemSchema = z.strictObject({
  system: z.string(),
  name: z.string(),
  outcome: z.enum(['chosen', 'possible', 'behind', 'misses', 'closed', 'absent']),
  value: nullable,
  why: z.nullable(z.string()),
  reached: told(
    z.optional(nullable),
    'behind: the value of a blend that keeps every limit, by which it was left; where there was one',
  ),
});

const tradeSchema = z.strictObject({
  property: z.string(),
  name: z.string(),
  unit: z.string(),
  first: told(z.number(), 'of the first proposal'),
  here: z.number(),
  difference: told(z.number(), 'here less first'),
  is: z.enum(['gain', 'loss']),
});

export const alternativeSchema = z.strictObject({
  system: z.string(),
  systemName: z.string(),
  exact: told(nullable, "the objective's property before rounding to the scale"),
  weighed: nullable,
  without: told(z.array(z.string()), 'names of ingredients that count in the first proposal and are not in this one'),
  instead: told(z.array(z.string()), 'the other way round'),
  trades: told(z.array(tradeSchema), 'what it gains and gives up against the first, the largest share first'),
  ...besideFields,
  targets: z.array(verdictSchema),
  met: z.boolean(),
  jointChance: nullable,
});

export const proposalResultSchema = z.strictObject({
  format: z.literal('pourwright.proposal/1'),
  status: told(z.enum(['met', 'nearest']), 'nearest: no blend meets everything; this one misses least'),
  objective: z.strictObject({
    aim: z.string(),
    property: z.string(),
    exact: told(nullable, 'before rounding to the scale'),
    weighed: nullable,
  }),
  system: told(z.string(), 'binder system of the blend'),
  systems: z.array(systemSchema),
  standing: told(z.array(verdictSchema), 'limits every proposal keeps unless the brief sets its own'),
  conflict: z.nullable(
    z.strictObject({ system: z.string(), collisions: z.array(collisionSchema), missed: z.array(collisionSchema) }),
  ),
  still: told(z.boolean(), 'false: re-solving still moved the blend; it was judged by the forward model all the same'),
  fills: told(z.optional(z.number()), FILLS),
  ...choiceSchemas,
  leftOut: z.array(z.strictObject({ material: z.string(), why: z.string() })),
  sureness: told(z.optional(surenessSchema), 'only where a chance was asked for'),
  alternatives: told(z.optional(z.array(alternativeSchema)), 'other ingredients, the best first; only where asked for'),
  reasons: told(z.optional(z.nullable(reasonsSchema)), 'only where asked for; null: the brief is not met'),
  waysOut: told(z.optional(z.nullable(waysOutSchema)), 'only where nothing fits'),
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
export type CollisionResult = z.infer<typeof collisionSchema>;
export type VerdictResult = z.infer<typeof verdictSchema>;
export type ProblemResult = z.infer<typeof problemResultSchema>;
