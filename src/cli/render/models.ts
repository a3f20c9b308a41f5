import type { PropertyResult } from '../../core/report/result-schema.js';
import { isTold } from '../../core/report/told-figures.js';
import type { ModelUsed } from '../../core/report/why-schema.js';
import type { Sheet } from './page.js';
import { STANDING } from './why.js';

/** Sources named of a model; `why` has the rest, with what was seen of each. */
const MOST_SOURCES = 3;

/** Equation and sources of each model that the properties name, once, for --why. */
export function modelList(page: Sheet, models: readonly ModelUsed[], properties: readonly PropertyResult[]): void {
  const named = new Set(properties.filter(isTold).flatMap((p) => p.models));
  page.heading('THE MODELS');
  for (const model of models.filter((m) => named.has(m.id))) {
    const { id, equation, unit, standing, sources } = model;
    page.paragraph(`${page.paint.bold(id)}: ${equation}  [${unit}]`, 2, 4);
    const cited = sources.slice(0, MOST_SOURCES).map(cite).join('; ');
    const rest = sources.length - MOST_SOURCES;
    const more = rest > 0 ? `; and ${rest} more` : '';
    page.paragraph(page.paint.dim(`Source (${STANDING[standing]}): ${cited}${more}.`), 4);
  }
  page.paragraph('pourwright why MODEL tells its symbols, where it holds and misses, its checks and all sources.', 2);
}

function cite({ by, title, year, note }: ModelUsed['sources'][number]): string {
  const parts = [by, title, year].filter((part) => part !== undefined).join(', ');
  // A title alone would read as if it had been opened.
  return note?.startsWith('from memory') ? `${parts} (from memory)` : parts;
}
