import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bogue } from '../../src/core/science/bogue.js';
import {
  adiabaticRise,
  burnCaution,
  COMPOUND_HEAT_TAYLOR,
  cementHeat,
  evenSteps,
  HEMIHYDRATE_HEAT,
  type HeatPeak,
  heatFromDissolution,
  mouldLoss,
  plasterAdiabaticRise,
  plasterConversion,
  semiAdiabaticPeak,
  thermalMass,
} from '../../src/core/science/heat.js';
import { degreeOfHydration } from '../../src/core/science/hydration.js';
import { MOLAR_MASSES } from '../../src/core/science/stoichiometry.js';
import {
  ACI_STRENGTH_SI,
  ACI_STRENGTH_US,
  abramsStrength,
  airStrengthFactor,
  bolomeyStrength,
  FIBRE_NOTE,
  feretRatio,
  feretStrength,
  gelSpaceStrength,
  plasterDryStrength,
  plasterStrengthByDensity,
  plasterStrengthWhileDrying,
  plasterWetStrength,
  polymerStrengthFactors,
  tabledStrength,
  targetMeanStrength,
  waterToCementFor,
} from '../../src/core/science/strength.js';
import { between, property } from './counting.js';

describe('plaster strength', () => {
  it('falls with water and keeps its two forms within 15 % of each other', () => {
    property(between(0.22, 0.73), (ratio) => {
      expect(plasterDryStrength(ratio + 0.01)).toBeLessThan(plasterDryStrength(ratio));
      const density = 1.1862 / (1 / 2.75 + ratio / 0.998);
      const share = plasterStrengthByDensity(density) / plasterDryStrength(ratio);
      expect(share).toBeGreaterThan(0.88);
      expect(share).toBeLessThan(1.15);
      return true;
    });
  });

  it('keeps the second form where it is', () => {
    expect(plasterStrengthByDensity(1.5)).toBeCloseTo(38.4655, 3);
  });

  it('rises from wet to dry without a jump, most of it at the end', () => {
    property(fc.tuple(between(1, 100), between(0, 0.99)), ([dry, gone]) => {
      const now = plasterStrengthWhileDrying(dry, gone);
      expect(now).toBeGreaterThanOrEqual(plasterWetStrength(dry) - 1e-9);
      expect(plasterStrengthWhileDrying(dry, gone + 0.01)).toBeGreaterThan(now);
      return true;
    });
    expect(plasterStrengthWhileDrying(30, 1)).toBeCloseTo(30, 12);
    expect(plasterStrengthWhileDrying(30, 0)).toBe(15);
    expect(plasterStrengthWhileDrying(30, 0.93 - 1e-9)).toBeCloseTo(plasterStrengthWhileDrying(30, 0.93 + 1e-9), 6);
  });
});

describe('portland laws', () => {
  it('keeps proportioning.md 2: Abrams, Bolomey, Feret', () => {
    for (const [w, f] of [
      [0.35, 48.58],
      [0.4, 44.08],
      [0.5, 36.28],
      [0.6, 29.87],
      [0.7, 24.59],
    ] as const) {
      expect(abramsStrength(w)).toBeCloseTo(f, 2);
    }
    expect(bolomeyStrength(0.5)).toBeCloseTo(23.54, 2);
    expect(bolomeyStrength(0.4)).toBeCloseTo(31.4, 1);
    expect(bolomeyStrength(0.6)).toBeCloseTo(18.3, 1);
    expect(bolomeyStrength(3)).toBe(0);
    expect(feretRatio(0.1, 0.2, 0.02)).toBeCloseTo(0.09766, 5);
    expect(feretRatio(0.1, 0.2, 0)).toBeCloseTo(0.11111, 5);
    expect(feretStrength(0.1, 0.2, 0, 270)).toBeCloseTo(30, 9);
  });

  it('reads the tables straight between rows and nothing outside', () => {
    expect(waterToCementFor(28, ACI_STRENGTH_SI.plain)).toBeCloseTo(0.568, 3);
    expect(waterToCementFor(50, ACI_STRENGTH_SI.plain)).toBeNull();
    expect(waterToCementFor(1500, ACI_STRENGTH_US.plain)).toBeNull();
    expect(tabledStrength(0.2, ACI_STRENGTH_SI.plain)).toBeNull();
    property(between(15, 45), (strength) => {
      for (const table of [ACI_STRENGTH_SI.plain, ACI_STRENGTH_SI.airEntrained]) {
        expect(tabledStrength(waterToCementFor(strength, table)!, table)).toBeCloseTo(strength, 6);
      }
      expect(waterToCementFor(strength, ACI_STRENGTH_SI.airEntrained)!).toBeLessThan(
        waterToCementFor(strength, ACI_STRENGTH_SI.plain)!,
      );
      return true;
    });
  });

  it('cubes the gel/space ratio and clamps it', () => {
    expect(gelSpaceStrength(2)).toBe(234);
    expect(gelSpaceStrength(0.5)).toBeCloseTo(234 / 8, 9);
  });

  it('takes about five percent for a percent of air, and bounds the polymer', () => {
    expect(airStrengthFactor(0.01)).toBeCloseTo(0.951, 3);
    expect(airStrengthFactor(0.02, 0.02)).toBe(1);
    expect(polymerStrengthFactors(0.1)).toEqual({ compression: 0.95, bending: 1.2 });
    expect(polymerStrengthFactors(5)).toEqual(polymerStrengthFactors(0.2));
    expect(targetMeanStrength(50, 5)).toBeCloseTo(58.25, 9);
    expect(FIBRE_NOTE).toMatch(/does not raise compressive strength/);
  });
});

