import { readRecipe } from '../../core/brief/read-recipe.js';
import { recipeSchema } from '../../core/brief/schema.js';
import { barred } from '../../core/report/barred.js';
import { assessRecipe } from '../../core/report/result.js';
import { openShop, readShaped } from '../load.js';
import { renderAssessment } from '../render/assessment.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { daysAsked } from './days.js';
import { modelsAsked } from './models.js';
import { shelfSources } from './sources.js';
import { printInUnits, printJson } from './view.js';

export async function assessVerb(call: Call): Promise<ExitCode> {
  const file = call.operands[0]!;
  const { data, at } = await readShaped('recipe', recipeSchema, file, call.io);
  const { shelf } = await openShop(shelfSources(call, file, data.shop, at), call.io);
  const recipe = readRecipe({ ...data, ...daysAsked(call, data) }, shelf, at);
  const assessed = assessRecipe(recipe, shelf, data.invented === true);
  const result = { ...assessed, ...(await modelsAsked(call, [assessed])) };
  if (call.options['json'] === true) printJson(call.io, result);
  else printInUnits(call, shelf.shop, result, renderAssessment);
  return result.met && !barred(result) ? 0 : 1;
}
