import { describe, expect, it } from 'vitest';
import { bogue } from '../../src/core/science/bogue.js';
import * as bulk from '../../src/core/science/bulk.js';
import * as drying from '../../src/core/science/drying.js';
import { thermalMass } from '../../src/core/science/heat.js';
import * as pigment from '../../src/core/science/pigment.js';
import * as polymer from '../../src/core/science/polymer.js';
import * as setting from '../../src/core/science/setting.js';
import { crackReasons } from '../../src/core/science/shrinkage.js';
import * as skeleton from '../../src/core/science/skeleton.js';
import { limeCarbonation, so3ForFullEttringite } from '../../src/core/science/stoichiometry.js';
import { plasterStrengthWhileDrying } from '../../src/core/science/strength.js';
import * as curves from '../../src/core/science/target-curves.js';
import { waterToBinder } from '../../src/core/science/water-binder.js';

/** Places that mutation testing changed with no test noticing: the ends of ranges and figures nothing compared. */

describe('full ettringite', () => {
  it('takes 26 water for each C3A: molar masses 18.015 and 270.19 (IUPAC 2021)', () => {
    expect(so3ForFullEttringite(1).water).toBeCloseTo((26 * 18.015) / 270.19, 3);
    expect(so3ForFullEttringite(8).water).toBeCloseTo((8 * 26 * 18.015) / 270.19, 2);
  });
});

describe('plaster while it dries', () => {
  it('has gained a fifth of what drying gives it when 93 % of the water has gone, whatever its strength', () => {
    for (const dry of [4, 20, 60]) {
      expect(plasterStrengthWhileDrying(dry, 0.93)).toBeCloseTo(dry / 2 + 0.2 * (dry / 2), 9);
      expect(plasterStrengthWhileDrying(dry, 0.465)).toBeCloseTo(dry / 2 + 0.1 * (dry / 2), 9);
      expect(plasterStrengthWhileDrying(dry, 0.965)).toBeCloseTo(dry / 2 + 0.6 * (dry / 2), 9);
    }
  });
});

describe('the tail of a drying sheet', () => {
  it('falls at the rate of the series itself once its first term is alone (Crank 1975)', () => {
    for (const [diffusivity, half] of [
      [0.01, 2],
      [0.003, 0.5],
    ] as const) {
      const left = (hours: number) => 1 - drying.sheetLoss((diffusivity * hours) / half ** 2);
      const late = half ** 2 / diffusivity;
      const rate = Math.log(left(late) / left(1.2 * late)) / (0.2 * late);
      expect(drying.sheetTailRate(diffusivity, half) / rate).toBeCloseTo(1, 4);
    }
    expect(() => drying.sheetTailRate(1, 0)).toThrow(/^halfThickness is 0, expected /);
  });
});

describe('limits that a piece may stand on exactly', () => {
  it('a piece with 35 % grains, w/b 0.55, walls 3:1 and a day of cover has no reason to crack', () => {
    const on = { aggregate: 0.35, waterToBinder: 0.55, wallRatio: 3, coverDays: 1, shrinkingShare: 0.25 };
    expect(crackReasons(on)).toEqual([]);
    expect(crackReasons({ ...on, coverDays: 0.99, aggregate: 0.34 })).toEqual(['rich', 'dried-early']);
  });

  it('takes lime or plaster under a hundredth of the aluminate cement for dust, and more for a flash set', () => {
    const beside = (more: { sulfate?: number; lime?: number }) =>
      setting.flashSet({ portland: 0, aluminate: 100, ...more });
    expect([{ lime: 0.9 }, { sulfate: 0.9 }, { lime: 1, sulfate: 1 }].flatMap(beside)).toEqual([]);
    expect([{ lime: 1.1 }, { sulfate: 1.1 }].map(beside)).toEqual([['aluminate-lime'], ['aluminate-sulfate']]);
  });

  it('no pigment is nought per cent even where there is nothing to colour', () => {
    expect(pigment.pigmentVerdict(0, []).percent).toBe(0);
    expect(pigment.pigmentVerdict(0, [{ grams: 0 }]).percent).toBe(0);
    expect(pigment.pigmentVerdict(0, [{ grams: 1 }]).percent).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('a refusal', () => {
  it.each<[string, () => unknown]>([
    ['share', () => drying.fourierForLoss(1)],
    ['cement', () => polymer.emulsionDose(-1, 0.1, 0.5)],
    ['polymerToCement', () => polymer.emulsionDose(1, -0.1, 0.5)],
    ['solids', () => polymer.emulsionDose(1, 0.1, 0)],
    ['grams', () => setting.mixedSet([{ minutes: 1, grams: -1, voice: 1 }])],
    ['voice', () => setting.mixedSet([{ minutes: 1, grams: 1, voice: -1 }])],
    ['paste', () => skeleton.excessPaste(-1, 1, 0.4)],
    ['grains', () => skeleton.excessPaste(1, -1, 0.4)],
    ['kelvin', () => setting.arrheniusLogShift(40, -300)],
    ['energy', () => setting.arrheniusLogShift(-1, 20)],
    ['fo', () => drying.sheetLoss(-1)],
    ['fo', () => drying.sheetCore(-1)],
    ['bulkDensity', () => bulk.scoopVolume(1, 0)],
    ['sandParts', () => bulk.leanMortarPacks(1, 0, 1)],
    ['pack', () => bulk.leanMortarPacks(1, 3, 0)],
    ['water', () => waterToBinder(-1, 1)],
    ['equivalent binder', () => waterToBinder(1, 0)],
    ['cao', () => bogue({ cao: -1, sio2: 20, al2o3: 5, fe2o3: 3, so3: 2 })],
    ['grams', () => thermalMass([{ grams: -1, specificHeat: 1 }])],
    ['grams', () => limeCarbonation(-1)],
    ['degree', () => limeCarbonation(1, -1)],
    ['size', () => curves.fuller(0, 1)],
    ['largest', () => curves.fuller(1, 0)],
    ['size', () => curves.funkDinger(0, 0.1, 1, 0.3)],
    ['smallest', () => curves.funkDinger(1, 0, 1, 0.3)],
  ])('of a bad %s names it and what was found', (name, call) => {
    expect(call).toThrow(new RegExp(`^${name} is -?[\\d.]+, expected `));
  });
});
