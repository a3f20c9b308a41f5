import { describe, expect, it } from 'vitest';
import * as alkaliGlass from '../../src/core/science/alkali-glass.js';
import * as bulk from '../../src/core/science/bulk.js';
import * as drying from '../../src/core/science/drying.js';
import * as heat from '../../src/core/science/heat.js';
import * as hydration from '../../src/core/science/hydration.js';
import * as moisture from '../../src/core/science/moisture.js';
import * as packing from '../../src/core/science/packing.js';
import * as paste from '../../src/core/science/paste-structure.js';
import * as polymer from '../../src/core/science/polymer.js';
import * as setting from '../../src/core/science/setting.js';
import * as shrinkage from '../../src/core/science/shrinkage.js';
import * as skeleton from '../../src/core/science/skeleton.js';
import * as sorption from '../../src/core/science/sorption.js';
import * as stoichiometry from '../../src/core/science/stoichiometry.js';
import * as strength from '../../src/core/science/strength.js';
import * as sulfate from '../../src/core/science/sulfate.js';
import * as curves from '../../src/core/science/target-curves.js';
import * as volume from '../../src/core/science/volume.js';
import * as binder from '../../src/core/science/water-binder.js';

/** Calls that mean nothing: a mass, time or size below zero, or a divisor of zero. */
const NONSENSE: Readonly<Record<string, () => unknown>> = {
  'negative plaster': () => stoichiometry.dryPlasterMass(-1),
  'negative anhydrite': () => stoichiometry.boundWaterAnhydrite(-1),
  'negative ye’elimite': () => stoichiometry.yeelimiteHydration({ yeelimite: -1 }),
  'negative sulfate': () => stoichiometry.yeelimiteHydration({ yeelimite: 1, anhydrite: -1 }),
  'negative aluminate': () => stoichiometry.boundWaterMonocalciumAluminate(-1),
  'negative belite': () => stoichiometry.boundWaterBelite(-1),
  'belite over one': () => stoichiometry.boundWaterBelite(1, 1.01),
  'negative lime': () => stoichiometry.limeCarbonation(-1),
  'carbonation over one': () => stoichiometry.limeCarbonation(1, 1.01),
  'negative quicklime': () => stoichiometry.quicklimeSlakingWater(-1),
  'negative C3A': () => stoichiometry.so3ForFullEttringite(-1),
  'no density': () => volume.absoluteVolume([{ grams: 1, density: 0 }]),
  'air of one': () => volume.freshVolume(1, 1),
  'no measure': () => volume.measuredDensity(2, 1, 0),
  'no theoretical density': () => volume.gravimetricAir(0, 1),
  'negative aggregate': () => moisture.freeWater(-1, 0, 0),
  'negative absorption': () => moisture.saturatedMass(1, -0.1),
  'no particle density': () => bulk.voidContent(1, 0),
  'no flooded height': () => bulk.bulking(1, 0),
  'no sand parts': () => bulk.leanMortarPacks(1, 0, 1),
  'no binder': () => binder.waterToBinder(1, 0),
  'negative water': () => binder.waterToBinder(-1, 1),
  'no water to cement': () => hydration.ultimateDegree(0),
  'negative age': () => hydration.degreeOfHydration(-1, 0.7),
  'below absolute zero': () => hydration.arrheniusFactor(-300, 40),
  'negative energy': () => hydration.arrheniusFactor(20, -1),
  'negative covered time': () => hydration.hydratingHours(10, -1, 5),
  'negative bound water': () => hydration.imbibedWater(-1),
  'no water in paste': () => paste.pasteVolumes(0.5, 0),
  'negative dry density': () => paste.gypsumPorosity(-1),
  'negative gel': () => sorption.heldByCement(-1, 0.5),
  'negative gypsum': () => sorption.heldByGypsum(-1, 0.5),
  'no wall': () => drying.dryingTimeConstantDays({ wallCm: 0, temperature: 20, humidity: 0.5 }),
  'negative wind': () => drying.evaporationRate({ celsius: 20, humidity: 0.5, wind: -1 }),
  'negative free water': () => drying.remainingFreeWater(-1, 1, 1),
  'no drying time': () => drying.remainingFreeWater(1, 1, 0),
  'negative Fourier number': () => drying.sheetLoss(-1),
  'no dry weight': () => drying.hoursToConstantWeight(1, 0, 10),
  'no set time': () => setting.mixedSet([{ minutes: 0, grams: 1, voice: 1 }]),
  'negative voice': () => setting.mixedSet([{ minutes: 1, grams: 1, voice: -1 }]),
  'negative dose': () => setting.doseFactor(-1, 1),
  'no dose': () => setting.doseSlope(1, 2, 0),
  'set below absolute zero': () => setting.arrheniusLogShift(40, -300),
  'negative citric acid': () => setting.citricAcidVerdict(-0.1),
  'negative water to plaster': () => strength.plasterDryStrength(-0.1),
  'no water to cement for Bolomey': () => strength.bolomeyStrength(0),
  'nothing in Feret': () => strength.feretRatio(0, 0, 0),
  'no heat store': () => heat.adiabaticRise(1, 0),
  'negative compound': () => heat.cementHeat({ c3s: -1, c2s: 0, c3a: 0, c4af: 0 }),
  'negative mould wall': () => heat.mouldLoss(1, -1),
  'negative portland': () => sulfate.binderSo3(-1, 1),
  'negative anhydrite in a binder': () => sulfate.binderSo3(1, 1, 2.8, -1),
  'negative pozzolan': () =>
    sulfate.sulfateScreen({ portland: 1, hemihydrate: 1, pozzolans: [{ grams: -1, activity: 1 }], service: 'wet' }),
  'negative glass': () => alkaliGlass.alkaliGlassRisk({ glassSand: -1, portland: 1, pozzolanRatio: 0, service: 'wet' }),
  'no size': () => curves.fuller(0, 1),
  'no q span': () => curves.funkDinger(1, 1, 1, 0.3),
  'shares that do not sum to one': () => packing.virtualPacking([{ size: 1, beta: 0.6, share: 0.5 }]),
  'a packing of one': () => packing.virtualPacking([{ size: 1, beta: 1, share: 1 }]),
  'negative share of fines': () => packing.idealBinary(0.6, 0.6, -0.1),
  'no compaction': () => packing.packingDensity([{ size: 1, beta: 0.6, share: 1 }], 0),
  'voids of one': () => skeleton.voidRatio(1),
  'negative paste': () => skeleton.excessPaste(-1, 1, 0.4),
  'negative grains': () => skeleton.skeletonVoids([{ volume: -1, grading: [{ sieve: 1, passing: 100 }], voids: 0.4 }]),
  'no solids': () => polymer.emulsionDose(100, 0.1, 0),
  'negative cement under polymer': () => polymer.emulsionDose(-1, 0.1, 0.5),
  'negative liquid': () => polymer.liquidWater(-1, 0.5),
  'negative length': () => shrinkage.settingGrowth(-1, 0.2),
};

describe('arguments that mean nothing', () => {
  it.each(Object.entries(NONSENSE))('%s is refused', (_name, call) => {
    expect(call).toThrow(RangeError);
  });
});
