import type { At } from '../../core/brief/at.js';
import { readBrief } from '../../core/brief/read-brief.js';
import { readRecipe } from '../../core/brief/read-recipe.js';
import { briefSchema, recipeSchema, type WrittenBrief, type WrittenRecipe } from '../../core/brief/schema.js';
import { dottedPlaces } from '../../core/reading/located.js';
import { checkShape } from '../../core/reading/shape.js';
import { readYaml } from '../../core/reading/yaml.js';
import { type Mixed, type MixedOptions, mixedBrief, mixedRecipe } from '../../core/report/mixed.js';
import { readAs } from '../kind-of-file.js';
import { type OpenShop, openShop } from '../load.js';
import { type NamedIn, readNamed } from '../named-file.js';
import type { Call } from '../verb.js';
import { shelfSources } from './sources.js';
import { wholeNumber } from './whole-number.js';

/** A file that holds a brief or a recipe. */
export type Written =
  | { readonly kind: 'brief'; readonly data: WrittenBrief }
  | { readonly kind: 'recipe'; readonly data: WrittenRecipe };

/** A recipe names its amounts; whatever else it is, is read as a brief. */
export async function readEither(call: Call, file: string, namedIn?: NamedIn): Promise<Written & { readonly at: At }> {
  const read = await readNamed(file, call.io, namedIn);
  return readAs(['brief', 'recipe'], read, () => {
    const located = readYaml(read.text, read.file);
    const isRecipe = typeof located.data === 'object' && located.data !== null && 'amounts' in located.data;
    const at = dottedPlaces(located);
    return isRecipe
      ? { kind: 'recipe', data: checkShape(recipeSchema, located), at }
      : { kind: 'brief', data: checkShape(briefSchema, located), at };
  });
}

export interface Opened {
  readonly mixed: Mixed;
  readonly open: OpenShop;
}

/** The blend of a brief or a recipe file, with the shop it is made in. */
export async function openMixed(call: Call, file: string, options: MixedOptions = {}): Promise<Opened> {
  const { kind, data, at } = await readEither(call, file);
  const open = await openShop(shelfSources(call, file, data.shop, at), call.io);
  const { shelf } = open;
  const invented = data.invented === true;
  const mixed =
    kind === 'brief'
      ? mixedBrief(readBrief(data, shelf, at), shelf, invented, options)
      : mixedRecipe(readRecipe(data, shelf, at), shelf, invented, options);
  return { mixed, open };
}

const MOST_PIECES = 100_000;

/** A whole number of pieces from an option, or undefined when it was not given. */
export const wholePieces = (call: Call, name: string): number | undefined => wholeNumber(call, name, MOST_PIECES);
