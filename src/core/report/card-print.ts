import { OVER_A_YEAR, printForetold } from '../units/foretold.js';
import { printQuantity, type UnitSystem } from '../units/print.js';
import type { CardAddition, CardResult, CardTimer } from './card-schema.js';
import { printMinutes, printWindow, type Wording } from './print.js';
import { NEVER_DRY } from './told-figures.js';

/** Quarters of a scoop, the least a maker can tell. */
const quarters = (scoops: number): string => {
  const whole = Math.floor(Math.round(4 * scoops) / 4);
  const part = ['', '¼', '½', '¾'][Math.round(4 * scoops) % 4]!;
  return whole === 0 && part !== '' ? part : `${whole}${part}`;
};

/** "3¼ scoops, ±25 %"; "weigh it" where a scoop tells nothing. */
export function scoopWords(addition: CardAddition): string {
  const { scoops } = addition;
  if (scoops === null) return 'weigh it';
  const error = Math.round(100 * scoops.error);
  return `${quarters(scoops.value)}${error < 2 ? '' : ` ±${error} %`}`;
}

const minutes = (value: number): string => {
  if (value < 1) return `${Math.round(60 * value)} s`;
  return value < 60 * DAYS_FROM ? printMinutes(value) : hours(value / 60);
};

/** From this many hours on a time is told in days. */
const DAYS_FROM = 48;

const hours = (value: number): string => {
  const unit = value < DAYS_FROM ? 1 : 24;
  return printForetold(unit * Number((value / unit).toPrecision(2)), 'time');
};

export interface TimerWords {
  readonly name: string;
  readonly value: string;
  /** "likely 6 to 13 min"; empty where there is no range. */
  readonly range: string;
}

/** A timer in words; times count from the moment powder meets water. */
export function timerWords(timer: CardTimer): TimerWords {
  const say = timer.unit === 'min' ? minutes : hours;
  const { name, low, high } = timer;
  const untold = timer.why ?? (timer.id === 'dry' ? NEVER_DRY : 'not known');
  const value = timer.value === null ? untold : say(timer.value);
  if (low === null && high === null) {
    // Drying has a slow end always: where none is told it is beyond telling.
    const open = timer.id === 'dry' && timer.value !== null;
    return { name, value, range: open ? `perhaps ${OVER_A_YEAR}` : '' };
  }
  if (low === null) return { name, value, range: `perhaps ${say(high!)}` };
  if (high === null) return { name, value, range: `likely ${say(low)} to ${OVER_A_YEAR}` };
  return { name, value, range: say(low) === say(high) ? '' : `likely ${between(say(low), say(high))}` };
}

/** "5 to 13 min": the unit once, where both have the same. */
function between(low: string, high: string): string {
  const unit = / [a-z]+$/i;
  const once = low.match(unit)?.[0] === high.match(unit)?.[0] && ![low, high].some((time) => / .* /.test(time));
  return `${once ? low.replace(unit, '') : low} to ${high}`;
}

export const stageMinutes = (value: number | null): string => (value === null ? '' : minutes(value));

export const temperature = (celsius: number, system: UnitSystem): string =>
  printQuantity(celsius, 'temperature', { system, digits: 0 });

/** The limits that a bowl as weighed misses, in words; null where it misses none. */
export function missedWords(targets: CardResult['targets'], wording: Wording): string | null {
  const missed = targets.filter((t) => !t.met);
  if (missed.length === 0) return null;
  return missed
    .map(({ kind, name, property, min, max }) =>
      kind === 'standing' ? `${name} (${printWindow(property, min, max, wording)}, kept by every blend)` : name,
    )
    .join(', ');
}
