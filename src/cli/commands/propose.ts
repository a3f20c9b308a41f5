import { readBrief } from '../../core/brief/read-brief.js';
import { briefSchema, type WrittenBrief } from '../../core/brief/schema.js';
import { propose } from '../../core/optimise/propose.js';
import type { PartsAsked } from '../../core/optimise/question.js';
import { proposalResult } from '../../core/report/result.js';
import { openShop, readShaped } from '../load.js';
import { renderProposal } from '../render/proposal.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { shelfSources } from './sources.js';
import { printJson, printSheet, viewOf } from './view.js';
import { wholeNumber } from './whole-number.js';

const MOST_INGREDIENTS = 100;

/** Fields of the brief that options take the place of. */
function asked(call: Call, { limits, parts }: WrittenBrief): Pick<WrittenBrief, 'limits' | 'parts'> {
  const most = wholeNumber(call, 'at-most', MOST_INGREDIENTS);
  const by = call.options['parts'] as PartsAsked['by'] | undefined;
  const kept = typeof parts === 'object' ? parts : {};
  return {
    limits: most === undefined ? limits : { ...limits, ingredients: most },
    parts: by === undefined ? parts : { ...kept, by },
  };
}

export async function proposeVerb(call: Call): Promise<ExitCode> {
  const file = call.operands[0]!;
  const { data, at } = await readShaped(briefSchema, file, call.io);
  const { shelf } = await openShop(shelfSources(call, file, data.shop), call.io);
  const brief = readBrief({ ...data, ...asked(call, data) }, shelf, at);
  const result = proposalResult(brief, propose(brief.question), shelf, data.invented === true);
  if (call.options['json'] === true) printJson(call.io, result);
  else printSheet(call.io, (page) => renderProposal(page, result, viewOf(call, shelf.shop)));
  return result.status === 'met' ? 0 : 1;
}
