import { BINDER_FAMILIES, type BinderFamily } from '../../materials/words.js';
import { arrheniusLogShift } from '../../science/setting.js';
import type { MaterialNumbers } from '../numbers.js';
import { type Grams, sum, type World } from '../world.js';
import type { Amounts } from './amounts.js';
import { doseCoefficients } from './dosing.js';

export type SetEvent = 'initialSet' | 'finalSet' | 'demould';

/** ln(minutes) of an event is numerator/denominator over the grams. */
export interface SetForm {
  readonly numerator: readonly number[];
  readonly denominator: readonly number[];
}

export interface SettingState {
  readonly forms: Readonly<Record<SetEvent, SetForm>>;
  /** Share of the set that each family decides, 0..1. */
  readonly voice: Readonly<Record<BinderFamily, number>>;
}

/** Keys of the figures, put together once: they are asked for in every state. */
const VOICE_OF = Object.fromEntries(BINDER_FAMILIES.map((f) => [f, `set-voice-${f}`])) as Record<BinderFamily, string>;

/** How loudly a material speaks in an event's log-mean, per gram. */
function voiceOf(world: World, m: MaterialNumbers, event: SetEvent): number {
  if (m.family === null || m[event] === null) return 0;
  const key = event === 'demould' && m.family === 'portland' ? 'demould-voice-portland' : VOICE_OF[m.family];
  return world.model(key) * m.solids;
}

/**
 * Setting as a log-mean: ln t = sum(voice x (ln t_i + temperature)) / sum(voice) + sum(effect x dose) + ln spread; the
 * demould time has a further spread of its own, because makers differ in when they call a piece ready.
 * Source: the project's own mixing rule (design §4); Arrhenius temperature term.
 */
export function settingState(world: World, grams: Grams, amounts: Amounts): SettingState {
  const voiceTotal = sum(world, grams, (m) => voiceOf(world, m, 'initialSet'));
  const share = (f: BinderFamily) =>
    voiceTotal > 0 ? sum(world, grams, (m) => (m.family === f ? voiceOf(world, m, 'initialSet') : 0)) / voiceTotal : 0;
  const voice = Object.fromEntries(BINDER_FAMILIES.map((f) => [f, share(f)])) as Record<BinderFamily, number>;
  const doses = doseCoefficients(world, grams, amounts, 'set', (f) => voice[f]);
  const spread = Math.log(world.model('set-spread'));
  const slower = Math.log(world.model('demould-spread'));
  const shift = (family: BinderFamily) =>
    arrheniusLogShift(
      world.model(family === 'gypsum' ? 'set-energy-gypsum' : 'set-energy-portland'),
      world.conditions.temperature,
    );
  const form = (event: SetEvent): SetForm => {
    const denominator = world.materials.map((m) => voiceOf(world, m, event));
    const total = sum(world, grams, (_m, i) => denominator[i]!);
    const numerator = world.materials.map((m, i) => {
      const d = denominator[i]!;
      const late = event === 'demould' ? spread + slower : spread;
      const own = d > 0 ? d * (Math.log(m[event]!) + shift(m.family!) + late) : 0;
      return own + doses[i]! * total;
    });
    return { numerator, denominator };
  };
  return {
    voice,
    forms: { initialSet: form('initialSet'), finalSet: form('finalSet'), demould: form('demould') },
  };
}

/** Minutes of an event for these grams, or null when nothing in the blend sets. */
export function eventMinutes(form: SetForm, grams: Grams): number | null {
  let n = 0;
  let d = 0;
  for (let i = 0; i < grams.length; i++) {
    n += form.numerator[i]! * grams[i]!;
    d += form.denominator[i]! * grams[i]!;
  }
  return d > 0 ? Math.exp(n / d) : null;
}
