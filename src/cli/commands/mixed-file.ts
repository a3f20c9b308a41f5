import { type Brief, readBrief } from '../../core/brief/read-brief.js';
import { readRecipe } from '../../core/brief/read-recipe.js';
import type { Shelf } from '../../core/brief/shelf.js';
import { type Mixed, type MixedOptions, mixedBrief, mixedRecipe } from '../../core/report/mixed.js';
import type { NamedIn } from '../named-file.js';
import type { Call } from '../verb.js';
import { readEither } from './mixed.js';

/** The blend of a brief or recipe file on a shelf that is open already; its brief too, where it came from one. */
export async function mixedFile(
  call: Call,
  file: string,
  shelf: Shelf,
  options: MixedOptions = {},
  namedIn?: NamedIn,
): Promise<{ readonly mixed: Mixed; readonly brief: Brief | null }> {
  const { kind, data, at } = await readEither(call, file, namedIn);
  const invented = data.invented === true;
  if (kind === 'recipe') {
    return { mixed: mixedRecipe(readRecipe(data, shelf, at), shelf, invented, options), brief: null };
  }
  const brief = readBrief(data, shelf, at);
  return { mixed: mixedBrief(brief, shelf, invented, options), brief };
}
