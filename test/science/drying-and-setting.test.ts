import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  CONSTANT_WEIGHT,
  constantWeight,
  dryingTimeConstantDays,
  evaporationRate,
  fourierForLoss,
  freeWhenDryAfter,
  gypsumDryingVerdict,
  hoursToConstantWeight,
  MOST_LEFT_WHEN_DRY,
  remainingFreeWater,
  sheetCore,
  sheetLoss,
  sheetTailRate,
} from '../../src/core/science/drying.js';
import {
  arrheniusLogShift,
  citricAcidVerdict,
  doseFactor,
  doseSlope,
  flashSet,
  mixedSet,
  setTemperatureFactor,
  withinC150Vicat,
} from '../../src/core/science/setting.js';
import { between, property } from './counting.js';

/** Saturation pressure of water [Pa], Magnus form with the constants of WMO (from memory): a second road to the room. */
const saturation = (celsius: number): number => 611.2 * Math.exp((17.62 * celsius) / (243.12 + celsius));

describe('drying in a room', () => {
  const piece = { wallCm: 1, temperature: 20, humidity: 0.5 };

  it('is the reference in the reference room, slower when thick, humid or cold', () => {
    expect(dryingTimeConstantDays({ ...piece, daysAtReference: 2 })).toBeCloseTo(2, 12);
    property(
      fc.tuple(between(0.3, 6), between(10, 40), between(0.1, 0.9), between(1, 2)),
      ([wallCm, temperature, humidity, wallPower]) => {
        const days = dryingTimeConstantDays({ wallCm, temperature, humidity, wallPower });
        expect(dryingTimeConstantDays({ wallCm: wallCm * 1.1, temperature, humidity, wallPower })).toBeGreaterThan(
          days,
        );
        expect(dryingTimeConstantDays({ wallCm, temperature, humidity: humidity + 0.05, wallPower })).toBeGreaterThan(
          days,
        );
        expect(dryingTimeConstantDays({ wallCm, temperature: temperature + 1, humidity, wallPower })).toBeLessThan(
          days,
        );
        expect(dryingTimeConstantDays({ wallCm, temperature, humidity, wallPower, wind: 5 })).toBeLessThan(days);
        return true;
      },
    );
    expect(dryingTimeConstantDays(piece)).toBe(1.5);
    expect(dryingTimeConstantDays({ ...piece, wallCm: 4 })).toBeCloseTo(12, 9);
    expect(dryingTimeConstantDays({ ...piece, humidity: 1 })).toBe(Number.POSITIVE_INFINITY);
  });

  it('follows the vapour pressure deficit within 15 % from 10 to 40 °C', () => {
    const reference = evaporationRate({ celsius: 20, humidity: 0.5 });
    property(fc.tuple(between(10, 40), between(0.1, 0.9)), ([celsius, humidity]) => {
      const byPressure = (saturation(celsius) * (1 - humidity)) / (saturation(20) * 0.5);
      expect(evaporationRate({ celsius, humidity }) / reference / byPressure).toBeGreaterThan(0.85);
      expect(evaporationRate({ celsius, humidity }) / reference / byPressure).toBeLessThan(1.15);
      return true;
    });
  });

  it('loses water by halves, and none in a room that never dries', () => {
    expect(remainingFreeWater(100, 24 * Math.LN2, 24)).toBeCloseTo(50, 9);
    expect(remainingFreeWater(100, 1000, Number.POSITIVE_INFINITY)).toBe(100);
  });
});

describe('plane sheet', () => {
  it('keeps proportioning.md 26 and the half loss', () => {
    for (const [fo, loss] of [
      [0.05, 0.2523],
      [0.1, 0.3568],
      [0.2, 0.5041],
      [0.4, 0.6979],
      [0.848, 0.9],
      [1, 0.9313],
    ] as const) {
      expect(sheetLoss(fo)).toBeCloseTo(loss, 3);
    }
    expect(fourierForLoss(0.5)).toBeCloseTo(0.19673, 5);
  });

  it('is continuous where the two forms meet, rises and ends at one', () => {
    expect(sheetLoss(0.04 - 1e-12)).toBeCloseTo(sheetLoss(0.04 + 1e-12), 8);
    property(between(0, 5), (fo) => {
      expect(sheetLoss(fo + 0.01)).toBeGreaterThan(sheetLoss(fo));
      expect(sheetLoss(fo)).toBeLessThan(1);
      // The middle is the wettest place: more is left there than on average.
      expect(sheetCore(fo)).toBeGreaterThanOrEqual(1 - sheetLoss(fo) - 1e-9);
      return true;
    });
    expect(sheetLoss(0)).toBe(0);
    expect(sheetLoss(20)).toBeCloseTo(1, 12);
  });

  it('turns round: Fourier number for a loss', () => {
    property(between(0, 0.999), (share) => {
      expect(sheetLoss(fourierForLoss(share))).toBeCloseTo(share, 9);
      return true;
    });
    expect(() => fourierForLoss(1)).toThrow(RangeError);
  });

  it('falls off at the tail rate', () => {
    const [d, l] = [0.004, 0.5];
    const left = (hours: number) => 1 - sheetLoss((d * hours) / l ** 2);
    expect(Math.log(left(150) / left(160)) / 10).toBeCloseTo(sheetTailRate(d, l), 6);
  });
});

