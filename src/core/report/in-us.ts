import * as z from 'zod/mini';
import { told } from '../reading/told.js';

/** Words are in metric; beside them stand the same with US units, where those change them. */
export const inUs = <T extends z.core.$ZodLooseShape>(texts: T) =>
  told(z.optional(z.strictObject(texts)), 'the same words with US units, those that they change');
