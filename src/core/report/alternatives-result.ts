import { propertyById } from '../blend/properties/index.js';
import type { Brief } from '../brief/read-brief.js';
import type { Shelf } from '../brief/shelf.js';
import type { Alternative } from '../optimise/alternatives.js';
import { betterWay } from '../optimise/preference.js';
import type { Objective } from '../optimise/question.js';
import { significant } from './print.js';
import { problemResult } from './problem-result.js';
import { proposalResult } from './result.js';
import type { AlternativeResult, PropertyResult, ProposalResult } from './result-schema.js';
import { unfilledMould } from './unfilled-mould.js';

/** Other proposals beside the first: their blends, and what each gains and gives up. */
export function alternativesResult(
  brief: Brief,
  first: ProposalResult,
  others: readonly Alternative[],
  shelf: Shelf,
): AlternativeResult[] {
  const nameOf = (id: string): string => shelf.materials.find((m) => m.id === id)!.name;
  return others.map(({ proposal, without, instead }): AlternativeResult => {
    const told = proposalResult(brief, proposal, shelf, first.invented);
    const { blend, properties, ownFigures, risks, cautions, targets, met, jointChance } = told;
    return {
      system: proposal.system,
      systemName: told.systems.find((s) => s.system === proposal.system)!.name,
      exact: told.objective.exact,
      weighed: told.objective.weighed,
      without: without.map(nameOf),
      instead: instead.map(nameOf),
      trades: tradesOf(first.properties, properties, brief.question.objective),
      blend,
      properties,
      ownFigures,
      risks,
      cautions,
      targets,
      met,
      jointChance,
      fills: proposal.fills,
      warnings: unfilledMould(brief.question, proposal.fills).map(problemResult),
    };
  });
}

/** Properties that are better or worse by more than what is printed, the largest share first. */
function tradesOf(
  first: readonly PropertyResult[],
  here: readonly PropertyResult[],
  objective: Objective,
): AlternativeResult['trades'] {
  const trades = here.flatMap((p) => {
    const way = betterWay(p.property, objective);
    const before = first.find((f) => f.property === p.property)?.value ?? null;
    if (way === null || p.value === null || before === null) return [];
    const { digits, name, unit } = propertyById(p.property)!;
    if (significant(before, digits) === significant(p.value, digits)) return [];
    const difference = p.value - before;
    const is = difference < 0 === (way === 'min') ? ('gain' as const) : ('loss' as const);
    return [{ property: p.property, name, unit, first: before, here: p.value, difference, is }];
  });
  const share = (t: (typeof trades)[number]): number =>
    Math.abs(Math.log(Math.max(1e-9, t.here) / Math.max(1e-9, t.first)));
  return trades.sort((a, b) => share(b) - share(a));
}
