import { z } from 'zod';
import { materialSchema, sourceSchema } from '../materials/schema.js';

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
  materials: z.array(z.string()).describe('ids in the file'),
  replaced: z.array(z.string()).describe('ids that take the place of shipped ones'),
  withoutDensity: z.array(z.string()).describe('ids that no blend can use yet'),
});
