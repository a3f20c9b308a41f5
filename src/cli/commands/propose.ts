import { worldOf } from '../../core/blend/world.js';
import { type Brief, readBrief } from '../../core/brief/read-brief.js';
import { briefSchema, type WrittenBrief } from '../../core/brief/schema.js';
import type { Shelf } from '../../core/brief/shelf.js';
import { alternatives } from '../../core/optimise/alternatives.js';
import { AIMS } from '../../core/optimise/objective.js';
import { proposeFrom } from '../../core/optimise/propose.js';
import type { PartsAsked } from '../../core/optimise/question.js';
import { reasonsFor } from '../../core/optimise/reasons.js';
import { settleSystems } from '../../core/optimise/settle-systems.js';
import { proposeSurely } from '../../core/optimise/sure.js';
import { refuse } from '../../core/problems/problem.js';
import { alternativesResult } from '../../core/report/alternatives-result.js';
import { barred } from '../../core/report/barred.js';
import { reasonsResult, surenessResult, unpricedOf, waysOutResult } from '../../core/report/reasons-result.js';
import { proposalResult } from '../../core/report/result.js';
import type { ProposalResult } from '../../core/report/result-schema.js';
import { openShop, readShaped } from '../load.js';
import { renderProposal } from '../render/proposal.js';
import type { ExitCode } from '../run.js';
import { slowly } from '../slowly.js';
import type { Call } from '../verb.js';
import { chanceAsked } from './chance.js';
import { daysAsked } from './days.js';
import { modelsAsked } from './models.js';
import { shelfSources } from './sources.js';
import { printInUnits, printJson } from './view.js';
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

const MOST_ALTERNATIVES = 10;

/** What a proposal is asked to tell besides the blend. */
interface Deeper {
  readonly alternatives: number | undefined;
  readonly reasons: boolean;
  readonly sure: number | undefined;
}

function deeper(call: Call): Deeper {
  const sure = chanceAsked(call, 'sure');
  const alternatives = wholeNumber(call, 'alternatives', MOST_ALTERNATIVES);
  const reasons = call.options['reasons'] === true;
  if (sure !== undefined && (alternatives !== undefined || reasons)) {
    const other = reasons ? '--reasons' : '--alternatives';
    const hint = 'alternatives and reasons are told of the blend that just meets the brief; ask for them by themselves';
    refuse({
      code: 'option-invalid',
      where: { path: other },
      found: `${other} with --sure`,
      expected: 'one of them',
      hint,
    });
  }
  return { sure, alternatives, reasons };
}

/** The proposal with all that was asked for. */
function proposed(
  brief: Brief,
  shelf: Shelf,
  invented: boolean,
  asked: Deeper,
  tell: (what: string) => void,
): ProposalResult {
  const { question } = brief;
  if (asked.sure !== undefined) {
    const { proposal, sureness } = proposeSurely(question, asked.sure);
    return { ...proposalResult(brief, proposal, shelf, invented), sureness: surenessResult(sureness) };
  }
  const world = worldOf(question);
  const settled = settleSystems(question, world, AIMS[question.objective]);
  const found = proposeFrom(question, world, settled);
  const result = proposalResult(brief, found, shelf, invented);
  const more: Partial<ProposalResult> = {};
  if (asked.reasons) {
    tell('looking for what holds the blend back');
    const reasons = reasonsFor(question, world, settled.ranked, unpricedOf(brief, shelf));
    more.reasons = reasons === null ? null : reasonsResult(brief, reasons, shelf);
  }
  if (asked.alternatives !== undefined) {
    tell('looking for other blends');
    const { others } = alternatives(question, asked.alternatives);
    more.alternatives = alternativesResult(brief, result, others, shelf);
  }
  if (found.conflict !== null) more.waysOut = waysOutResult(brief, shelf, found.system, tell);
  return { ...result, ...more };
}

export async function proposeVerb(call: Call): Promise<ExitCode> {
  const file = call.operands[0]!;
  const more = deeper(call);
  const { data, at } = await readShaped('brief', briefSchema, file, call.io);
  const { shelf } = await openShop(shelfSources(call, file, data.shop, at), call.io);
  const brief = readBrief({ ...data, ...asked(call, data), ...daysAsked(call, data) }, shelf, at);
  const found = proposed(brief, shelf, data.invented === true, more, slowly(call.io));
  const result = { ...found, ...(await modelsAsked(call, [found, ...(found.alternatives ?? [])])) };
  if (call.options['json'] === true) printJson(call.io, result);
  else printInUnits(call, shelf.shop, result, renderProposal);
  return result.status === 'met' && result.sureness?.reached !== false && !barred(result) ? 0 : 1;
}
