import { mediumSchema } from '../../core/brief/medium-schema.js';
import { readMedium } from '../../core/brief/read-medium.js';
import { standIn } from '../../core/optimise/stand-in.js';
import { refuse } from '../../core/problems/problem.js';
import { barred } from '../../core/report/barred.js';
import { standInResult } from '../../core/report/stand-in-result.js';
import { openShop, readShaped } from '../load.js';
import { renderStandIn } from '../render/stand-in.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { modelsAsked } from './models.js';
import { shelfSources } from './sources.js';
import { printInUnits, printJson } from './view.js';
import { wholeNumber } from './whole-number.js';

const MOST_INGREDIENTS = 100;
const MOST_RANKS = 20;

/** Finds blends that can stand in for a medium that cannot be had. */
export async function standInVerb(call: Call): Promise<ExitCode> {
  const file = call.operands[0]!;
  const { data, at } = await readShaped('medium', mediumSchema, file, call.io);
  const most = wholeNumber(call, 'at-most', MOST_INGREDIENTS);
  const rank = wholeNumber(call, 'rank', MOST_RANKS) ?? 1;
  const { shelf } = await openShop(shelfSources(call, file, data.shop, at), call.io);
  const limits = most === undefined ? data.limits : { ...data.limits, ingredients: most };
  const medium = readMedium({ ...data, limits }, shelf, at);
  const found = standInResult(medium, standIn(medium.question, medium.closeness), shelf, data);
  const result = { ...found, ...(await modelsAsked(call, found.candidates)) };
  const shown = result.candidates[rank - 1];
  if (shown === undefined) {
    const expected = `at most ${result.candidates.length}: so many binders come into question`;
    refuse({ code: 'option-invalid', where: { path: '--rank' }, found: String(rank), expected });
  }
  if (call.options['json'] === true) printJson(call.io, result);
  else printInUnits(call, shelf.shop, result, (page, told, view) => renderStandIn(page, told, rank - 1, view));
  const closest = result.candidates[0]!;
  return closest.holds && closest.within && !barred({ ...result, cautions: closest.cautions }) ? 0 : 1;
}
