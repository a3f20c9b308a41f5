import { chanceWords } from '../../core/report/chance-words.js';
import { printMargin } from '../../core/report/margin-words.js';
import { wastePercent } from '../../core/report/mould-words.js';
import { printDifference } from '../../core/report/print.js';
import type { CandidateResult, StandInResult } from '../../core/report/stand-in-schema.js';
import { farnessWords, MEDIUM_WORDS, offWords, printWanted, tellsWords } from '../../core/report/stand-in-words.js';
import { printToldOf } from '../../core/report/told-figures.js';
import { outlook, title, type View } from './assessment.js';
import type { Sheet } from './page.js';
import { blendTable, verdictTable } from './parts.js';

/** A stand-in in full, and the others in a line each. `place` counts from 0. */
export function renderStandIn(page: Sheet, result: StandInResult, place: number, view: View): void {
  const shown = result.candidates[place]!;
  const kind = result.medium.kind === null ? [] : [`stand-in for a ${MEDIUM_WORDS[result.medium.kind]}`];
  const { ownFigures, cautions } = shown;
  const warnings = [...result.warnings, ...shown.warnings];
  title(page, { ...result, ownFigures, cautions, warnings }, kind, view);
  tells(page, result, view);
  const pieces = result.batch.pieces === 1 ? 'one piece' : `${result.batch.pieces} pieces`;
  const waste = result.batch.waste > 0 ? `, ${wastePercent(result.batch.waste)}` : '';
  page.heading(`${place === 0 ? 'CLOSEST' : `NUMBER ${place + 1}`}: ${shown.name}, for ${pieces}${waste}`);
  blendTable(page, { blend: shown.blend, batch: result.batch }, view.wording);
  closeness(page, result, shown, view);
  if (shown.targets.length > 0) {
    page.heading('TARGETS');
    verdictTable(page, shown.targets, shown.properties, view.wording);
  }
  if (!shown.holds) {
    page.paragraph(page.paint.red('This blend misses a target or a limit that every blend should keep.'), 2);
  }
  outlook(page, { ...shown, piece: result.piece, models: result.models }, view);
  others(page, result, place);
}

function tells(page: Sheet, result: StandInResult, view: View): void {
  const lines = tellsWords(result, view.wording.system);
  if (lines.length === 0) return;
  page.heading('WHAT THE DESCRIPTION TELLS');
  for (const line of lines) page.paragraph(line, 2);
}

function closeness(page: Sheet, result: StandInResult, shown: CandidateResult, view: View): void {
  const { wording } = view;
  const { green, red } = page.paint;
  const joint = shown.jointChance === null ? '' : ` (all within tolerance at once: ${chanceWords(shown.jointChance)})`;
  page.heading(`HOW CLOSE${joint}`);
  const rows = shown.got.map((got, i) => {
    const { name, tolerance } = result.wanted[i]!;
    const miss =
      got.miss === null || got.value === null || Math.abs(got.distance) < 5e-3
        ? ''
        : printMargin(got.property, Math.abs(got.miss), got.value, wording);
    const way = got.miss === null ? '' : miss === '' ? 'as wanted' : `${miss} ${got.miss! > 0 ? 'over' : 'under'}`;
    const cells = [
      got.within ? green('close') : red('OFF'),
      name,
      printWanted(result.wanted[i]!, wording),
      printToldOf(shown, got.property, got.value, wording),
      way,
    ];
    const wide = [`± ${printDifference(got.property, tolerance, wording)}`, chanceWords(got.chance)];
    return page.width >= 84 ? [...cells, ...wide] : cells;
  });
  page.table(rows, ['left', 'left', 'left', 'right', 'left', 'left', 'left']);
  page.paragraph(
    page.paint.dim(
      `Off by ${farnessWords(shown)} tolerances in all. Close: within the tolerance (±) of what is wanted.`,
    ),
    2,
  );
}

function others(page: Sheet, result: StandInResult, place: number): void {
  const rows = result.candidates.flatMap((c, i) => {
    if (i === place) return [];
    return [[`${i + 1}`, c.name, `${farnessWords(c)} tolerances`, offWords(result, c)]];
  });
  const shut = result.systems
    .filter(
      (s) =>
        ['behind', 'misses', 'closed'].includes(s.outcome) && !result.candidates.some((c) => c.system === s.system),
    )
    .map((s) => ['', s.name, '', s.outcome === 'behind' ? 'far off' : (s.why ?? s.outcome)]);
  if (rows.length + shut.length === 0) return;
  page.heading('OTHER BINDERS (see one in full with --rank)');
  page.table([...rows, ...shut], ['right', 'left', 'right', 'left']);
}
