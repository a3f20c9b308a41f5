import { z } from 'zod';
import type { Material } from '../materials/schema.js';
import type { Proposal } from '../optimise/propose.js';
import { PARTS_BY } from '../optimise/question.js';
import { scooped } from '../shop/card-scoops.js';

const nullable = z.number().nullable();

export const limitsSchema = z.strictObject({
  ingredients: nullable.describe('most dry ingredients asked for; null: as many as it takes'),
  used: z.number().describe('dry ingredients of the blend'),
  leastDose: z.number().describe('g in the batch that an ingredient is used at, if at all'),
  without: nullable.describe(
    'the objective without these limits, where they changed the blend and something fits then',
  ),
  enough: nullable.describe('fewest dry ingredients that keep everything, where those allowed do not; null: not known'),
});

const partsSchema = z.strictObject({
  by: z.enum(PARTS_BY),
  found: z.boolean().describe('false: the blend has nothing to count out in parts'),
  parts: z.array(
    z.strictObject({
      material: z.string(),
      name: z.string(),
      parts: z.number().int(),
      error: nullable.describe('share by which a scoop of it can weigh too much or too little; null by mass'),
    }),
  ),
  part: z.number().describe('one part of the batch: g by mass, cm3 by scoop'),
  scoops: nullable.describe("one part in the shop's scoops; null by mass"),
  apart: z.array(z.string()).describe('materials weighed beside the parts'),
  without: nullable.describe('the objective without whole numbers, before rounding'),
});

const coarseSchema = z.strictObject({
  step: z.number().describe("g, the scale's step"),
  sides: z.array(
    z.strictObject({
      property: z.string(),
      side: z.enum(['min', 'max']),
      limit: z.number(),
      value: z.number().describe('of the best rounding'),
      missedBy: z.number(),
    }),
  ),
  stepThatWould: nullable.describe('g, coarsest step tried that weighs the blend out with all limits kept'),
});

/** What a proposal tells of ingredients, parts and the scale; new fields of the proposal. */
export const choiceSchemas = {
  limits: limitsSchema.nullable(),
  parts: partsSchema.nullable().describe('null: not asked for'),
  coarse: coarseSchema.nullable().describe('only where a blend keeps every limit and no rounding of it does'),
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
