import { propertyById } from '../../core/blend/properties/index.js';
import { systemWords } from '../../core/report/choice-words.js';
import { fillsWords } from '../../core/report/fills-words.js';
import { printBeside, printMiss } from '../../core/report/margin-words.js';
import { wastePercent } from '../../core/report/mould-words.js';
import { printWindow } from '../../core/report/print.js';
import type { ProposalResult } from '../../core/report/result-schema.js';
import { isTold, printToldOf } from '../../core/report/told-figures.js';
import { renderAlternatives } from './alternatives.js';
import { rest, title, type View } from './assessment.js';
import { choiceLines, whyNotWeighed } from './choices.js';
import type { Sheet } from './page.js';
import { blendTable } from './parts.js';
import { renderReasons } from './reasons.js';
import { renderSureness } from './sureness.js';
import { renderWaysOut } from './ways-out.js';

const pieces = (n: number): string => (n === 1 ? 'one piece' : `${n} pieces`);

export function renderProposal(page: Sheet, result: ProposalResult, view: View): void {
  const system = result.systems.find((s) => s.system === result.system)!;
  title(page, result, [`${result.objective.aim}`, system.name], view);
  if (result.status === 'nearest') nothingFits(page, result, view);
  const waste = result.batch.waste > 0 ? `, ${wastePercent(result.batch.waste)}` : '';
  const fills = fillsWords(result);
  const name = result.status === 'met' ? 'BLEND' : 'NEAREST BLEND';
  page.heading(`${name} for ${pieces(result.batch.pieces)}${waste}${fills === null ? '' : `, ${fills}`}`);
  blendTable(page, result, view.wording);
  const { property, weighed } = result.objective;
  page.paragraph(
    `${result.objective.aim}: ${propertyById(property)!.name} ${printToldOf(result, property, weighed, view.wording)} by what is weighed out`,
    2,
  );
  choiceLines(page, result, view);
  renderSureness(page, result, view);
  renderReasons(page, result, view);
  rest(page, result, view);
  renderAlternatives(page, result, view);
  others(page, result, view);
}

function nothingFits(page: Sheet, result: ProposalResult, view: View): void {
  page.heading(page.paint.red('NO BLEND MEETS EVERYTHING'));
  const { conflict } = result;
  whyNotWeighed(page, result, view);
  if (conflict === null) return;
  if (result.waysOut) {
    renderWaysOut(page, result, result.waysOut, view);
    keptByEvery(page, conflict, view);
  } else if (conflict.collisions.length > 0) {
    page.paragraph('These cannot hold together:', 2);
    for (const c of conflict.collisions) {
      const kind = c.kind === 'standing' ? ' (kept by every blend)' : '';
      page.paragraph(`${sideWords(c, view)}${kind}`, 4);
    }
  }
  if (conflict.missed.length > 0) page.paragraph('The nearest blend, below, misses:', 2);
  for (const c of conflict.missed) {
    const property = propertyById(c.property)!;
    const by =
      c.missedBy === null || c.nearest === null
        ? ''
        : `, missed by ${printMiss(c.property, c.missedBy, c.nearest, view.wording)}`;
    const why = result.properties.find((p) => p.property === c.property)?.why ?? null;
    const has =
      c.nearest !== null
        ? `${printBeside({ property: c.property, value: c.nearest, ...sides(c) }, null, view.wording)}${by}`
        : isTold({ value: null, why })
          ? why
          : 'none';
    page.paragraph(`${property.name}: ${has}`, 4);
  }
}

type Conflict = NonNullable<ProposalResult['conflict']>;

type Side = Conflict['collisions'][number];

const sides = ({ side, limit }: Side) => ({ min: side === 'min' ? limit : null, max: side === 'max' ? limit : null });

function sideWords(c: Side, view: View): string {
  const { min, max } = sides(c);
  return `${propertyById(c.property)!.name} ${printWindow(c.property, min, max, view.wording)}`;
}

/** What stands against the targets besides themselves. */
function keptByEvery(page: Sheet, { collisions }: Conflict, view: View): void {
  const kept = collisions.filter((c) => c.kind === 'standing').map((c) => sideWords(c, view));
  if (kept.length === 0) return;
  page.paragraph(`Every blend keeps ${kept.join(', ')}, unless the brief sets a limit of its own on it.`, 2);
}

function others(page: Sheet, result: ProposalResult, view: View): void {
  const rows = result.systems
    .filter((s) => s.system !== result.system && s.outcome !== 'absent')
    .map((s) => [s.name, systemWords(s, result.objective.property, view.wording)]);
  if (rows.length === 0) return;
  page.heading('OTHER BINDERS');
  page.table(rows);
}
