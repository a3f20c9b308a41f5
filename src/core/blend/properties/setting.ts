import { EXPONENTIAL, type Form, type Link, type Property, scaledExponential } from '../property.js';
import { flashReasons, withoutWater } from '../state/amounts.js';
import { eventMinutes, type SetEvent, type SetForm } from '../state/setting-state.js';
import type { BlendState } from '../state/state.js';
import type { World } from '../world.js';

const sets = (event: SetEvent) => (_world: World, state: BlendState) => {
  if (flashReasons(state.amounts).length > 0) return 'it may set in the bowl: no set time holds for this mixture';
  if (eventMinutes(state.setting.form(event), state.grams) === null) return 'nothing in the blend sets';
  return withoutWater(state.amounts);
};

/** Lime putty stiffens as it dries, and pours until then. */
const neverSets = (event: SetEvent) => (_world: World, state: BlendState) =>
  flashReasons(state.amounts).length === 0 && eventMinutes(state.setting.form(event), state.grams) === null;

const linked = ({ numerator, denominator }: SetForm, link: Link): Form => ({ numerator, denominator, link });

const SET_MODELS = ['set-mixing', 'set-dose', 'set-temperature', 'flash-set', 'citric-clamp'] as const;

const time = (id: string, name: string, event: SetEvent, meaning: string, restsOn: string): Property => ({
  id,
  name,
  quantity: 'set-time',
  unit: 'min',
  meaning,
  restsOn,
  models: SET_MODELS,
  digits: 2,
  needed: true,
  missing: sets(event),
  endless: neverSets(event),
  form: (_world, state) => linked(state.setting.form(event), EXPONENTIAL),
});

const LOOSE = 'set times of the table for neat binders; wide until your own timings narrow them';

export const initialSet = time('initial-set', 'initial set', 'initialSet', 'when the mix stops moving', LOOSE);
export const finalSet = time('final-set', 'final set', 'finalSet', 'when a fingernail leaves no mark', LOOSE);
export const demouldTime = time(
  'demould-time',
  'time to demoulding',
  'demould',
  'when the piece bears being taken out',
  'times to handling strength of neat binders, slowed where plaster is thinned with cement',
);

export const workingTime: Property = {
  id: 'working-time',
  name: 'working time',
  quantity: 'set-time',
  unit: 'min',
  meaning: 'minutes from water to the last moment it still pours',
  restsOn: 'a share of the initial set (common practice, no source)',
  models: ['working-share', ...SET_MODELS],
  digits: 2,
  needed: true,
  missing: sets('initialSet'),
  endless: neverSets('initialSet'),
  form: (world, state) => linked(state.setting.form('initialSet'), scaledExponential(world.model('working-share'))),
};
