import type { Source } from '../materials/schema.js';
import { MODELS, type Model } from '../science/provenance.js';
import { SCIENCE_SOURCES } from '../science/sources.js';
import type { AssessmentResult } from './result-schema.js';
import { isTold } from './told-figures.js';
import type { ModelSource, ModelUsed } from './why-schema.js';

/** A model's sources in full, from its own bibliography or the table's. @throws RangeError on a key of neither. */
export const sourcesOf = (model: Model, bibliography: Readonly<Record<string, Source>>): ModelSource[] =>
  model.sources.map((key) => {
    const source = SCIENCE_SOURCES[key] ?? bibliography[key];
    if (source === undefined) throw new RangeError(`no source "${key}"`);
    return { key, ...source };
  });

/** A blend as far as its figures come from models. */
type Told = Pick<AssessmentResult, 'properties' | 'risks'>;

/** The models that the figures and risks of some blends rest on, each once, in the order a mix goes through them. */
export function modelsUsed(blends: readonly Told[], bibliography: Readonly<Record<string, Source>>): ModelUsed[] {
  const used = new Set(
    blends.flatMap(({ properties, risks }) => [
      ...properties.filter(isTold).flatMap((p) => p.models),
      ...risks.flatMap((risk) => risk.models),
    ]),
  );
  return MODELS.filter((m) => used.has(m.id)).map((model) => {
    const { id, title, equation, unit, standing } = model;
    return { id, title, equation, unit, standing, sources: sourcesOf(model, bibliography) };
  });
}
