import * as z from 'zod/mini';
import { told } from '../reading/told.js';
import { figureSchema } from './figure.js';

/** materials/model.yaml: figures of the models themselves (air, voices in the set, drying, strength). */
export const modelFileSchema = z.strictObject({
  model: z.record(
    z.string().check(z.regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)),
    z.safeExtend(figureSchema, {
      title: told(z.string(), 'in metric; quantities in marks ⟦ ⟧ follow the reader’s units'),
    }),
  ),
});

export type ModelFigure = z.infer<typeof modelFileSchema>['model'][string];
export type ModelFigures = Readonly<Record<string, ModelFigure>>;
