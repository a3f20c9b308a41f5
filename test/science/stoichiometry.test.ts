import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bogue } from '../../src/core/science/bogue.js';
import {
  boundWaterAnhydrite,
  boundWaterBelite,
  boundWaterHemihydrate,
  boundWaterMonocalciumAluminate,
  boundWaterYeelimite,
  dryPlasterMass,
  limeCarbonation,
  MOLAR_MASSES,
  molarMass,
  quicklimeSlakingWater,
  SO3_FRACTION,
  so3ForFullEttringite,
  yeelimiteHydration,
} from '../../src/core/science/stoichiometry.js';
import { between, property } from './counting.js';

// Values marked binders.md or proportioning.md were computed there apart from this code from the same formulas: they
// guard against silent change and are not published checks.
describe('stoichiometry', () => {
  it('keeps the figures worked out in binders.md a1, c1, c3 (T1, T2, T20, T25, T26)', () => {
    expect(boundWaterHemihydrate(1000)).toBeCloseTo(186.2, 1);
    expect(dryPlasterMass(1000)).toBeCloseTo(1186.2, 1);
    expect(1700 - dryPlasterMass(1000)).toBeCloseTo(513.8, 1);
    expect(1450 - dryPlasterMass(1000)).toBeCloseTo(263.8, 1);
    expect(so3ForFullEttringite(8.529).so3).toBeCloseTo(7.58, 2);
    expect(so3ForFullEttringite(1).gypsum).toBeCloseTo(1.91, 2);
    expect(limeCarbonation(1000).solids).toBeCloseTo(1350.8, 1);
    expect(yeelimiteHydration({ yeelimite: 610.25, anhydrite: 272.27 }).boundWater).toBeCloseTo(684.6, 0);
    expect(SO3_FRACTION.hemihydrate).toBeCloseTo(0.5516, 4);
    expect(boundWaterAnhydrite(1)).toBeCloseTo(0.2647, 4);
    expect(quicklimeSlakingWater(1)).toBeCloseTo(0.3213, 4);
    expect(boundWaterMonocalciumAluminate(1, 'CAH10')).toBeCloseTo(1.14, 3);
    expect(boundWaterMonocalciumAluminate(1, 'C2AH8')).toBeCloseTo(0.627, 3);
    expect(boundWaterMonocalciumAluminate(1)).toBeCloseTo(0.456, 3);
  });

  it('binds in belite what its gel and its lime leave it when dried, with nothing lost', () => {
    // C2S + 1.8 H -> C1.7SH1.5 + 0.3 CH, by molar masses written out: 172.239, 18.015 g/mol.
    expect(boundWaterBelite(172.239)).toBeCloseTo(1.8 * 18.015, 2);
    expect(boundWaterBelite(100, 0.4)).toBeCloseTo(7.531, 3);
    const gel = 1.7 * MOLAR_MASSES.quicklime + molarMass({ Si: 1, O: 2 }) + 1.5 * MOLAR_MASSES.water;
    const made = gel + 0.3 * MOLAR_MASSES.slakedLime;
    expect(MOLAR_MASSES.dicalciumSilicate + boundWaterBelite(MOLAR_MASSES.dicalciumSilicate)).toBeCloseTo(made, 6);
  });

  it('gives the bound water of binders.md c1 with each calcium sulfate', () => {
    const y = MOLAR_MASSES.yeelimite;
    const perGram = (kind: 'anhydrite' | 'hemihydrate' | 'gypsum', molar: number): number =>
      yeelimiteHydration({ yeelimite: y, [kind]: 2 * molar }).boundWater / (y + 2 * molar);
    expect(perGram('anhydrite', MOLAR_MASSES.anhydrite)).toBeCloseTo(0.776, 3);
    expect(perGram('hemihydrate', MOLAR_MASSES.hemihydrate)).toBeCloseTo(0.74, 3);
    expect(perGram('gypsum', MOLAR_MASSES.dihydrate)).toBeCloseTo(0.642, 3);
    expect(boundWaterYeelimite(1)).toBeCloseTo(0.531, 3);
  });

  it('conserves mass in the hydration of ye’elimite for any sulfates', () => {
    const grams = between(0, 500);
    property(fc.tuple(between(1, 500), grams, grams, grams), ([yeelimite, anhydrite, hemihydrate, gypsum]) => {
      const out = yeelimiteHydration({ yeelimite, anhydrite, hemihydrate, gypsum });
      const before = yeelimite + anhydrite + hemihydrate + gypsum + out.boundWater;
      const { left } = out;
      const after =
        out.ettringite + out.monosulfate + out.aluminiumHydroxide + left.anhydrite + left.hemihydrate + left.gypsum;
      expect(after / before).toBeCloseTo(1, 10);
      for (const value of [out.boundWater, out.ettringite, out.monosulfate, ...Object.values(left)]) {
        expect(value).toBeGreaterThanOrEqual(-1e-9);
      }
      return true;
    });
  });

  it('leaves sulfate or makes monosulfate, never both', () => {
    property(fc.tuple(between(1, 500), between(0, 800)), ([yeelimite, anhydrite]) => {
      const out = yeelimiteHydration({ yeelimite, anhydrite });
      expect(Math.min(out.monosulfate, out.left.anhydrite)).toBeLessThan(1e-6 * (yeelimite + anhydrite));
      return true;
    });
  });

  it('conserves mass in carbonation', () => {
    property(fc.tuple(between(0, 1e4), between(0, 1)), ([grams, degree]) => {
      const { solids, carbonDioxide, water } = limeCarbonation(grams, degree);
      expect(solids + water).toBeCloseTo(grams + carbonDioxide, 6);
      return true;
    });
  });

  it('derives Bogue’s coefficients anew from molar masses', () => {
    const sio2 = molarMass({ Si: 1, O: 2 });
    const al2o3 = molarMass({ Al: 2, O: 3 });
    const fe2o3 = molarMass({ Fe: 2, O: 3 });
    const { quicklime: cao, sulfurTrioxide: so3 } = MOLAR_MASSES;
    const c3s = 3 * cao + sio2;
    const c3a = 3 * cao + al2o3;
    const one = (oxide: Partial<Record<'cao' | 'sio2' | 'al2o3' | 'fe2o3' | 'so3', number>>) =>
      bogue({ cao: 0, sio2: 0, al2o3: 1, fe2o3: 0, so3: 0, ...oxide });
    const base = one({});
    // One more percent of each oxide moves C3S by its coefficient; the other coefficients follow from the balance of lime.
    expect(one({ cao: 1 }).c3s - base.c3s).toBeCloseTo(c3s / cao, 2);
    expect(one({ sio2: 1 }).c3s - base.c3s).toBeCloseTo((-2 * c3s) / sio2, 2);
    expect(one({ al2o3: 2 }).c3s - base.c3s).toBeCloseTo((-3 * c3s) / al2o3, 1);
    expect(one({ so3: 1 }).c3s - base.c3s).toBeCloseTo(-c3s / so3, 2);
    expect(base.c3a).toBeCloseTo(c3a / al2o3, 2);
    expect(one({ al2o3: 10, fe2o3: 1 }).c4af).toBeCloseTo((4 * cao + al2o3 + fe2o3) / fe2o3, 2);
  });

  it('joins Bogue’s two branches where they meet', () => {
    const oxides = (ratio: number) => ({ cao: 64, sio2: 21, al2o3: 4 * ratio, fe2o3: 4, so3: 2.5 });
    const above = bogue(oxides(0.64));
    const below = bogue(oxides(0.64 - 1e-9));
    expect(above.c3a).toBeCloseTo(below.c3a, 1);
    expect(above.c3s).toBeCloseTo(below.c3s, 1);
    expect(above.c4af).toBeCloseTo(below.c4af, 1);
    expect(bogue(oxides(0.5)).c3a).toBe(0);
    expect(bogue({ ...oxides(1), fe2o3: 0 }).aluminaRatio).toBe(Number.POSITIVE_INFINITY);
  });

  it('refuses nonsense', () => {
    expect(() => boundWaterHemihydrate(-1)).toThrow(RangeError);
    expect(() => boundWaterHemihydrate(1, 1.2)).toThrow(RangeError);
    expect(() => boundWaterHemihydrate(Number.NaN)).toThrow(RangeError);
  });
});
