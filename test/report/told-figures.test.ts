import { describe, expect, it } from 'vitest';
import { PROPERTIES } from '../../src/core/blend/properties/index.js';
import { timerWords } from '../../src/core/report/card-print.js';
import {
  isBeyondTelling,
  isTold,
  NEVER_DRY,
  printLikely,
  printTold,
  toldHours,
  toldNumber,
  toldVerdict,
  toldWhy,
} from '../../src/core/report/told-figures.js';

const YEAR = { minutes: 60 * 24 * 365, days: 365 };
const METRIC = { system: 'metric', currency: null } as const;

describe('a number that is told', () => {
  it('is any up to a year, of times alone', () => {
    for (const { id, quantity } of PROPERTIES) {
      const year = quantity === 'set-time' ? YEAR.minutes : quantity === 'days' ? YEAR.days : Number.NaN;
      if (Number.isNaN(year)) expect(isBeyondTelling(id, 1e30), id).toBe(false);
      else {
        expect(toldNumber(id, year), id).toBe(year);
        expect(toldNumber(id, year * 1.001), id).toBeNull();
        expect([toldWhy(id, year), toldWhy(id, year * 1.001)], id).toEqual([null, 'over a year']);
      }
    }
    expect(toldNumber('initial-set', null)).toBeNull();
    expect(toldWhy('initial-set', null)).toBeNull();
  });

  it('of hours is null beyond a year, and for ever', () => {
    expect(toldHours(100, NEVER_DRY)).toEqual({ value: 100, why: null });
    expect(toldHours(24 * 366, NEVER_DRY)).toEqual({ value: null, why: 'over a year' });
    expect(toldHours(Number.POSITIVE_INFINITY, NEVER_DRY)).toEqual({ value: null, why: NEVER_DRY });
  });

  it('leaves what a verdict says as it was', () => {
    const far = { property: 'initial-set', min: null, max: 30, value: 1e27, met: false, margin: -1e27, chance: 0.1 };
    expect(toldVerdict(far)).toEqual({ ...far, value: null, margin: null });
    const near = { ...far, value: 45, margin: -15 };
    expect(toldVerdict(near)).toBe(near);
  });
});

describe('its words', () => {
  const told = (value: number | null, low: number | null, high: number | null, why: string | null = null) => {
    const property = { property: 'initial-set', value, low, high, why };
    return [isTold(property), printTold(property, METRIC), printLikely(property, METRIC)];
  };

  it('say over a year for a value, and for the end of a range', () => {
    expect(told(35, 20, 60)).toEqual([true, '35 min', 'likely 20 min to 60 min']);
    expect(told(35, 35, 35)).toEqual([true, '35 min', '']);
    expect(told(35, null, null)).toEqual([true, '35 min', '']);
    expect(told(35, 20, null)).toEqual([true, '35 min', 'likely 20 min to over a year']);
    expect(told(null, 20, null, 'over a year')).toEqual([true, 'over a year', 'likely 20 min to over a year']);
    expect(told(null, null, null, 'over a year')).toEqual([true, 'over a year', '']);
    expect(told(null, null, null, 'nothing in the blend sets')).toEqual([false, '–', '']);
  });

  it('say the same on a card', () => {
    const words = (value: number | null, low: number | null, high: number | null, why: string | null = null) =>
      timerWords({ id: 'pour', name: 'n', value, low, high, why, unit: 'min' });
    expect(words(35, 20, null)).toMatchObject({ value: '35 min', range: 'likely 20 min to over a year' });
    expect(words(null, 20, null, 'over a year')).toMatchObject({
      value: 'over a year',
      range: 'likely 20 min to over a year',
    });
    const dry = (value: number | null, high: number | null, why: string | null = null) =>
      timerWords({ id: 'dry', name: 'n', value, low: null, high, why, unit: 'h' });
    expect(dry(190, 331)).toMatchObject({ value: '7.9 days', range: 'perhaps 14 days' });
    expect(dry(4800, null)).toMatchObject({ value: '200 days', range: 'perhaps over a year' });
    expect(dry(null, null, 'over a year')).toMatchObject({ value: 'over a year', range: '' });
  });
});
