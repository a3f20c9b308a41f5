import { chanceWords } from '../../core/report/chance-words.js';
import { mouldCount, wasteTakenOff } from '../../core/report/mould-words.js';
import { ownFigureWords } from '../../core/report/own-figure-words.js';
import type { Wording } from '../../core/report/print.js';
import { rangeWords } from '../../core/report/range-words.js';
import type { AssessmentResult, ProposalResult } from '../../core/report/result-schema.js';
import { printQuantity } from '../../core/units/print.js';
import { stopLines } from './cautions.js';
import { cautionsOfBlends } from './cautions-of-blends.js';
import { modelList } from './models.js';
import type { Sheet } from './page.js';
import { blendTable, propertyTable, restsOn, verdictTable } from './parts.js';
import { riskList } from './risks.js';
import { whatChancesHangOn } from './spread.js';
import { warningLines } from './warnings.js';

export interface View {
  readonly wording: Wording;
  /** Cautions in full instead of a line each. */
  readonly fullCautions: boolean;
  readonly why: boolean;
}

const INVENTED = 'invented example';

export function title(
  page: Sheet,
  result: Pick<AssessmentResult, 'title' | 'invented' | 'piece' | 'warnings' | 'ownFigures' | 'cautions'>,
  more: readonly string[],
  view: View,
): void {
  const { volume } = result.piece;
  const about = [
    ...(result.invented ? [INVENTED] : []),
    ...more,
    volume === null ? 'no mould' : `mould ${printQuantity(volume, 'volume', { system: view.wording.system })}`,
    `${result.piece.service} service`,
  ];
  page.line(page.paint.bold(result.title));
  page.paragraph(page.paint.dim(about.join(' · ')));
  stopLines(page, result.cautions);
  warningLines(page, result.warnings);
  ownFigureLine(page, result.ownFigures);
}

/** Which figures are the shop's own. */
export function ownFigureLine(page: Sheet, own: AssessmentResult['ownFigures']): void {
  const words = ownFigureWords(own);
  if (words !== null) page.paragraph(words, 0, 2);
}

export function renderAssessment(page: Sheet, result: AssessmentResult, view: View): void {
  title(page, result, [], view);
  const { pieces, waste } = result.batch;
  const fills = result.fills === null ? '' : `, fills ${mouldCount(pieces)}${wasteTakenOff(waste)}`;
  page.heading(`BLEND${fills}`);
  blendTable(page, result, view.wording);
  rest(page, result, view);
}

/** Targets, expectations, reasons and cautions: the same for what is assessed and what is proposed. */
export function rest(page: Sheet, result: AssessmentResult | ProposalResult, view: View): void {
  if (result.targets.length > 0) {
    const joint = result.jointChance === null ? '' : ` (all at once: ${chanceWords(result.jointChance)})`;
    page.heading(`TARGETS${joint}`);
    verdictTable(page, result.targets, result.properties, view.wording);
    whatChancesHangOn(page, result.targets, result.properties);
  }
  outlook(page, result, view);
}

/** Expectations, reasons, risks and cautions of any blend. */
export function outlook(
  page: Sheet,
  result: Pick<AssessmentResult, 'piece' | 'properties' | 'risks' | 'cautions' | 'models'> &
    Partial<Pick<ProposalResult, 'alternatives'>>,
  view: View,
): void {
  page.heading(`WHAT TO EXPECT OF ${result.piece.volume === null ? 'THE BATCH' : 'ONE PIECE'}`);
  propertyTable(page, result.properties, view.wording);
  page.paragraph(page.paint.dim(rangeWords(result)), 2);
  if (view.why) {
    page.heading('WHAT THE FIGURES REST ON');
    restsOn(page, result.properties);
    if (result.models !== undefined) modelList(page, result.models, result.properties);
  }
  riskList(page, result.risks);
  cautionsOfBlends(page, result, result.alternatives ?? [], view.fullCautions);
}
