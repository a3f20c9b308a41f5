import { PROPERTIES, propertyById } from '../blend/properties/index.js';
import { meantProperty } from '../blend/properties/unknown.js';
import type { ModelFigures } from '../materials/model-figures.js';
import type { Source } from '../materials/schema.js';
import { refuse } from '../problems/problem.js';
import { type Check, checkSummary } from '../science/provenance/check.js';
import { MODELS, modelById } from '../science/provenance.js';
import { FIBRE_NOTE } from '../science/strength.js';
import { sourcesOf } from './models-result.js';
import type { WhyList, WhyModel, WhyResult } from './why-schema.js';
import { strengthTable } from './why-strength.js';

export interface WhyTables {
  /** Checks by model id, as materials/checks.json has them. */
  readonly checks: Readonly<Record<string, readonly Check[]>>;
  /** Bibliography of the materials table; the models' own is added. */
  readonly sources: Readonly<Record<string, Source>>;
  readonly figures: ModelFigures;
}

function whyModel(id: string, tables: WhyTables): WhyModel {
  const found = modelById(id);
  const { oracles, files, ranges, ...model } = found;
  const checks = tables.checks[id] ?? [];
  return {
    ...model,
    sources: sourcesOf(found, tables.sources),
    checks,
    found: checkSummary(checks),
  };
}

/**
 * What a property or a model rests on: equations, symbols, sources, validity, known misfits, and every published check with
 * its error. Throws InputProblems `property-unknown` with the nearest word.
 */
export function whyResult(word: string, tables: WhyTables): WhyResult {
  const id = word.trim().toLowerCase().replaceAll(/\s+/g, '-');
  const property = propertyById(id) ?? PROPERTIES.find((p) => p.name.toLowerCase() === word.trim().toLowerCase());
  if (property === undefined && !MODELS.some((m) => m.id === id)) {
    const words = [...PROPERTIES.map((p) => p.id), ...MODELS.map((m) => m.id)];
    const expected = 'a property or a model; “pourwright why” lists them';
    refuse({ code: 'property-unknown', found: word, ...meantProperty(id, words, expected) });
  }
  const models = property === undefined ? [id] : property.models;
  const strength = property?.id === 'strength';
  return {
    format: 'pourwright.why/1',
    property:
      property === undefined
        ? null
        : {
            id: property.id,
            name: property.name,
            unit: property.unit,
            meaning: property.meaning,
            restsOn: property.restsOn,
          },
    models: models.map((m) => whyModel(m, tables)),
    crossCheck: strength ? strengthTable(tables.figures) : null,
    notes: strength ? [FIBRE_NOTE, 'An estimate, not for structural use.'] : [],
  };
}

/** Every property with the models it rests on, and every model with the number of its published checks. */
export const whyList = (tables: WhyTables): WhyList => ({
  format: 'pourwright.why-list/1',
  properties: PROPERTIES.map(({ id, name, models }) => ({ id, name, models })),
  models: MODELS.map(({ id, title }) => ({ id, title, checks: checkSummary(tables.checks[id] ?? []).checks })),
});
