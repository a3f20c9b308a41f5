import type * as z from 'zod/mini';
import { quoted } from '../problems/words.js';
import type { Path } from './located.js';
import { type Place, placesOf } from './schema-walk.js';
import { companionOf } from './told.js';

/** More places than this tell a maker nothing. */
const MOST_PLACES = 2;

const depthOf = (path: string): number => (path === '' ? 0 : path.split('.').length);

/**
 * Where a name that is no field of `here` is one: "It belongs under “targets”", or where it is a word, as "cylinder" is for a
 * shape. At most a level deeper than it stands: what lies further down was hardly meant. Undefined where it is neither, or is
 * in many places, or is a field here but for its capitals and hyphens.
 */
export function fieldElsewhere(name: string, here: Path, schema: z.core.$ZodType): string | undefined {
  const own = here.filter((step) => typeof step === 'string').join('.');
  const places = placesOf(schema, name);
  const fields = places.filter(({ as, path }) => as === 'field' && depthOf(path) <= depthOf(own) + 1);
  if (fields.length === 0) return asWord(places);
  if (fields.length > MOST_PLACES || fields.some(({ path }) => path === own)) return undefined;
  const where = fields.map(({ path }) => (path === '' ? 'at the top of the file' : `under ${quoted(path)}`));
  return `It belongs ${where.join(' or ')}`;
}

/** Where a word that may not stand here may: "It is a word for “uses”". */
export const wordElsewhere = (word: string, schema: z.core.$ZodType): string | undefined =>
  asWord(placesOf(schema, word));

function asWord(places: readonly Place[]): string | undefined {
  const takers = places.filter(({ as }) => as === 'word').map(({ path }) => quoted(path));
  return takers.length === 0 || takers.length > MOST_PLACES ? undefined : `It is a word for ${takers.join(' or ')}`;
}

/** That a field belongs in the file that this one names: "It belongs in the shop file, which “shop” names". */
export function fieldOfCompanion(name: string, schema: z.core.$ZodType): string | undefined {
  const companion = companionOf.get(schema);
  if (companion === undefined) return undefined;
  const isField = placesOf(companion.schema, name).some(({ path, as }) => as === 'field' && path === '');
  return isField ? `It belongs in ${companion.name}, which ${quoted(companion.field)} names` : undefined;
}
