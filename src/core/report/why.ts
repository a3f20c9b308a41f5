import { PROPERTIES, propertyById } from '../blend/properties/index.js';
import type { Property } from '../blend/property.js';
import { meantPropertyId } from '../brief/property-names.js';
import type { ModelFigures } from '../materials/model-figures.js';
import type { Source } from '../materials/schema.js';
import { refuse } from '../problems/problem.js';
import { type Check, checkSummary } from '../science/provenance/check.js';
import { MODELS, type Model, modelById } from '../science/provenance.js';
import { FIBRE_NOTE } from '../science/strength.js';
import { wordsIn } from '../units/marked.js';
import { lastPlace, type UnitSystem } from '../units/print.js';
import { sourcesOf } from './models-result.js';
import { SHOWN_KINDS } from './shown-unit.js';
import type { WhyList, WhyModel, WhyResult } from './why-schema.js';
import { strengthTable } from './why-strength.js';

export interface WhyTables {
  /** Checks by model id, as materials/checks.json has them. */
  readonly checks: Readonly<Record<string, readonly Check[]>>;
  /** Bibliography of the materials table; the models' own is added. */
  readonly sources: Readonly<Record<string, Source>>;
  readonly figures: ModelFigures;
}

/** What a model holds for and where it misses: in metric, and under `us` where that reads otherwise in US units. */
function bounds({ validity, misfits }: Model): Pick<WhyModel, 'validity' | 'misfits' | 'us'> {
  const told = (system: UnitSystem) => ({
    validity: wordsIn(validity, system),
    misfits: misfits.map((misfit) => wordsIn(misfit, system)),
  });
  const [metric, us] = [told('metric'), told('us')];
  return JSON.stringify(us) === JSON.stringify(metric) ? metric : { ...metric, us };
}

/** The unit that a property is told in where units are US; nothing where it is the same. */
function unitInUs({ quantity }: Property): { readonly us?: { readonly unit: string } } {
  const kind = quantity === 'temperature' ? 'temperature' : SHOWN_KINDS[quantity];
  return kind === undefined ? {} : { us: { unit: lastPlace(1, kind, { system: 'us' }).unit } };
}

function whyModel(id: string, tables: WhyTables): WhyModel {
  const found = modelById(id);
  const { oracles, files, ranges, ...model } = found;
  const checks = tables.checks[id] ?? [];
  return {
    ...model,
    ...bounds(found),
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
    const models = MODELS.map((m) => m.id);
    const expected = 'a property or a model; “pourwright why” lists them';
    refuse({ code: 'property-unknown', found: word, ...meantPropertyId(id, expected, models) });
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
            ...unitInUs(property),
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
