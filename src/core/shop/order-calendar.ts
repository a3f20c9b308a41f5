import { WEEKDAYS, type Weekday } from '../brief/working-hours.js';
import { refuse, type Where } from '../problems/problem.js';

/**
 * Days as whole numbers counted from 1970-01-01 in UTC, so that no time zone or summer time can shift them; moments as
 * minutes, 1440 a day, on the same count. The core has no clock: every date comes from the maker.
 */
export type Day = number;

export const MINUTES_PER_DAY = 1440;

const MILLISECONDS_PER_DAY = 86_400_000;
const ISO = /^(\d{4})-(\d{2})-(\d{2})$/;

/** The day an ISO date names, or undefined when the calendar has no such day. */
export function dayOf(text: string): Day | undefined {
  const parts = ISO.exec(text.trim());
  if (parts === null) return undefined;
  const [year, month, date] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const day = Date.UTC(year, month - 1, date) / MILLISECONDS_PER_DAY;
  return isoDate(day) === `${parts[1]}-${parts[2]}-${parts[3]}` ? day : undefined;
}

/** @throws InputProblems `field-wrong-type` when the text is no date. */
export function readDay(text: string, where?: Where): Day {
  const day = dayOf(text);
  if (day !== undefined) return day;
  return refuse({
    code: 'field-wrong-type',
    ...(where && { where }),
    found: text,
    expected: 'a date that exists, written year-month-day such as 2026-04-30',
  });
}

/** "2026-04-30". */
export const isoDate = (day: Day): string => new Date(day * MILLISECONDS_PER_DAY).toISOString().slice(0, 10);

/** 1970-01-01 was a Thursday. */
export const weekdayOf = (day: Day): Weekday => WEEKDAYS[(((day + 3) % 7) + 7) % 7]!;

/** The day a moment in minutes falls on. */
export const dayAt = (minute: number): Day => Math.floor(minute / MINUTES_PER_DAY);

/** Clock of a moment: "09:05". Rounded to the minute. */
export function clockOf(minute: number): string {
  const inDay = ((Math.round(minute) % MINUTES_PER_DAY) + MINUTES_PER_DAY) % MINUTES_PER_DAY;
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(Math.floor(inDay / 60))}:${two(inDay % 60)}`;
}

/** "2026-04-30T09:05", local time of the shop. */
export function momentText(minute: number): string {
  const whole = Math.round(minute);
  return `${isoDate(dayAt(whole))}T${clockOf(whole)}`;
}

/** When the shop works. */
export interface WorkingDays {
  readonly weekdays: ReadonlySet<Weekday>;
  readonly closed: ReadonlySet<Day>;
  /** Minutes after midnight at which the working day begins. */
  readonly opens: number;
  /** Minutes worked a day, in one stretch. */
  readonly minutes: number;
}

export const isWorkingDay = (days: WorkingDays, day: Day): boolean =>
  days.weekdays.has(weekdayOf(day)) && !days.closed.has(day);

export const opening = (days: WorkingDays, day: Day): number => day * MINUTES_PER_DAY + days.opens;
export const closing = (days: WorkingDays, day: Day): number => opening(days, day) + days.minutes;

/** The first moment at or after this one at which the shop is open. Expects at least one weekday; looks ten years on. */
export function nextWorkingMoment(days: WorkingDays, minute: number): number {
  for (let day = dayAt(minute); day < dayAt(minute) + 3660; day++) {
    if (!isWorkingDay(days, day)) continue;
    if (minute <= opening(days, day)) return opening(days, day);
    if (minute < closing(days, day)) return minute;
  }
  return Number.POSITIVE_INFINITY;
}

/** The day on which something ready at this moment can be used: that day while the shop is open or not yet open. */
export function usableOn(days: WorkingDays, minute: number): Day {
  if (!Number.isFinite(minute)) return Number.POSITIVE_INFINITY;
  const day = dayAt(minute);
  return minute <= closing(days, day) ? day : day + 1;
}
