import { BINDER_FAMILIES, type BinderFamily } from '../../materials/words.js';
import { arrheniusLogShift } from '../../science/setting.js';
import { heldExp } from '../held-exp.js';
import type { MaterialNumbers } from '../numbers.js';
import { dot, type Grams, type World } from '../world.js';
import { type Amounts, noneOfAny } from './amounts.js';
import { doseCoefficients } from './dosing.js';

export type SetEvent = 'initialSet' | 'finalSet' | 'demould';

/** ln(minutes) of an event is numerator/denominator over the grams. */
export interface SetForm {
  readonly numerator: readonly number[];
  readonly denominator: readonly number[];
}

export interface SettingState {
  readonly form: (event: SetEvent) => SetForm;
  /** Share of the set that each family decides, 0..1. */
  readonly voice: Readonly<Record<BinderFamily, number>>;
  /** What its admixtures add to ln(minutes) of every event: above 0 where they retard. */
  readonly retarded: number;
}

/** Keys of the figures, put together once: they are asked for in every state. */
const VOICE_OF = Object.fromEntries(BINDER_FAMILIES.map((f) => [f, `set-voice-${f}`])) as Record<BinderFamily, string>;

const energyOf = (family: BinderFamily) => (family === 'gypsum' ? 'set-energy-gypsum' : 'set-energy-portland');

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
  const { materials } = world;
  const voice = noneOfAny();
  let voiceTotal = 0;
  for (let i = 0; i < materials.length; i++) {
    const m = materials[i]!;
    if (m.family === null || grams[i] === 0) continue;
    const spoken = grams[i]! * voiceOf(world, m, 'initialSet');
    voiceTotal += spoken;
    voice[m.family] += spoken;
  }
  if (voiceTotal > 0) for (const family of BINDER_FAMILIES) voice[family] /= voiceTotal;
  const doses = doseCoefficients(world, grams, amounts, 'set', (f) => voice[f]);
  const spread = Math.log(world.model('set-spread'));
  const slower = Math.log(world.model('demould-spread'));
  // A figure that is asked for counts among those that a spread may come from: only those in play are.
  const shifts: Partial<Record<ReturnType<typeof energyOf>, number>> = {};
  const shift = (family: BinderFamily): number => {
    const energy = energyOf(family);
    shifts[energy] ??= arrheniusLogShift(world.model(energy), world.conditions.temperature);
    return shifts[energy];
  };
  const formOf = (event: SetEvent): SetForm => {
    const late = event === 'demould' ? spread + slower : spread;
    const denominator: number[] = [];
    let total = 0;
    for (let i = 0; i < materials.length; i++) {
      const d = voiceOf(world, materials[i]!, event);
      denominator.push(d);
      total += grams[i]! * d;
    }
    const numerator: number[] = [];
    for (let i = 0; i < materials.length; i++) {
      const m = materials[i]!;
      const d = denominator[i]!;
      const own = d > 0 ? d * (Math.log(m[event]!) + shift(m.family!) + late) : 0;
      numerator.push(own + doses[i]! * total);
    }
    return { numerator, denominator };
  };
  // A search mostly asks for one of them. Getters would not do: an object literal with getters is of a kind of its own,
  // and what they close over outlives it until all memory is gone through.
  const found: Partial<Record<SetEvent, SetForm>> = {};
  const form = (event: SetEvent): SetForm => {
    found[event] ??= formOf(event);
    return found[event];
  };
  return { voice, form, retarded: dot(doses, grams) };
}

/** Minutes of an event for these grams, or null when nothing in the blend sets. */
export function eventMinutes(form: SetForm, grams: Grams): number | null {
  let n = 0;
  let d = 0;
  for (let i = 0; i < grams.length; i++) {
    n += form.numerator[i]! * grams[i]!;
    d += form.denominator[i]! * grams[i]!;
  }
  return d > 0 ? heldExp(n / d) : null;
}
