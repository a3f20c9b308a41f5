import { config } from 'zod/mini';

/** Imported first: the schemas would build functions from text to be faster, which the page's content policy forbids. */
export const CAREFUL = config({ jitless: true }).jitless === true;
