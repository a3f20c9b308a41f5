import { z } from 'zod';
import { propertyById } from '../blend/properties/index.js';
import { casting, choice, mould, quantity } from './schema.js';

/** Kinds of casting media that are told from each other by what they are mixed from. */
export const MEDIUM_KINDS = ['gypsum-cement', 'rapid-cement', 'polymer-gypsum'] as const;
export type MediumKind = (typeof MEDIUM_KINDS)[number];

export const LIQUIDS = ['water', 'acrylic'] as const;

/** How hard a dry piece is to the scratch. Classes of ours; see HARDNESS in medium-wanted.ts for what they stand for. */
export const HARDNESSES = ['soft', 'medium', 'hard', 'very-hard'] as const;

/** Properties that a medium can be described by; each takes part in the distance. */
export const DESCRIBED = [
  'demould-weight',
  'dry-weight',
  'water-to-powder',
  'polymer-share',
  'working-time',
  'demould-time',
  'strength',
  'cost',
] as const;
export type Described = (typeof DESCRIBED)[number];

for (const id of DESCRIBED) if (propertyById(id) === undefined) throw new Error(`no property ${id}`);

const each = <S extends z.ZodType>(value: S) =>
  z.strictObject(
    Object.fromEntries(DESCRIBED.map((id) => [id, value.optional()])) as Record<Described, z.ZodOptional<S>>,
  );

const timed = z.union([quantity, z.strictObject({ min: quantity.optional(), max: quantity.optional() })]);

/** A medium that cannot be had, told only by what can be seen, weighed and timed of it. */
export const mediumSchema = z.strictObject({
  ...casting,
  ...choice,
  kind: z.enum(MEDIUM_KINDS).optional().describe('what it is sold as'),
  mix: z
    .strictObject({
      powder: quantity.describe('weight of powder, or parts by weight'),
      liquid: quantity.describe('liquid that goes with it: a weight, a volume, or parts by weight'),
      'liquid-is': z.enum(LIQUIDS).optional().describe('water when left out'),
      'left-when-dry': quantity
        .optional()
        .describe('what is left of a weighed spoonful of an acrylic liquid when it has dried, in percent'),
    })
    .optional(),
  sample: z
    .strictObject({
      volume: quantity.describe('water that fills the mould of the piece that was weighed'),
      demoulded: quantity.optional().describe('its weight when it left the mould'),
      dry: quantity.optional().describe('its weight when it had stopped losing any'),
    })
    .optional(),
  'working-time': timed.optional().describe('a time is "at least so long"; or { min: …, max: … }'),
  'demould-time': timed.optional().describe('a time is "at most so long"; or { min: …, max: … }'),
  hardness: z.enum(HARDNESSES).optional(),
  price: z.string().optional().describe('of the powder, per pack: "38.00 per 25 kg"'),
  'liquid-price': z.string().optional().describe('of the liquid, per pack, where it is not water'),
  mould: mould.optional().describe('the piece to cast; the volume of the sample when left out'),
  within: each(quantity).optional().describe('how far off still passes for the same: "3 %" of the value, or an amount'),
  counts: each(z.number().min(0).max(100))
    .optional()
    .describe('what a miss counts for beside the others; 1 when left out'),
  batch: z
    .strictObject({ pieces: z.number().int().positive().max(100_000).optional(), waste: quantity.optional() })
    .optional(),
});

export type WrittenMedium = z.infer<typeof mediumSchema>;
