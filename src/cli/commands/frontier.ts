import { propertyById } from '../../core/blend/properties/index.js';
import { noPrices } from '../../core/brief/no-prices.js';
import { meantPropertyId } from '../../core/brief/property-names.js';
import { readBrief } from '../../core/brief/read-brief.js';
import { briefSchema } from '../../core/brief/schema.js';
import { frontier } from '../../core/optimise/frontier.js';
import type { Aim } from '../../core/optimise/objective.js';
import { betterWay } from '../../core/optimise/preference.js';
import type { Objective } from '../../core/optimise/question.js';
import { InputProblems, refuse } from '../../core/problems/problem.js';
import { frontierCsv, frontierResult } from '../../core/report/frontier-result.js';
import { frontierSvg } from '../../core/report/frontier-svg.js';
import { writeText } from '../files.js';
import { openShop, readShaped } from '../load.js';
import { renderFrontier } from '../render/frontier.js';
import type { ExitCode } from '../run.js';
import { slowly } from '../slowly.js';
import type { Call } from '../verb.js';
import { shelfSources } from './sources.js';
import { printInUnits, printJson, viewOf } from './view.js';
import { wholeNumber } from './whole-number.js';

const MOST_POINTS = 500;

/** A property with its direction: "dry-weight" goes the way that is better, "max:dry-weight" the way that is said. */
function aimed(call: Call, option: 'of' | 'against', objective: Objective): Aim {
  const where = { path: `--${option}` };
  const word = String(call.options[option]);
  const [, way, id] = /^(?:(min|max):)?(.*)$/.exec(word)!;
  const property = propertyById(id!);
  if (property === undefined) return refuse({ code: 'property-unknown', where, found: word, ...meantPropertyId(id!) });
  const sense = (way as 'min' | 'max' | undefined) ?? betterWay(property.id, objective);
  if (sense !== null) return { property, sense };
  const expected = `min:${property.id} or max:${property.id}, because neither is better by itself`;
  return refuse({ code: 'option-invalid', where, found: word, expected });
}

export async function frontierVerb(call: Call): Promise<ExitCode> {
  const file = call.operands[0]!;
  const { data, at } = await readShaped('brief', briefSchema, file, call.io);
  const [of, against] = [aimed(call, 'of', data.objective), aimed(call, 'against', data.objective)];
  if (of.property === against.property) {
    refuse({
      code: 'option-invalid',
      where: { path: '--against' },
      found: against.property.id,
      expected: 'another property',
    });
  }
  const points = wholeNumber(call, 'points', MOST_POINTS);
  const { csv, svg } = call.options as { csv?: string; svg?: string };
  // Before the search, so that a slip costs no time and leaves no half of the files.
  named(csv, /\.csv$/i, '--csv', '.csv');
  named(svg, /\.svg$/i, '--svg', '.svg');
  const { shelf } = await openShop(shelfSources(call, file, data.shop, at), call.io);
  const costs = [of, against].some((a) => a.property.id === 'cost');
  if (costs && shelf.prices.size === 0) {
    const path = of.property.id === 'cost' ? '--of' : '--against';
    throw new InputProblems([noPrices(shelf, { path })]);
  }
  // Where cost is asked for, what has no price is out of play, as it is for the cheapest blend.
  const brief = readBrief(costs ? { ...data, objective: 'cheapest' } : data, shelf, at);
  const tell = slowly(call.io);
  const found = frontier(brief.question, of, against, {
    ...(points === undefined ? {} : { points }),
    progress: (share) => {
      if (share < 1) tell(`${Math.round(100 * share)} % of the frontier`);
    },
  });
  const result = frontierResult(brief, of, against, found, { invented: data.invented === true, shelf });
  if (csv !== undefined) save(call, csv, frontierCsv(result));
  if (svg !== undefined) save(call, svg, `${frontierSvg(result, viewOf(call, shelf.shop).wording).html}\n`);
  if (call.options['json'] === true) printJson(call.io, result);
  else printInUnits(call, shelf.shop, result, renderFrontier);
  return result.points.some((p) => !p.barred) ? 0 : 1;
}

function named(name: string | undefined, ending: RegExp, option: string, end: string): void {
  if (name === undefined || ending.test(name)) return;
  refuse({
    code: 'option-invalid',
    where: { path: option },
    found: name,
    expected: `a file name that ends in ${end}`,
  });
}

function save(call: Call, name: string, text: string): void {
  writeText(name, text);
  call.io.err(`pourwright: wrote ${name}\n`);
}
