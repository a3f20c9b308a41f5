import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bulkDensityFromVoids, voidContent } from '../../src/core/science/bulk.js';
import { gypsumDissolvedBy, gypsumSolubility } from '../../src/core/science/gypsum-solubility.js';
import { saturatedLimePh } from '../../src/core/science/lime.js';
import {
  correctForMoisture,
  freeWater,
  ovenDryMass,
  saturatedMass,
  stockMass,
} from '../../src/core/science/moisture.js';
import { plasterDensities } from '../../src/core/science/plaster-density.js';
import { emulsionDose, liquidWater, waterToAdd } from '../../src/core/science/polymer.js';
import {
  absoluteVolume,
  airFreeDensity,
  batchYield,
  freshVolume,
  gravimetricAir,
  massToFill,
  totalMass,
} from '../../src/core/science/volume.js';
import {
  countedAddition,
  equivalentBinder,
  jointFlyAshCap,
  K_VALUES,
  waterToBinder,
} from '../../src/core/science/water-binder.js';
import { waterDensity } from '../../src/core/science/water-density.js';
import { between, property } from './counting.js';

describe('water density', () => {
  it('is greatest at 4 °C and falls steadily above', () => {
    property(
      fc.tuple(between(4, 100), between(0.01, 20)),
      ([t, step]) => {
        if (t + step > 100) return false;
        expect(waterDensity(t + step)).toBeLessThan(waterDensity(t));
        return true;
      },
      300,
      200,
    );
    expect(waterDensity(4)).toBeCloseTo(0.999975, 6);
    expect(waterDensity(-5)).toBe(waterDensity(0));
  });
});

describe('absolute volume, yield and air', () => {
  const parts = fc.array(fc.record({ grams: between(0.1, 5000), density: between(0.1, 5) }), {
    minLength: 1,
    maxLength: 8,
  });

  it('sums, scales and does not mind the order', () => {
    property(fc.tuple(parts, between(0.1, 50)), ([mix, factor]) => {
      const volume = absoluteVolume(mix);
      expect(absoluteVolume([...mix].reverse())).toBeCloseTo(volume, 6);
      expect(absoluteVolume(mix.map((p) => ({ ...p, grams: p.grams * factor }))) / factor).toBeCloseTo(volume, 6);
      return true;
    });
  });

  it('gives zero air when the measured density is the theoretical one, and the air back when it is lower', () => {
    property(fc.tuple(parts, between(0, 0.3)), ([mix, air]) => {
      const theoretical = airFreeDensity(mix);
      expect(gravimetricAir(theoretical, theoretical)).toBe(0);
      const measured = totalMass(mix) / freshVolume(absoluteVolume(mix), air);
      expect(gravimetricAir(theoretical, measured)).toBeCloseTo(air, 9);
      expect(batchYield(totalMass(mix), measured)).toBeCloseTo(freshVolume(absoluteVolume(mix), air), 6);
      return true;
    });
  });

  it('fills the volume exactly with the last ingredient', () => {
    property(fc.tuple(parts, between(0, 0.2), between(0.2, 4)), ([mix, air, density]) => {
      const volume = 2 * freshVolume(absoluteVolume(mix), air);
      const grams = massToFill(volume, air, mix, density);
      expect(freshVolume(absoluteVolume([...mix, { grams, density }]), air) / volume).toBeCloseTo(1, 9);
      return true;
    });
  });

  it('says negative when the rest already overfills', () => {
    expect(massToFill(10, 0, [{ grams: 20, density: 1 }], 2)).toBeLessThan(0);
    expect(() => freshVolume(1, 1)).toThrow(RangeError);
    expect(() => absoluteVolume([{ grams: 1, density: 0 }])).toThrow(RangeError);
  });
});

