import { BLEND_MODELS } from './provenance/blend-models.js';
import { CHEMISTRY_MODELS } from './provenance/chemistry-models.js';
import { HYDRATION_MODELS } from './provenance/hydration-models.js';
import { MIX_MODELS } from './provenance/mix-models.js';
import type { Model, ValidRange } from './provenance/model.js';
import { SAND_MODELS } from './provenance/sand-models.js';
import { SETTING_STRENGTH_MODELS } from './provenance/setting-strength-models.js';

export type { Model, ValidRange } from './provenance/model.js';

/** Every physical model, in the order a mix goes through them. `why` and the docs table print from here. */
export const MODELS: readonly Model[] = [
  ...MIX_MODELS,
  ...HYDRATION_MODELS,
  ...SETTING_STRENGTH_MODELS,
  ...CHEMISTRY_MODELS,
  ...SAND_MODELS,
  ...BLEND_MODELS,
];

/** The model with this id. @throws RangeError on an unknown id: a mistake of the caller, not of a maker. */
export function modelById(id: string): Model {
  const model = MODELS.find((m) => m.id === id);
  if (model === undefined) throw new RangeError(`no model "${id}"`);
  return model;
}

/** Inputs that lie outside the range a model was measured in; empty when all lie inside or the model states none. */
export function outsideValidity(id: string, inputs: Readonly<Record<string, number>>): readonly ValidRange[] {
  return (modelById(id).ranges ?? []).filter((range) => {
    const value = inputs[range.input];
    return value !== undefined && (value < range.low || value > range.high);
  });
}
