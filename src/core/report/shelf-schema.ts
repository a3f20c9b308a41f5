import * as z from 'zod/mini';
import { materialSchema, sourceSchema } from '../materials/schema.js';
import { told } from '../reading/told.js';
import { warningSchema } from './result-schema.js';

const sources = z.record(z.string(), sourceSchema);

/** `shelf MATERIAL --json`: one material with the sources its figures cite. */
export const materialResultSchema = z.strictObject({
  format: z.literal('pourwright.material/1'),
  material: materialSchema,
  sources,
});

/** `shelf --json`: the materials listed, with the whole bibliography. */
export const shelfResultSchema = z.strictObject({
  format: z.literal('pourwright.shelf/1'),
  materials: z.array(materialSchema),
  sources,
});

/** `shelf --check FILE --json`. */
export const shelfCheckResultSchema = z.strictObject({
  format: z.literal('pourwright.check/1'),
  file: z.string(),
  materials: told(z.array(z.string()), 'ids in the file'),
  replaced: told(z.array(z.string()), 'ids that take the place of shipped ones'),
  withoutDensity: told(z.array(z.string()), 'ids that no blend can use yet'),
  warnings: told(
    z.array(warningSchema),
    'what the file leaves out and is taken from shipped materials of the same family',
  ),
});
