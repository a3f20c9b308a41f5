import { gelSpaceRatio, ultimateDegree } from '../../../src/core/science/hydration.js';
import {
  ACI_STRENGTH_SI,
  ACI_STRENGTH_US,
  gelSpaceStrength,
  tabledStrength,
  targetMeanStrength,
  waterToCementFor,
} from '../../../src/core/science/strength.js';
import { number, type Run, word } from './given.js';

const PSI = 0.006894757293168361;

export const strengthRuns: Readonly<Record<string, Run>> = {
  'gel-space-strength': (given) => ({ strength: gelSpaceStrength(number(given, 'ratio'), number(given, 'intrinsic')) }),

  'aci-si': (given) => ({
    waterToCement: waterToCementFor(
      number(given, 'strength'),
      ACI_STRENGTH_SI[word(given, 'air') as 'plain' | 'airEntrained'],
    )!,
  }),

  'aci-us': (given) => ({
    waterToCement: waterToCementFor(
      number(given, 'strength') / PSI,
      ACI_STRENGTH_US[word(given, 'air') as 'plain' | 'airEntrained'],
    )!,
  }),

  'aci-strength-si': (given) => ({ strength: tabledStrength(number(given, 'waterToCement'), ACI_STRENGTH_SI.plain)! }),

  'target-mean': (given) => ({
    target: targetMeanStrength(number(given, 'characteristic'), number(given, 'deviation'), number(given, 'k')),
  }),

  // Powers' cube law at Mills' ultimate degree, for comparison with a table of concretes.
  'gel-space-against-table': (given) => {
    const ratio = number(given, 'waterToCement');
    return { strength: gelSpaceStrength(gelSpaceRatio(ultimateDegree(ratio), ratio), number(given, 'intrinsic')) };
  },
};
