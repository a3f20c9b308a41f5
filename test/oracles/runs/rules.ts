import { alkaliGlassRisk, type GlassCase } from '../../../src/core/science/alkali-glass.js';
import { blendSands } from '../../../src/core/science/blend-sands.js';
import { CONSTANT_WEIGHT, constantWeight, gypsumDryingVerdict } from '../../../src/core/science/drying.js';
import { type BloomCase, bloomRisk } from '../../../src/core/science/efflorescence.js';
import { FRESH_COLD, frostVerdict, tooColdForFresh } from '../../../src/core/science/frost.js';
import { finenessModulus } from '../../../src/core/science/grading.js';
import { hotSetting } from '../../../src/core/science/hot-setting.js';
import { activationEnergyByTemperature, arrheniusFactor, GAS_CONSTANT } from '../../../src/core/science/hydration.js';
import { relativeFlowArea } from '../../../src/core/science/paste-flow.js';
import { emulsionDose, liquidWater } from '../../../src/core/science/polymer.js';
import { restrainedShrinkage } from '../../../src/core/science/shrinkage.js';
import { excessPaste } from '../../../src/core/science/skeleton.js';
import { heldByGypsum } from '../../../src/core/science/sorption.js';
import {
  abramsStrength,
  airStrengthFactor,
  bolomeyStrength,
  plasterStrengthByDensity,
  polymerStrengthFactors,
} from '../../../src/core/science/strength.js';
import { number, numberOr, numbers, type Run, word } from './given.js';

const RANKS = ['low', 'medium', 'high'] as const;

export const rulesRuns: Readonly<Record<string, Run>> = {
  'emulsion-dose': (given) => ({
    emulsion: emulsionDose(number(given, 'cement'), number(given, 'polymerToCement'), number(given, 'solids')).emulsion,
  }),

  'emulsion-solids': (given) => {
    const emulsion = number(given, 'emulsion');
    return { solids: emulsion - liquidWater(emulsion, number(given, 'solids')) };
  },

  'activation-temperature': (given) => ({
    energyOverGasConstant: activationEnergyByTemperature(number(given, 'celsius')) / GAS_CONSTANT,
  }),

  'rate-by-temperature': (given) => {
    const [colder, warmer] = numbers(given, 'celsius');
    return { factor: arrheniusFactor(warmer!, activationEnergyByTemperature(warmer!), colder!) };
  },

  'constant-weight': (given) => {
    const change = number(given, 'change');
    return {
      verdict: constantWeight(1000 * (1 + change), 1000, number(given, 'apart')),
      change: CONSTANT_WEIGHT.change,
      apart: CONSTANT_WEIGHT.apart,
    };
  },

  'gypsum-drying': (given) => ({
    verdict: gypsumDryingVerdict(number(given, 'celsius'), numberOr(given, 'humidity', 0.2)),
  }),

  // The most water to cement, in hundredths, and the least air, in tenths of a percent, that are borne.
  'frost-limits': (given) => {
    const soaked = word(given, 'wetness') === 'soaked';
    const borne = (hundredths: number, permille: number): boolean =>
      frostVerdict({ waterToCement: hundredths / 100, entrainedAir: permille / 1000, soaked }) === 'bears';
    let most = 30;
    while (borne(most + 1, 100)) most++;
    let least = 100;
    while (least > 0 && borne(most, least - 1)) least--;
    return { waterToCement: most / 100, air: least / 1000 };
  },

  // The first whole degree that is not too cold.
  'fresh-cold': () => {
    let cold = -5;
    while (tooColdForFresh(cold)) cold++;
    return { cold, bearsFrost: FRESH_COLD.bearsFrost };
  },

  // The first whole degree that is too hot, less one.
  'hot-setting-limit': (given) => {
    const pozzolanRatio = number(given, 'pozzolanRatio');
    let peak = 20;
    while (!hotSetting({ peak: peak + 1, portlandShare: 1, pozzolanRatio }).ettringite) peak++;
    return { limit: peak };
  },

  'glass-in-cement': (given) => ({
    risk: alkaliGlassRisk({
      glassSand: number(given, 'glassSand'),
      glassPowder: numberOr(given, 'glassPowder', 0),
      portland: number(given, 'portland'),
      pozzolanRatio: numberOr(given, 'pozzolan', 0) / number(given, 'portland'),
      service: word(given, 'service') as GlassCase['service'],
    }),
  }),

  // What a pozzolan does to the risk of bloom, all else kept.
  'bloom-with-pozzolan': (given) => {
    const risk = (pozzolan: number): number =>
      RANKS.indexOf(
        bloomRisk({
          limeBearingShare: 1,
          waterToBinder: number(given, 'waterToBinder'),
          pozzolanRatio: pozzolan / number(given, 'portland'),
          service: word(given, 'service') as BloomCase['service'],
          dark: given.colour === 'dark',
        }),
      );
    return { risk: risk(number(given, 'pozzolan')) < risk(0) ? 'lower' : 'no lower' };
  },

  // Shares that give back a printed mixture of three aggregates, and its modulus.
  'unmix-aggregates': (given) => {
    const sieves = numbers(given, 'sieves');
    const grading = (key: string) => numbers(given, key).map((r, i) => ({ sieve: sieves[i]!, passing: 100 - r }));
    const mixture = numbers(given, 'mixture');
    const { shares } = blendSands(
      ['first', 'second', 'third'].map(grading),
      (size) => 100 - mixture[sieves.indexOf(size)]!,
      sieves,
    );
    return { first: shares[0]!, second: shares[1]!, third: shares[2]!, modulus: finenessModulus(mixture) };
  },

  'paste-to-fill': (given) => {
    const grains = number(given, 'mass') / (number(given, 'gravity') * number(given, 'waterUnitDensity'));
    return { paste: -excessPaste(0, grains, number(given, 'voids')) };
  },

  'flow-area': (given) => ({ area: relativeFlowArea(number(given, 'spread'), number(given, 'cone')) }),

  // Shrinkage of a mortar with more grains over that of one with fewer, and the shares of water in their weight.
  'shrinkage-by-grains': (given) => {
    const [few, many] = numbers(given, 'grains');
    return { ratio: restrainedShrinkage(1, many!) / restrainedShrinkage(1, few!) };
  },

  'other-laws': (given) => ({
    abrams: abramsStrength(number(given, 'waterToCement')),
    bolomey: bolomeyStrength(number(given, 'waterToCement')),
  }),

  'air-in-strength': (given) => ({ factor: airStrengthFactor(number(given, 'air'), number(given, 'base')) }),

  'polymer-in-strength': (given) => ({ ...polymerStrengthFactors(number(given, 'polymerToCement')) }),

  'plaster-strength-by-density': (given) => ({ dry: plasterStrengthByDensity(number(given, 'dryDensity')) }),

  'held-by-gypsum': (given) => ({ held: heldByGypsum(1, number(given, 'humidity')) }),
};
