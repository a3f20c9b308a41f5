import { z } from 'zod';
import { figureSchema } from './figure.js';

/** materials/model.yaml: figures of the models themselves (air, voices in the set, drying, strength). */
export const modelFileSchema = z.strictObject({
  model: z.record(z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/), figureSchema.safeExtend({ title: z.string() })),
});

export type ModelFigure = z.infer<typeof modelFileSchema>['model'][string];
export type ModelFigures = Readonly<Record<string, ModelFigure>>;
