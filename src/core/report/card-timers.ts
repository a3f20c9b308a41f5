import { evaluate } from '../blend/assess.js';
import { worldOf } from '../blend/world.js';
import { type Method, minutesToPour } from '../shop/card-method.js';
import { likelyTimes } from '../shop/order-times.js';
import type { CardTimer } from './card-schema.js';
import { TIMER_NAMES } from './card-words.js';
import type { Mixed } from './mixed.js';
import { NEVER_DRY, toldHours } from './told-figures.js';

type Time = Pick<CardTimer, 'value'> & Partial<Pick<CardTimer, 'low' | 'high' | 'why'>>;

const UNKNOWN: Time = { value: null };

/** The clocks of a card, from the moment powder meets water. */
export function timersOf(mixed: Mixed, method: Method): CardTimer[] {
  const grams = mixed.parts.map((p) => p.pieceGrams);
  const times = likelyTimes(mixed.input, grams);
  const { state } = evaluate(worldOf(mixed.input), grams);
  const covered = state.water.dryFromHours - (times.demould ?? 24 * 60) / 60;
  const ready = minutesToPour(method);
  const property = (id: string): Time => mixed.result.properties.find((p) => p.property === id) ?? UNKNOWN;
  const working = property('working-time');
  const less = (minutes: number | null | undefined): number | null =>
    minutes === null || minutes === undefined ? null : Math.max(0, minutes - ready);
  const timer = (
    id: CardTimer['id'],
    unit: CardTimer['unit'],
    { value, low = null, high = null, why = null }: Time,
  ): CardTimer => ({ id, name: TIMER_NAMES[id], value, low, high, why, unit });
  return [
    timer('mixed', 'min', { value: ready }),
    timer('pour', 'min', working),
    timer('left', 'min', { ...working, value: less(working.value), low: less(working.low), high: less(working.high) }),
    timer('demould', 'min', property('demould-time')),
    ...(covered > 0.01 ? [timer('cover', 'h', toldHours(covered, NEVER_DRY))] : []),
    timer('dry', 'h', {
      ...toldHours(times.dry, NEVER_DRY),
      high: toldHours(times.careful.dry, NEVER_DRY).value,
    }),
  ];
}
