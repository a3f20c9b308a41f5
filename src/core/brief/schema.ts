import * as z from 'zod/mini';
import { POURS } from '../blend/conditions.js';
import { LAST_DAY, PROPERTIES, USUAL_DAYS, WEIGHT_DAYS, WEIGHT_ON_DAY } from '../blend/properties/index.js';
import { SERVICES } from '../materials/words.js';
import { OBJECTIVES, PARTS_BY } from '../optimise/question.js';
import { alsoNamed, besideFile, told } from '../reading/told.js';
import { REGIONS } from '../safety/caution.js';
import { FINISHINGS, MOULD_STUFFS, PEOPLE, USES } from '../safety/facts.js';
import { costFields } from './costs-schema.js';
import { PROPERTY_NAMES } from './property-names.js';
import { WEEKDAYS } from './working-hours.js';

/** A quantity as a maker writes it ("250 g", "2 lb 3 oz", "45 min"); read by units/, not by the schema. */
export const quantity = z.union([z.string(), z.number()]);
const materialId = told(z.string(), 'id or name of a material on the shelf');

const solid = z.discriminatedUnion('shape', [
  z.strictObject({ shape: z.literal('box'), length: quantity, width: quantity, height: quantity }),
  z.strictObject({ shape: z.literal('cylinder'), diameter: quantity, height: quantity }),
  z.strictObject({ shape: z.literal('cone'), top: quantity, bottom: quantity, height: quantity }),
  z.strictObject({ shape: z.literal('hexagon'), across: quantity, height: quantity }),
]);

export type WrittenSolid = z.infer<typeof solid>;

const amounts = told(
  z.record(materialId, quantity),
  'materials and how much of each, such as amounts: { casting plaster: 300 g, water: 180 g }',
);

export const BASES = PARTS_BY;

const recipeBody = {
  basis: told(
    z.optional(z.enum(BASES)),
    'what bare numbers are parts of: "mass", or "scoop" (loose volume). Not needed when every amount has a unit',
  ),
  amounts,
};

export const mould = z.strictObject({
  water: told(z.optional(quantity), 'water that fills the mould: mL, or grams of it'),
  solid: told(z.optional(solid), 'outer shape; its volume less the core'),
  core: z.optional(solid),
  piece: told(
    z.optional(z.strictObject({ weight: quantity, ...recipeBody })),
    'weight at demoulding of an earlier piece, and its recipe',
  ),
});

const window = z.strictObject({ min: z.optional(quantity), max: z.optional(quantity) });

const targetName = z.union([
  alsoNamed(z.enum(PROPERTIES.map((p) => p.id)), {
    names: PROPERTY_NAMES,
    listed: '“pourwright why” lists them all',
  }),
  told(z.string().check(z.regex(WEIGHT_ON_DAY)), WEIGHT_DAYS),
]);
const targets = told(
  z.partialRecord(targetName, window),
  'a window on a property: { min: …, max: … }, either side may be left out',
);

const room = z.strictObject({ temperature: z.optional(quantity), humidity: z.optional(quantity) });

/** Air movement over drying pieces in words, [km/h]. Ours: a light draught and a fan across the shelf. */
export const AIR_MOVEMENT = { still: 0, draught: 2, fan: 6 } as const;

const dryingRoom = z.extend(room, {
  air: told(
    z.optional(z.enum(Object.keys(AIR_MOVEMENT) as [keyof typeof AIR_MOVEMENT])),
    'air over the drying piece; still when left out',
  ),
});

/** How and where a piece is cast, and who is near. */
export const casting = {
  title: z.optional(z.string()),
  invented: told(z.optional(z.boolean()), 'true for a made-up example'),
  shop: told(z.optional(z.string()), 'file name of the shop, from this file'),
  wall: told(z.optional(quantity), 'thickness of the piece that water dries through'),
  service: z.optional(z.enum(SERVICES)),
  uses: told(
    z.optional(z.array(z.enum(USES))),
    'what it is for. candle: a holder round a candle in a metal cup of its own; wax: a vessel that holds the wax itself',
  ),
  finish: z.optional(z.enum(FINISHINGS)),
  people: z.optional(z.array(z.enum(PEOPLE))),
  pour: z.optional(z.enum(POURS)),
  room: z.optional(dryingRoom),
  'thinnest-wall': told(z.optional(quantity), 'thickness of the thinnest wall, where walls differ'),
  'open-faces': told(z.optional(z.union([z.literal(1), z.literal(2)])), 'faces of the wall that the air reaches'),
  cover: told(z.optional(quantity), 'how long the piece is kept covered after demoulding'),
  'strength-age': z.optional(quantity),
  'weigh-days': told(
    z.optional(z.array(z.int().check(z.minimum(1), z.maximum(LAST_DAY))).check(z.maxLength(20))),
    `days after pouring whose weight is told too, beside ${USUAL_DAYS.join(', ')}`,
  ),
  'mould-stuff': z.optional(z.enum(MOULD_STUFFS)),
  'aluminium-parts': told(z.optional(z.boolean()), 'a tool, insert or cup of bare aluminium touches the wet mix'),
  targets: z.optional(targets),
};

