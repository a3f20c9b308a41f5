import type { WhyList, WhyModel, WhyResult } from '../../core/report/why-schema.js';
import type { Check } from '../../core/science/provenance/check.js';
import type { Sheet } from './page.js';

/** How a model's equation was come by. */
export const STANDING = {
  published: 'published, looked up',
  'from-memory': 'published; form or constants from memory',
  ours: 'made by this project',
} as const;

const percent = (error: number): string =>
  `${error >= 0 ? '+' : ''}${(100 * error).toFixed(Math.abs(error) < 0.1 ? 2 : 1)} %`;

export function renderWhyList(page: Sheet, list: WhyList): void {
  page.heading('PROPERTIES');
  page.table(list.properties.map((p) => [p.id, p.name]));
  page.heading('MODELS, and their published checks');
  page.table(
    list.models.map((m) => [m.id, m.checks === 0 ? 'none' : String(m.checks), m.title]),
    ['left', 'right', 'left'],
  );
  page.line();
  page.paragraph('pourwright why PROPERTY (or MODEL) tells what it rests on.');
}

/** Checks printed of one model unless all are asked for. */
const FEW = 6;

export function renderWhy(page: Sheet, why: WhyResult, all: boolean): void {
  const { property } = why;
  if (property !== null) {
    page.line(page.paint.bold(property.name));
    page.paragraph(page.paint.dim(`${property.id} · ${property.unit}`));
    page.paragraph(`${property.meaning}.`);
    page.paragraph(`Rests on ${property.restsOn}.`);
  }
  for (const model of why.models) renderModel(page, model, all);
  if (why.crossCheck !== null) {
    page.heading(why.crossCheck.title);
    page.table(
      why.crossCheck.rows.map((row) => row.map(String)),
      ['right', 'right', 'right'],
      [...why.crossCheck.columns],
    );
    page.paragraph(why.crossCheck.note, 2);
  }
  if (why.notes.length > 0) page.heading('NOTES');
  for (const note of why.notes) page.paragraph(note, 2);
}

function renderModel(page: Sheet, model: WhyModel, all: boolean): void {
  page.heading(`${model.title} (${model.id})`);
  page.paragraph(`${page.paint.bold(model.equation)}  [${model.unit}]`, 2, 4);
  const symbols = Object.entries(model.symbols).map(([symbol, meaning]) => `${symbol} ${meaning}`);
  if (symbols.length > 0) page.paragraph(`Symbols: ${symbols.join('; ')}.`, 2, 4);
  page.paragraph(`Standing: ${STANDING[model.standing]}.`, 2, 4);
  page.paragraph(`Holds for: ${model.validity}`, 2, 4);
  for (const misfit of model.misfits) page.paragraph(`Known to miss: ${misfit}`, 2, 4);
  for (const { title, by, year, url, note } of model.sources) {
    const parts = [by, title, year, url, note].filter((part) => part !== undefined);
    page.paragraph(page.paint.dim(`Source: ${parts.join(', ')}`), 2, 4);
  }
  renderChecks(page, model, all);
}

function renderChecks(page: Sheet, { checks, found }: WhyModel, all: boolean): void {
  if (found.checks === 0) {
    page.paragraph('Checks: no published figure found to check it against.', 2, 4);
    if (checks.length === 0) return;
  } else {
    const errors =
      found.meanError === null
        ? ''
        : `; mean error ${(100 * found.meanError).toFixed(2)} %, worst ${percent(found.worst!.error!)}`;
    page.paragraph(`Checks: ${found.checks} published ${found.checks === 1 ? 'figure' : 'figures'}${errors}.`, 2, 4);
  }
  // Real checks before rows that set a constant, the worst first.
  const rank = (c: Check): number => (c.standing === 'fitted' ? 0 : 1e6) + Math.abs(c.error ?? 0);
  const worstFirst = [...checks].sort((a, b) => rank(b) - rank(a));
  for (const check of all ? checks : worstFirst.slice(0, FEW)) page.paragraph(line(check), 4, 6);
  if (!all && checks.length > FEW) page.paragraph(`… and ${checks.length - FEW} more: --all prints them.`, 4, 6);
}

const NOTES = {
  'looked-up': '',
  'from-memory': '; recalled',
  fitted: '; set a constant of the law, so no check',
} as const;

function line(check: Check): string {
  const unit = check.unit === '' || check.unit === '-' ? '' : ` ${check.unit}`;
  const error = check.error === null ? '' : ` (${percent(check.error)})`;
  return `${check.name}: printed ${check.printed}${unit}, ours ${check.ours}${error}; ${check.source}, ${check.where}${NOTES[check.standing]}`;
}
