import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import type { Material } from '../../src/core/materials/schema.js';
import type { Question } from '../../src/core/optimise/question.js';
import { material, model } from './shipped-table.js';

/** A question on a few materials of the shipped table, for figures that can be reckoned by hand. Prices are invented. */
export const questionOf = (ids: readonly string[], more: Partial<Question> = {}): Question => ({
  objective: 'cheapest',
  targets: [],
  conditions: { ...DEFAULT_CONDITIONS, volume: 300 },
  materials: ids.map(material),
  doses: [],
  figures: model,
  prices: new Map(ids.map((id, i) => [id, 0.0004 * (i + 1)])),
  stock: new Map(),
  batch: { pieces: 1, step: 1, fine: { step: 0.1, most: 200 } },
  ...more,
});

/** A pozzolan that may be as much as all pozzolans together may: whoever searches is to come to a starved corner. */
export const unlimited = (id: string): Material => {
  const { dose: _dose, ...rest } = material(id);
  return rest;
};