describe('heat', () => {
  it('keeps binders.md a3 and T11', () => {
    expect(heatFromDissolution(-18275, -1130, MOLAR_MASSES.hemihydrate)).toBeCloseTo(118, 0);
    for (const [ratio, low, high] of [
      [0.32, 64, 72],
      [0.45, 49, 55],
      [0.7, 34, 39],
    ] as const) {
      expect(plasterAdiabaticRise(ratio, 118)).toBeGreaterThan(low - 0.5);
      expect(plasterAdiabaticRise(ratio, 133)).toBeLessThan(high + 1);
    }
    const { c3s, c2s, c3a, c4af } = bogue({ sio2: 20.6, al2o3: 5.07, fe2o3: 2.9, cao: 63.9, so3: 2.53 });
    const phases = { c3s, c2s, c3a, c4af, so3: 2.53, mgo: 1.53 };
    expect(cementHeat(phases)).toBeCloseTo(470, 0);
    expect(cementHeat(phases, COMPOUND_HEAT_TAYLOR)).toBeGreaterThan(470);
  });

  it('heats plaster less with more water, and not at all without any', () => {
    property(between(0.19, 1.5), (ratio) => {
      expect(plasterAdiabaticRise(ratio + 0.01)).toBeLessThan(plasterAdiabaticRise(ratio));
      return true;
    });
    expect(plasterAdiabaticRise(0)).toBe(0);
    expect(plasterAdiabaticRise(0.1)).toBeLessThan(plasterAdiabaticRise(0.186));
    expect(HEMIHYDRATE_HEAT.beta.value).toBeGreaterThan(HEMIHYDRATE_HEAT.alpha.value);
  });

  const cast = fc.record({
    heat: between(1000, 500_000),
    thermalMass: between(100, 5000),
    loss: between(0, 5000),
    room: between(5, 35),
    energy: between(0, 50),
    finalSet: between(10, 600),
  });

  it('never passes the adiabatic bound, reaches it without loss, and is cooler the more it loses', () => {
    property(
      cast,
      ({ finalSet, ...c }) => {
        const one = { ...c, start: c.room, released: (h: number) => plasterConversion(60 * h, finalSet) };
        const bound = c.room + adiabaticRise(c.heat, c.thermalMass);
        const peak = semiAdiabaticPeak(one);
        expect(peak.peak).toBeLessThanOrEqual(bound + 1e-6);
        expect(peak.peak).toBeGreaterThanOrEqual(c.room);
        expect(semiAdiabaticPeak({ ...one, loss: c.loss + 500 }).peak).toBeLessThanOrEqual(peak.peak + 1e-9);
        expect(semiAdiabaticPeak({ ...one, loss: 0, times: evenSteps(400, 2400) }).peak).toBeCloseTo(bound, 2);
        return true;
      },
      60,
    );
  });

  it('stops at the first fall of one wave of heat, with the same answer in fewer steps', () => {
    let [steps, fewer] = [0, 0];
    property(
      fc.tuple(cast, fc.constantFrom('plaster', 'cement'), fc.constantFrom(24, 60, 200)),
      ([{ finalSet, ...c }, kind, count]) => {
        const curve = (h: number): number =>
          kind === 'plaster'
            ? plasterConversion(60 * h, finalSet)
            : degreeOfHydration(h, 1, { tauHours: finalSet / 20, beta: 0.9 });
        const followed = (oneWave: boolean): [HeatPeak, number] => {
          let asked = 0;
          const released = (h: number): number => {
            asked++;
            return curve(h);
          };
          const peak = semiAdiabaticPeak({ ...c, start: c.room, released, oneWave, times: evenSteps(24, count) });
          return [peak, asked];
        };
        const [[whole, all], [short, some]] = [followed(false), followed(true)];
        expect(short).toEqual(whole);
        expect(some).toBeLessThanOrEqual(all);
        steps += all;
        fewer += some;
        return true;
      },
      200,
    );
    expect(fewer).toBeLessThan(0.8 * steps);
  });

  it('waits for the second wave of a blend that has two', () => {
    const released = (h: number): number => 0.2 * plasterConversion(60 * h, 10) + 0.8 * plasterConversion(60 * h, 500);
    const two = { heat: 100_000, thermalMass: 2000, loss: 600, room: 20, start: 20, released };
    expect(semiAdiabaticPeak({ ...two, oneWave: true }).at).toBeLessThan(1);
    expect(semiAdiabaticPeak(two).at).toBeGreaterThan(5);
  });

  it('agrees with the exact answer where there is one: heat at a steady rate against a steady loss', () => {
    // C dT/dt = q - k (T - room) over a time H ends at room + (q/k)(1 - exp(-k H/C)).
    const [heat, mass, loss, hours] = [60_000, 1000, 300, 12];
    const exact = 20 + (heat / hours / loss) * (1 - Math.exp((-loss * hours) / mass));
    const steady = semiAdiabaticPeak({
      heat,
      thermalMass: mass,
      loss,
      room: 20,
      start: 20,
      times: evenSteps(hours, 2400),
      released: (h) => h / hours,
    });
    expect(steady.peak).toBeCloseTo(exact, 2);
  });

  it('puts half the set at the final set, and warms a mould by its walls', () => {
    expect(plasterConversion(30, 30)).toBeCloseTo(0.5, 12);
    expect(plasterConversion(0, 30)).toBe(0);
    expect(mouldLoss(1000, 1)).toBeLessThan(mouldLoss(1000, 0.3));
    expect(mouldLoss(1e4, 0, 0.2, 8)).toBeCloseTo(8 * 3600, 6);
    expect(thermalMass([{ grams: 100, specificHeat: 4.18 }])).toBeCloseTo(418, 9);
  });

  it('warns of burns by temperature', () => {
    expect([39, 40, 45].map(burnCaution)).toEqual(['none', 'warm', 'burn']);
  });
});
