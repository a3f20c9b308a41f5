import { type Brief, readBrief } from '../../src/core/brief/read-brief.js';
import { type Recipe, readRecipe } from '../../src/core/brief/read-recipe.js';
import { readShop } from '../../src/core/brief/read-shop.js';
import { briefSchema, recipeSchema, shopSchema } from '../../src/core/brief/schema.js';
import { DEFAULT_SHOP, type Shelf, type Shop } from '../../src/core/brief/shelf.js';
import { explain } from '../../src/core/problems/words.js';
import { dottedPlaces } from '../../src/core/reading/located.js';
import { checkShape } from '../../src/core/reading/shape.js';
import { readYaml } from '../../src/core/reading/yaml.js';
import { shelfOf } from './bench-shelf.js';
import { problemsOf } from './problems.js';

/** Briefs, recipes and shops as makers write them: YAML text, read with its lines. Prices are invented. */

export const SHELF: Shelf = shelfOf({ ...DEFAULT_SHOP, currency: 'EUR' });

export function brief(text: string, shelf: Shelf = SHELF): Brief {
  const located = readYaml(text, 'brief.yaml');
  return readBrief(checkShape(briefSchema, located), shelf, dottedPlaces(located));
}

export function recipe(text: string, shelf: Shelf = SHELF): Recipe {
  const located = readYaml(text, 'recipe.yaml');
  return readRecipe(checkShape(recipeSchema, located), shelf, dottedPlaces(located));
}

export function shop(text: string): Shop {
  const located = readYaml(text, 'shop.yaml');
  return readShop(checkShape(shopSchema, located), dottedPlaces(located));
}

/** "code line path", one a problem, in the order they are told. */
export const told = (read: () => unknown): readonly string[] =>
  problemsOf(read).map(({ code, where }) => [code, where?.line, where?.path].filter((p) => p !== undefined).join(' '));

/** The messages a maker would read. */
export const said = (read: () => unknown): readonly string[] => problemsOf(read).map(explain);
