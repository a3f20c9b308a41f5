import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clockOf,
  dayOf,
  isoDate,
  momentText,
  nextWorkingMoment,
  opening,
  usableOn,
  type WorkingDays,
  weekdayOf,
} from '../../src/core/shop/order-calendar.js';

const day = (text: string): number => dayOf(text)!;
const SHOP: WorkingDays = {
  weekdays: new Set(['mon', 'tue', 'wed', 'thu', 'fri']),
  closed: new Set([day('2026-04-03')]),
  opens: 540,
  minutes: 360,
};

describe('dates', () => {
  it('refuses days that no calendar has', () => {
    for (const text of [
      '2026-02-29',
      '2026-04-31',
      '2026-13-01',
      '2026-1-1',
      '01.02.2026',
      'tomorrow',
      '2026-04-30T10:00',
      '',
    ])
      expect(dayOf(text), text).toBeUndefined();
    expect(dayOf('2024-02-29')).toBeDefined();
    expect(dayOf('1900-02-29')).toBeUndefined();
    expect(dayOf('2000-02-29')).toBeDefined();
  });

  // Weekdays of known events. Source: from memory (first Moon landing on a Sunday; 2000-01-01 was a Saturday).
  it('knows the weekday', () => {
    expect(weekdayOf(day('1969-07-20'))).toBe('sun');
    expect(weekdayOf(day('2000-01-01'))).toBe('sat');
    expect(weekdayOf(0)).toBe('thu');
  });

  it('goes there and back over four centuries, one day at a time', () => {
    let cases = 0;
    fc.assert(
      fc.property(fc.integer({ min: -146_097, max: 146_097 }), (n) => {
        cases++;
        expect(dayOf(isoDate(n))).toBe(n);
        // The platform's own calendar as the second opinion.
        expect(new Date(`${isoDate(n)}T12:00:00Z`).getUTCDay()).toBe(
          ['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat'].indexOf(weekdayOf(n)),
        );
      }),
    );
    expect(cases).toBeGreaterThanOrEqual(100);
  });
});

describe('working days', () => {
  const moment = (date: string, minute: number): number => day(date) * 1440 + minute;

  it('skips nights, weekends and closed days', () => {
    const next = (date: string, minute: number) => momentText(nextWorkingMoment(SHOP, moment(date, minute)));
    expect(next('2026-04-02', 600)).toBe('2026-04-02T10:00');
    expect(next('2026-04-02', 0)).toBe('2026-04-02T09:00');
    // Thursday after closing: Friday is closed, then the weekend.
    expect(next('2026-04-02', 900)).toBe('2026-04-06T09:00');
    expect(opening(SHOP, day('2026-04-06'))).toBe(moment('2026-04-06', 540));
  });

  it('calls a thing usable on the day while the shop is open, on the next day after that', () => {
    expect(isoDate(usableOn(SHOP, moment('2026-04-02', 900)))).toBe('2026-04-02');
    expect(isoDate(usableOn(SHOP, moment('2026-04-02', 901)))).toBe('2026-04-03');
    expect(usableOn(SHOP, Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
  });

  it('prints a clock', () => {
    expect(clockOf(moment('2026-04-02', 0))).toBe('00:00');
    expect(clockOf(moment('2026-04-02', 545.4))).toBe('09:05');
    expect(clockOf(-1)).toBe('23:59');
  });
});