describe('moisture', () => {
  it('keeps water: what the aggregates carry is what is not added', () => {
    const damp = fc.record({ saturated: between(1, 3000), surfaceMoisture: between(0, 0.1) });
    property(fc.tuple(between(0, 1000), fc.array(damp, { minLength: 1, maxLength: 4 })), ([water, aggregates]) => {
      const out = correctForMoisture(water, aggregates);
      const weighed = out.weighOut.reduce((a, b) => a + b, 0) + out.waterToAdd;
      expect(weighed).toBeCloseTo(water + aggregates.reduce((sum, a) => sum + a.saturated, 0), 6);
      return true;
    });
  });

  it('agrees between the dry and the saturated convention', () => {
    property(fc.tuple(between(1, 3000), between(0, 0.1), between(0, 0.2)), ([dry, absorption, moisture]) => {
      const free = freeWater(dry, moisture, absorption);
      expect(stockMass(dry, moisture) - saturatedMass(dry, absorption)).toBeCloseTo(free, 6);
      expect(ovenDryMass(stockMass(dry, moisture), moisture)).toBeCloseTo(dry, 6);
      expect(Math.sign(free)).toBe(Math.sign(moisture - absorption));
      return true;
    });
  });
});

describe('voids and binder counting', () => {
  it('turns voids into bulk density and back', () => {
    property(fc.tuple(between(0.2, 5), between(0.05, 0.95)), ([particle, voids]) => {
      expect(voidContent(bulkDensityFromVoids(particle, voids), particle)).toBeCloseTo(voids, 9);
      return true;
    });
    expect(voidContent(3, 2)).toBe(0);
  });

  it('never counts more than the cap, and never below the cement', () => {
    property(fc.tuple(between(1, 1000), between(0, 1000), between(0, 2), between(0, 1)), ([cement, grams, k, cap]) => {
      const counted = countedAddition(cement, { grams, k, cap });
      expect(counted).toBeLessThanOrEqual(k * cap * cement + 1e-9);
      expect(equivalentBinder(cement, [{ grams, k, cap }])).toBeGreaterThanOrEqual(cement);
      return true;
    });
    expect(waterToBinder(150, 300)).toBe(0.5);
    expect(() => waterToBinder(1, 0, [{ grams: 5, k: 1, cap: 0.5 }])).toThrow(RangeError);
    expect(countedAddition(0, { grams: 5, ...K_VALUES.US.slag })).toBe(5);
  });

  it('lets fly ash and silica fume share the German joint cap', () => {
    expect(jointFlyAshCap(300, 0)).toBeCloseTo(99, 9);
    expect(jointFlyAshCap(300, 33)).toBeCloseTo(99, 9);
    expect(jointFlyAshCap(300, 60)).toBeCloseTo(18, 9);
    expect(jointFlyAshCap(300, 70)).toBe(0);
  });
});

describe('plaster, lime and polymer', () => {
  it('makes plaster lighter with water, wet and dry', () => {
    property(fc.tuple(between(0.19, 0.9), between(0.001, 0.2)), ([ratio, step]) => {
      const thick = plasterDensities(ratio);
      const thin = plasterDensities(ratio + step);
      expect(thin.wet).toBeLessThan(thick.wet);
      expect(thin.dry).toBeLessThan(thick.dry);
      expect(thick.dry).toBeLessThanOrEqual(thick.wet + 0.01);
      return true;
    });
    expect(plasterDensities(0.7, 2.75, 1, 0.998, 0.1).wet).toBeCloseTo(0.9 * plasterDensities(0.7).wet, 9);
  });

  it('dissolves least gypsum when hot, and in proportion to water', () => {
    expect(gypsumSolubility(25)).toBeCloseTo(2.667417, 5);
    expect(gypsumSolubility(100)).toBeLessThan(gypsumSolubility(60));
    expect(gypsumSolubility(60)).toBeLessThan(gypsumSolubility(25));
    expect(gypsumDissolvedBy(10, 25)).toBeCloseTo(10 * gypsumSolubility(25), 9);
  });

  it('extrapolates the pH of lime water to 12.62 at 20 °C (binders.md T24)', () => {
    expect(Math.abs(saturatedLimePh(20) - 12.62)).toBeLessThanOrEqual(0.01);
  });

  it('does the emulsion arithmetic of proportioning.md 24', () => {
    const dose = emulsionDose(1000, 0.15, 0.47);
    expect(dose.emulsion).toBeCloseTo(319.1, 1);
    expect(dose.water).toBeCloseTo(169.1, 1);
    expect(waterToAdd(1000, 0.35, dose.water)).toBeCloseTo(180.9, 1);
    expect(emulsionDose(1000, 0.05, 0.5)).toEqual({ emulsion: 100, water: 50 });
    expect(liquidWater(10, 0.4)).toBeCloseTo(6, 9);
    expect(waterToAdd(100, 0.3, 40)).toBeLessThan(0);
  });
});
