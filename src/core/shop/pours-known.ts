import { type Conditions, DEFAULT_CONDITIONS } from '../blend/conditions.js';
import { type Part, readAmounts } from '../brief/read-amounts.js';
import type { Shelf } from '../brief/shelf.js';
import { worldInput } from '../brief/world-input.js';
import { refuse } from '../problems/problem.js';
import { readBlend } from './pours-cells.js';
import type { KnownPour } from './pours-measured.js';
import type { Pour } from './pours-record.js';

/** What the brief or the recipe of a pour tells: mould, wall, way of pouring, and for a recipe its parts. */
export interface PourSource {
  readonly conditions: Conditions;
  /** null for a brief: what it proposes today need not be what was poured. */
  readonly parts: readonly Part[] | null;
}

/**
 * A pour joined to its blend and its mould. The row's own room counts before the file's and the shop's.
 *
 * Throws InputProblems `field-missing` when neither the row nor a recipe says what was mixed, and those of the amounts.
 */
export function knownPour(pour: Pour, source: PourSource | null, shelf: Shelf): KnownPour {
  const at = (path: string) => ({ ...pour.where, path });
  const written = pour.blend === null ? null : readBlend(pour.blend, at('blend'));
  const parts =
    written === null ? source?.parts : readAmounts({ amounts: written }, shelf, '', () => at('blend')).parts;
  if (parts === null || parts === undefined) {
    refuse({
      code: 'field-missing',
      where: at('blend'),
      expected: 'materials and weights such as “casting-plaster 300; water 180”, or a recipe file under brief',
    });
  }
  const usual = { ...DEFAULT_CONDITIONS, temperature: shelf.shop.temperature, humidity: shelf.shop.humidity };
  const conditions: Conditions = {
    ...(source?.conditions ?? usual),
    ...(pour.celsius === null ? {} : { temperature: pour.celsius }),
    ...(pour.humidity === null ? {} : { humidity: pour.humidity }),
  };
  return {
    input: worldInput(
      shelf,
      parts.map((p) => p.material),
      conditions,
    ),
    grams: parts.map((p) => p.grams),
    batch: pour.batchGrams === null || pour.pieces === null ? null : { grams: pour.batchGrams, pieces: pour.pieces },
    setMinutes: pour.setMinutes,
    demouldMinutes: pour.demouldMinutes,
    weights: pour.weights,
  };
}
