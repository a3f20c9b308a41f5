import { z } from 'zod';
import { POURS } from '../blend/conditions.js';
import { PROPERTIES } from '../blend/properties/index.js';
import { SERVICES } from '../materials/words.js';
import { OBJECTIVES, PARTS_BY } from '../optimise/question.js';
import { REGIONS } from '../safety/caution.js';
import { FINISHINGS, MOULD_STUFFS, PEOPLE, USES } from '../safety/facts.js';
import { costFields } from './costs-schema.js';
import { WEEKDAYS } from './working-hours.js';

/** A quantity as a maker writes it ("250 g", "2 lb 3 oz", "45 min"); read by units/, not by the schema. */
export const quantity = z.union([z.string(), z.number()]);
const materialId = z.string().describe('id or name of a material on the shelf');

const solid = z.discriminatedUnion('shape', [
  z.strictObject({ shape: z.literal('box'), length: quantity, width: quantity, height: quantity }),
  z.strictObject({ shape: z.literal('cylinder'), diameter: quantity, height: quantity }),
  z.strictObject({ shape: z.literal('cone'), top: quantity, bottom: quantity, height: quantity }),
  z.strictObject({ shape: z.literal('hexagon'), across: quantity, height: quantity }),
]);

export type WrittenSolid = z.infer<typeof solid>;

const amounts = z.record(materialId, quantity);

export const BASES = PARTS_BY;

const recipeBody = {
  basis: z
    .enum(BASES)
    .optional()
    .describe(
      'what bare numbers are parts of: "mass", or "scoop" (loose volume). Not needed when every amount has a unit',
    ),
  amounts,
};

export const mould = z.strictObject({
  water: quantity.optional().describe('water that fills the mould: mL, or grams of it'),
  solid: solid.optional().describe('outer shape; its volume less the core'),
  core: solid.optional(),
  piece: z
    .strictObject({ weight: quantity, ...recipeBody })
    .optional()
    .describe('weight at demoulding of an earlier piece, and its recipe'),
});

const window = z.strictObject({ min: quantity.optional(), max: quantity.optional() });

const targetNames = PROPERTIES.map((p) => p.id);
const optionalWindow = window.optional();
const targets = z
  .strictObject(Object.fromEntries(targetNames.map((id) => [id, optionalWindow])))
  .describe('a window on a property: { min: …, max: … }, either side may be left out');

const room = z.strictObject({ temperature: quantity.optional(), humidity: quantity.optional() });

/** Air movement over drying pieces in words, [km/h]. Ours: a light draught and a fan across the shelf. */
export const AIR_MOVEMENT = { still: 0, draught: 2, fan: 6 } as const;

const dryingRoom = room.extend({
  air: z
    .enum(Object.keys(AIR_MOVEMENT) as [keyof typeof AIR_MOVEMENT])
    .optional()
    .describe('air over the drying piece; still when left out'),
});

/** How and where a piece is cast, and who is near. */
export const casting = {
  title: z.string().optional(),
  invented: z.boolean().optional().describe('true for a made-up example'),
  shop: z.string().optional().describe('file name of the shop, from this file'),
  wall: quantity.optional().describe('thickness of the piece that water dries through'),
  service: z.enum(SERVICES).optional(),
  uses: z.array(z.enum(USES)).optional(),
  finish: z.enum(FINISHINGS).optional(),
  people: z.array(z.enum(PEOPLE)).optional(),
  pour: z.enum(POURS).optional(),
  room: dryingRoom.optional(),
  'thinnest-wall': quantity.optional().describe('thickness of the thinnest wall, where walls differ'),
  'open-faces': z
    .union([z.literal(1), z.literal(2)])
    .optional()
    .describe('faces of the wall that the air reaches'),
  cover: quantity.optional().describe('how long the piece is kept covered after demoulding'),
  'strength-age': quantity.optional(),
  'mould-stuff': z.enum(MOULD_STUFFS).optional(),
  'aluminium-parts': z.boolean().optional().describe('a tool, insert or cup of bare aluminium touches the wet mix'),
  targets: targets.optional(),
};

/** Which materials may be used, and how many: what a brief shares with the description of a medium. */
export const choice = {
  materials: z
    .strictObject({
      only: z.array(materialId).optional().describe('nothing else is used (water always is)'),
      also: z.array(materialId).optional().describe('materials that are left out unless named'),
      never: z.array(materialId).optional(),
    })
    .optional(),
  limits: z
    .strictObject({
      ingredients: z
        .number()
        .int()
        .min(1)
        .max(100)
        .optional()
        .describe('most dry ingredients; water and liquids are not counted'),
      'least-dose': quantity
        .optional()
        .describe('smallest weight of an ingredient in the batch; five steps of the scale when left out'),
    })
    .optional(),
};

const parts = z
  .union([
    z.enum(PARTS_BY),
    z.strictObject({
      by: z.enum(PARTS_BY),
      most: z.number().int().min(1).max(30).optional().describe('largest number of parts of one ingredient'),
    }),
  ])
  .describe('whole-number parts of the bulk: by "mass", or by "scoop" (loose volume)');

export const briefSchema = z.strictObject({
  ...casting,
  mould,
  objective: z.enum(OBJECTIVES),
  ...choice,
  parts: parts.optional(),
  doses: z.record(materialId, quantity).optional().describe('"1 % of binder": used at just this dose'),
  colour: z.strictObject({ pigment: materialId, share: quantity }).optional().describe('share of the binder'),
  batch: z
    .strictObject({ pieces: z.number().int().positive().max(100_000).optional(), waste: quantity.optional() })
    .optional(),
});

export const recipeSchema = z.strictObject({
  ...casting,
  mould: mould.optional(),
  ...recipeBody,
  waste: quantity.optional(),
});

export const shopSchema = z.strictObject({
  title: z.string().optional(),
  invented: z.boolean().optional(),
  currency: z
    .string()
    .regex(/^[A-Z]{3}$/)
    .optional()
    .describe('three letters, such as EUR'),
  prices: z.string().optional().describe('file name of the price list (CSV), from this file'),
  materials: z.array(z.string()).optional().describe('file names of your own material tables (YAML)'),
  scale: z
    .strictObject({
      step: quantity,
      fine: z
        .strictObject({ step: quantity, most: quantity })
        .optional()
        .describe('a second, finer scale for small doses'),
    })
    .optional(),
  scoop: quantity.optional().describe('volume of your scoop'),
  bowl: quantity.optional().describe('the most you mix in one bowl: a weight or a volume'),
  hours: quantity.optional().describe('working hours a day'),
  weekdays: z.array(z.enum(WEEKDAYS)).min(1).optional().describe('the days you work'),
  pours: z.string().optional().describe('file name of your record of pours (CSV), from this file'),
  learned: z.string().optional().describe('file name of what your pours have taught (YAML, written by pours fit)'),
  room: room.optional(),
  waste: quantity.optional(),
  region: z.enum(REGIONS).optional(),
  units: z.enum(['metric', 'us']).optional(),
  ...costFields,
});

export type WrittenBrief = z.infer<typeof briefSchema>;
export type WrittenRecipe = z.infer<typeof recipeSchema>;
export type WrittenShop = z.infer<typeof shopSchema>;
export type WrittenLimits = NonNullable<WrittenBrief['limits']>;
export type WrittenParts = z.infer<typeof parts>;
export type WrittenMould = z.infer<typeof mould>;
