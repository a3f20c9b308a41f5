import type { Shop } from '../core/brief/shelf.js';
import type { ModelFigures } from '../core/materials/model-figures.js';
import { type MaterialTable, materialTable } from '../core/materials/table.js';
import { explain } from '../core/problems/words.js';
import { type LearnedOverlay, learnedSchema, overlayLearned } from '../core/shop/learned.js';
import { isThere } from './files.js';
import type { Io } from './io.js';
import { readShaped } from './load.js';

export interface WithLearned {
  readonly shop: Shop;
  readonly table: MaterialTable;
  readonly figures: ModelFigures;
  readonly learned: LearnedOverlay<{ materials: MaterialTable['materials']; figures: ModelFigures }>['shelf'] | null;
}

/**
 * Lays what the shop's pours have taught over its table, figures and waste. A file that is not there yet teaches nothing,
 * and that is said; warnings go to stderr, so that --json stays one object.
 */
export async function withLearned(file: string, plain: Omit<WithLearned, 'learned'>, io: Io): Promise<WithLearned> {
  if (!isThere(file)) {
    io.err(
      `pourwright: note: ${file} is not there yet (pourwright pours fit writes it); the table's own figures count\n`,
    );
    return { ...plain, learned: null };
  }
  const { data, at } = await readShaped('learned', learnedSchema, file, io);
  const { table, figures, shop } = plain;
  const { tables, waste, shelf, problems } = overlayLearned(data, { materials: table.materials, figures }, file, at);
  for (const problem of problems) io.err(`pourwright: ${problem.severity}: ${explain(problem)}\n`);
  return {
    shop: waste === null ? shop : { ...shop, waste },
    table: materialTable({ materials: tables.materials, sources: table.sources }, table.own),
    figures: tables.figures,
    learned: shelf,
  };
}
