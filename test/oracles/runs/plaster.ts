import { GYPSUM_LOG_KSP, gypsumSolubility } from '../../../src/core/science/gypsum-solubility.js';
import {
  cementHeat,
  equalPlate,
  heatFromDissolution,
  plasterAdiabaticRise,
  thermalMass,
} from '../../../src/core/science/heat.js';
import { limeSolubility25, SATURATED_LIME, saturatedLimePh } from '../../../src/core/science/lime.js';
import { plasterDensities } from '../../../src/core/science/plaster-density.js';
import { citricAcidVerdict, flashSet, withinC150Vicat } from '../../../src/core/science/setting.js';
import { CRYSTAL_WATER, HEMIHYDRATE_BOUND_WATER, MOLAR_MASSES } from '../../../src/core/science/stoichiometry.js';
import { plasterDryStrength, plasterWetStrength } from '../../../src/core/science/strength.js';
import { number, numbers, type Run, word } from './given.js';

export const plasterRuns: Readonly<Record<string, Run>> = {
  'gypsum-stoichiometry': () => ({
    boundWater: HEMIHYDRATE_BOUND_WATER,
    dihydrateWater: CRYSTAL_WATER.dihydrate,
    hemihydrateWater: CRYSTAL_WATER.hemihydrate,
    dihydrateMolarMass: MOLAR_MASSES.dihydrate,
  }),

  'plaster-densities': (given) => {
    const { wet, dry } = plasterDensities(number(given, 'waterToPlaster'));
    return { wet, dry };
  },

  'plaster-strength': (given) => ({ dry: plasterDryStrength(number(given, 'waterToPlaster')) }),

  'plaster-excess-water': (given) => {
    const start = number(given, 'waterToPlaster');
    const before = plasterDryStrength(start);
    return { loss: (before - plasterDryStrength(start * number(given, 'factor'))) / before };
  },

  'plaster-wet-strength': (given) => ({ wet: plasterWetStrength(number(given, 'dry')) }),

  'heat-from-dissolution': (given) => {
    const mass = MOLAR_MASSES[word(given, 'reactant') as 'hemihydrate' | 'anhydrite'];
    const perGram = heatFromDissolution(
      number(given, 'reactantDissolution'),
      number(given, 'productDissolution'),
      mass,
    );
    return { perGram, perMole: (perGram * mass) / 1000 };
  },

  'plaster-peak': (given) => ({
    peak:
      number(given, 'start') +
      plasterAdiabaticRise(number(given, 'waterToPlaster'), number(given, 'heat'), number(given, 'purity')),
  }),

  'compound-heat': () => ({
    c3s: cementHeat({ c3s: 100, c2s: 0, c3a: 0, c4af: 0 }),
    c2s: cementHeat({ c3s: 0, c2s: 100, c3a: 0, c4af: 0 }),
    c3a: cementHeat({ c3s: 0, c2s: 0, c3a: 100, c4af: 0 }),
    c4af: cementHeat({ c3s: 0, c2s: 0, c3a: 0, c4af: 100 }),
  }),

  'fresh-specific-heat': (given) => {
    const grams = numbers(given, 'grams');
    const specificHeats = numbers(given, 'specificHeats');
    const mass = thermalMass(grams.map((g, i) => ({ grams: g, specificHeat: specificHeats[i]! })));
    return { specificHeat: mass / grams.reduce((a, b) => a + b, 0) };
  },

  // Volume over face of a sphere, and of a cylinder and a plate so long that their ends do not count, per radius or thickness.
  'characteristic-length': () => ({
    plate: equalPlate(1, 2) / 2,
    cylinder: equalPlate(Math.PI, 2 * Math.PI) / 2,
    sphere: equalPlate((4 / 3) * Math.PI, 4 * Math.PI) / 2,
  }),

  'gypsum-solubility': (given) => ({
    solubility: gypsumSolubility(number(given, 'celsius')),
    logKsp25: GYPSUM_LOG_KSP[1]![1],
  }),

  'lime-water': (given) => ({
    ph: saturatedLimePh(number(given, 'celsius')),
    warmer: saturatedLimePh(number(given, 'celsius') + 1) - saturatedLimePh(number(given, 'celsius')),
    dissolved: limeSolubility25(),
    molarity: SATURATED_LIME.molarity,
  }),

  'citric-acid': (given) => ({ verdict: citricAcidVerdict(number(given, 'percent')) }),

  'flash-set': (given) => {
    const reasons = flashSet({
      portland: number(given, 'portland'),
      aluminate: number(given, 'aluminate'),
      sulfate: number(given, 'plaster'),
      lime: number(given, 'lime'),
    });
    return { flash: reasons.length > 0 ? 'flash' : 'no-flash' };
  },

  'vicat-limit': (given) => ({ verdict: withinC150Vicat(number(given, 'minutes')) ? 'inside' : 'outside' }),
};