/** Which materials may be used, and how many: what a brief shares with the description of a medium. */
export const choice = {
  materials: z.optional(
    z.strictObject({
      only: told(
        z.optional(
          z
            .array(materialId)
            .check(z.minLength(1, 'one material or more; leave the line out to choose from the whole shelf')),
        ),
        'nothing else is used (water always is)',
      ),
      also: told(z.optional(z.array(materialId)), 'materials that are left out unless named'),
      never: z.optional(z.array(materialId)),
    }),
  ),
  limits: z.optional(
    z.strictObject({
      ingredients: told(
        z.optional(z.int().check(z.minimum(1), z.maximum(100))),
        'most dry ingredients; water and liquids are not counted',
      ),
      'least-dose': told(
        z.optional(quantity),
        'smallest weight of an ingredient in the batch; five steps of the scale when left out',
      ),
    }),
  ),
};

const parts = told(
  z.union([
    z.enum(PARTS_BY),
    z.strictObject({
      by: z.enum(PARTS_BY),
      most: told(z.optional(z.int().check(z.minimum(1), z.maximum(30))), 'largest number of parts of one ingredient'),
    }),
  ]),
  'whole-number parts of the bulk: by "mass", or by "scoop" (loose volume)',
);

export const shopSchema = z.strictObject({
  title: z.optional(z.string()),
  invented: z.optional(z.boolean()),
  currency: z.optional(told(z.string().check(z.regex(/^[A-Z]{3}$/)), 'three capital letters, such as EUR')),
  prices: told(z.optional(z.string()), 'file name of the price list (CSV), from this file'),
  materials: told(z.optional(z.array(z.string())), 'file names of your own material tables (YAML)'),
  scale: z.optional(
    z.strictObject({
      step: quantity,
      fine: told(
        z.optional(z.strictObject({ step: quantity, most: quantity })),
        'a second, finer scale for small doses',
      ),
    }),
  ),
  scoop: told(z.optional(quantity), 'volume of your scoop'),
  bowl: told(z.optional(quantity), 'the most you mix in one bowl: a weight or a volume'),
  hours: told(z.optional(quantity), 'working hours a day'),
  weekdays: told(z.optional(z.array(z.enum(WEEKDAYS)).check(z.minLength(1))), 'the days you work'),
  pours: told(z.optional(z.string()), 'file name of your record of pours (CSV), from this file'),
  learned: told(z.optional(z.string()), 'file name of what your pours have taught (YAML, written by pours fit)'),
  room: z.optional(room),
  waste: z.optional(quantity),
  region: z.optional(z.enum(REGIONS)),
  units: z.optional(z.enum(['metric', 'us'])),
  ...costFields,
});

const SHOP_FILE = { name: 'the shop file', field: 'shop', schema: shopSchema };

export const briefSchema = besideFile(
  z.strictObject({
    ...casting,
    mould,
    objective: z.enum(OBJECTIVES),
    ...choice,
    parts: z.optional(parts),
    doses: told(
      z.optional(z.record(materialId, quantity)),
      '"1 % of binder": used at just this dose; of what is partly water, such as an emulsion, its solids count',
    ),
    colour: told(z.optional(z.strictObject({ pigment: materialId, share: quantity })), 'share of the binder'),
    batch: z.optional(
      z.strictObject({
        pieces: z.optional(z.int().check(z.positive(), z.maximum(100_000))),
        waste: z.optional(quantity),
      }),
    ),
  }),
  SHOP_FILE,
);

/** What makers call the lines of a recipe before they have seen one. */
const AMOUNTS_ALSO = new Map(['recipe', 'parts', 'ingredients', 'blend'].map((word) => [word, 'amounts']));

export const recipeSchema = besideFile(
  alsoNamed(
    z.strictObject({
      ...casting,
      mould: z.optional(mould),
      ...recipeBody,
      waste: z.optional(quantity),
    }),
    { names: AMOUNTS_ALSO },
  ),
  SHOP_FILE,
);

export type WrittenBrief = z.infer<typeof briefSchema>;
export type WrittenRecipe = z.infer<typeof recipeSchema>;
export type WrittenShop = z.infer<typeof shopSchema>;
export type WrittenLimits = NonNullable<WrittenBrief['limits']>;
export type WrittenParts = z.infer<typeof parts>;
export type WrittenMould = z.infer<typeof mould>;