describe('constant weight', () => {
  it('calls dry what changes under a thousandth in fifteen hours', () => {
    expect(constantWeight(250.2, 250, 15)).toBe('dry');
    expect(constantWeight(250.3, 250, 15)).toBe('drying');
    expect(constantWeight(250.0, 250, 5)).toBe('too-soon');
  });

  it('says when: the rule holds at that hour and not an hour before', () => {
    property(
      fc.tuple(between(1, 400), between(50, 1000), between(5, 300)),
      ([free, dry, tau]) => {
        const hours = hoursToConstantWeight(free, dry, tau);
        const weight = (t: number) => dry + remainingFreeWater(free, Math.max(0, t), tau);
        const change = (t: number) => (weight(t - CONSTANT_WEIGHT.apart) - weight(t)) / weight(t);
        expect(change(hours)).toBeLessThanOrEqual(CONSTANT_WEIGHT.change * (1 + 1e-6));
        const left = (t: number) => remainingFreeWater(free, Math.max(0, t), tau) / dry;
        expect(left(hours)).toBeLessThanOrEqual(MOST_LEFT_WHEN_DRY * (1 + 1e-6));
        if (hours <= CONSTANT_WEIGHT.apart + 1) return false;
        expect(change(hours - 1) > CONSTANT_WEIGHT.change || left(hours - 1) > MOST_LEFT_WHEN_DRY).toBe(true);
        expect(freeWhenDryAfter(hours, tau) * dry).toBeCloseTo(free, 6);
        return true;
      },
      300,
      200,
    );
    expect(hoursToConstantWeight(10, 100, Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
    expect(hoursToConstantWeight(0, 100, 24)).toBe(15);
  });

  it('does not foretell a slow piece as dry while it still has water to lose', () => {
    // 3 % of water in a thick dense piece, a third of it gone in eleven days: 15 h change it by less than 0.1 % at once.
    const [free, dry, tau] = [30, 1000, 28 * 24];
    const weight = (t: number) => dry + remainingFreeWater(free, t, tau);
    expect(constantWeight(weight(0), weight(15), 15)).toBe('dry');
    expect(hoursToConstantWeight(free, dry, tau)).toBeCloseTo(tau * Math.log(30 / 5), 6);
  });

  it('holds the gypsum oven at 45 °C', () => {
    expect([35, 40, 42, 45, 45.1].map((t) => gypsumDryingVerdict(t))).toEqual(['ok', 'ok', 'warn', 'warn', 'refuse']);
    expect(gypsumDryingVerdict(40, 0.002)).toBe('warn');
  });
});

describe('setting', () => {
  const binder = fc.record({ minutes: between(1, 2000), grams: between(0.1, 1000), voice: between(0.01, 1) });

  it('lies between the quickest and the slowest binder, whatever their order and the batch', () => {
    property(fc.tuple(fc.array(binder, { minLength: 1, maxLength: 5 }), between(0.1, 10)), ([binders, factor]) => {
      const t = mixedSet(binders)!;
      const minutes = binders.map((b) => b.minutes);
      expect(t).toBeGreaterThanOrEqual(Math.min(...minutes) * (1 - 1e-9));
      expect(t).toBeLessThanOrEqual(Math.max(...minutes) * (1 + 1e-9));
      expect(mixedSet([...binders].reverse().map((b) => ({ ...b, grams: b.grams * factor })))).toBeCloseTo(t, 6);
      return true;
    });
    expect(mixedSet([])).toBeNull();
    expect(mixedSet([{ minutes: 10, grams: 0, voice: 1 }])).toBeNull();
  });

  it('puts portland with plaster on the plaster’s clock (8-15 min, binders.md d2)', () => {
    const t = mixedSet([
      { minutes: 10, grams: 41, voice: 1 },
      { minutes: 160, grams: 41, voice: 0.05 },
    ])!;
    expect(t).toBeGreaterThan(8);
    expect(t).toBeLessThan(15);
  });

  it('finds the slope of a dose from two timings and gives the timing back', () => {
    property(fc.tuple(between(1, 100), between(1, 300), between(0.01, 2)), ([plain, dosed, dose]) => {
      expect(plain * doseFactor(dose, doseSlope(plain, dosed, dose))).toBeCloseTo(dosed, 6);
      return true;
    });
    expect(doseFactor(5, 1, 2)).toBe(doseFactor(2, 1));
  });

  it('sets slower in the cold, faster in the warm', () => {
    property(fc.tuple(between(0, 40), between(5, 60)), ([celsius, energy]) => {
      expect(Math.sign(arrheniusLogShift(energy, celsius))).toBe(Math.sign(20 - celsius));
      expect(setTemperatureFactor(celsius, energy)).toBeCloseTo(Math.exp(arrheniusLogShift(energy, celsius)), 12);
      return true;
    });
  });

  it('knows the edges of the flash zone, of citric acid and of the Vicat window', () => {
    const zone = (portland: number) => flashSet({ portland, aluminate: 100 - portland }).length > 0;
    expect([0, 19.9, 20, 50, 80, 80.1, 100].map(zone)).toEqual([false, false, true, true, true, false, false]);
    expect(flashSet({ portland: 0, aluminate: 100, sulfate: 5, lime: 5 })).toEqual([
      'aluminate-sulfate',
      'aluminate-lime',
    ]);
    expect([0, 0.1, 0.11, 0.2, 0.21].map(citricAcidVerdict)).toEqual(['ok', 'ok', 'warn', 'warn', 'refuse']);
    expect([44, 45, 375, 376].map(withinC150Vicat)).toEqual([false, true, true, false]);
  });
});
