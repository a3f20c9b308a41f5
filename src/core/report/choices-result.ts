import * as z from 'zod/mini';
import type { Material } from '../materials/schema.js';
import type { Proposal } from '../optimise/propose.js';
import { PARTS_BY } from '../optimise/question.js';
import { told } from '../reading/told.js';
import { scooped } from '../shop/card-scoops.js';

const nullable = z.nullable(z.number());

export const limitsSchema = z.strictObject({
  ingredients: told(nullable, 'most dry ingredients asked for; null: as many as it takes'),
  used: told(z.number(), 'dry ingredients of the blend'),
  leastDose: told(z.number(), 'g in the batch that an ingredient is used at, if at all'),
  without: told(nullable, 'the objective without these limits, where they changed the blend and something fits then'),
  enough: told(nullable, 'fewest dry ingredients that keep everything, where those allowed do not; null: not known'),
});

const partsSchema = z.strictObject({
  by: z.enum(PARTS_BY),
  found: told(z.boolean(), 'false: the blend has nothing to count out in parts'),
  parts: z.array(
    z.strictObject({
      material: z.string(),
      name: z.string(),
      parts: z.int(),
      error: told(nullable, 'share by which a scoop of it can weigh too much or too little; null by mass'),
    }),
  ),
  part: told(z.number(), 'one part of the batch: g by mass, cm3 by scoop'),
  scoops: told(nullable, "one part in the shop's scoops; null by mass"),
  apart: told(z.array(z.string()), 'materials weighed beside the parts'),
  without: told(nullable, 'the objective without whole numbers, before rounding'),
});

const coarseSchema = z.strictObject({
  step: told(z.number(), "g, the scale's step"),
  sides: z.array(
    z.strictObject({
      property: z.string(),
      side: z.enum(['min', 'max']),
      limit: z.number(),
      value: told(z.number(), 'of the best rounding'),
      missedBy: z.number(),
    }),
  ),
  stepThatWould: told(nullable, 'g, coarsest step tried that weighs the blend out with all limits kept'),
});

/** What a proposal tells of ingredients, parts and the scale; new fields of the proposal. */
export const choiceSchemas = {
  limits: z.nullable(limitsSchema),
  parts: told(z.nullable(partsSchema), 'null: not asked for'),
  coarse: told(z.nullable(coarseSchema), 'only where a blend keeps every limit and no rounding of it does'),
};

type ChoiceResults = { readonly [K in keyof typeof choiceSchemas]: z.infer<(typeof choiceSchemas)[K]> };

/** The proposal's choices with names and what a scoop may be off by. */
export function choiceResults(
  { limits, parts, coarse }: Proposal,
  materials: readonly Material[],
  scoop: number,
): ChoiceResults {
  const find = (id: string): Material => materials.find((m) => m.id === id)!;
  return {
    limits: limits === undefined ? null : { ...limits },
    parts:
      parts === undefined
        ? null
        : {
            ...parts,
            apart: [...parts.apart],
            scoops: parts.by === 'scoop' && parts.found ? parts.part / scoop : null,
            parts: parts.parts.map((p) => ({
              ...p,
              name: find(p.material).name,
              error: parts.by === 'scoop' ? (scooped(find(p.material), 1, scoop)?.error ?? null) : null,
            })),
          },
    coarse: coarse === undefined ? null : { ...coarse, sides: coarse.sides.map((s) => ({ ...s })) },
  };
}
