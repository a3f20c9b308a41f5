import * as z from 'zod/mini';
import { propertyById } from '../blend/properties/index.js';
import { told } from '../reading/told.js';
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

const each = <S extends z.ZodMiniType>(value: S) =>
  z.strictObject(
    Object.fromEntries(DESCRIBED.map((id) => [id, z.optional(value)])) as Record<Described, z.ZodMiniOptional<S>>,
  );

const timed = z.union([quantity, z.strictObject({ min: z.optional(quantity), max: z.optional(quantity) })]);

/** A medium that cannot be had, told only by what can be seen, weighed and timed of it. */
export const mediumSchema = z.strictObject({
  ...casting,
  ...choice,
  kind: told(z.optional(z.enum(MEDIUM_KINDS)), 'what it is sold as'),
  mix: z.optional(
    z.strictObject({
      powder: told(quantity, 'weight of powder, or parts by weight'),
      liquid: told(quantity, 'liquid that goes with it: a weight, a volume, or parts by weight'),
      'liquid-is': told(z.optional(z.enum(LIQUIDS)), 'water when left out'),
      'left-when-dry': told(
        z.optional(quantity),
        'what is left of a weighed spoonful of an acrylic liquid when it has dried, in percent',
      ),
    }),
  ),
  sample: z.optional(
    z.strictObject({
      volume: told(quantity, 'water that fills the mould of the piece that was weighed'),
      demoulded: told(z.optional(quantity), 'its weight when it left the mould'),
      dry: told(z.optional(quantity), 'its weight when it had stopped losing any'),
    }),
  ),
  'working-time': told(z.optional(timed), 'a time is "at least so long"; or { min: …, max: … }'),
  'demould-time': told(z.optional(timed), 'a time is "at most so long"; or { min: …, max: … }'),
  hardness: z.optional(z.enum(HARDNESSES)),
  price: told(z.optional(z.string()), 'of the powder, per pack: "38.00 per 25 kg"'),
  'liquid-price': told(z.optional(z.string()), 'of the liquid, per pack, where it is not water'),
  mould: told(z.optional(mould), 'the piece to cast; the volume of the sample when left out'),
  within: told(z.optional(each(quantity)), 'how far off still passes for the same: "3 %" of the value, or an amount'),
  counts: told(
    z.optional(each(z.number().check(z.minimum(0), z.maximum(100)))),
    'what a miss counts for beside the others; 1 when left out',
  ),
  batch: z.optional(
    z.strictObject({
      pieces: z.optional(z.int().check(z.positive(), z.maximum(100_000))),
      waste: z.optional(quantity),
    }),
  ),
});

export type WrittenMedium = z.infer<typeof mediumSchema>;
