import { degreeOfHydration, gelSpaceRatio, ultimateDegree } from '../../../src/core/science/hydration.js';
import {
  ACI_STRENGTH_SI,
  ACI_STRENGTH_US,
  gelSpaceStrength,
  strengthShare,
  tabledStrength,
  targetMeanStrength,
  waterToCementFor,
} from '../../../src/core/science/strength.js';
import { number, numbers, type Run, word } from './given.js';

export const strengthRuns: Readonly<Record<string, Run>> = {
  'gel-space-strength': (given) => ({ strength: gelSpaceStrength(number(given, 'ratio'), number(given, 'intrinsic')) }),

  'strength-share': (given) => {
    const ratio = number(given, 'waterToCement');
    const at = (days: number): number => degreeOfHydration(24 * days, ultimateDegree(ratio));
    return { share: strengthShare(at(number(given, 'days')), at(28), ratio) };
  },

  'aci-si': (given) => ({
    waterToCement: waterToCementFor(
      number(given, 'strength'),
      ACI_STRENGTH_SI[word(given, 'air') as 'plain' | 'airEntrained'],
    )!,
  }),

  'aci-strength-si': (given) => ({ strength: tabledStrength(number(given, 'waterToCement'), ACI_STRENGTH_SI.plain)! }),

  // Whole tables, row by row, in the unit of the table.
  'aci-rows': (given) => {
    const table = word(given, 'table') === 'si' ? ACI_STRENGTH_SI : ACI_STRENGTH_US;
    const rows = table[word(given, 'air') as 'plain' | 'airEntrained'];
    return Object.fromEntries(numbers(given, 'strengths').map((s) => [String(s), waterToCementFor(s, rows)!]));
  },

  'target-mean': (given) => ({
    target: targetMeanStrength(number(given, 'characteristic'), number(given, 'deviation'), number(given, 'k')),
  }),

  // Powers' cube law at Mills' ultimate degree, for comparison with a table of concretes.
  'gel-space-against-table': (given) => {
    const ratio = number(given, 'waterToCement');
    return { strength: gelSpaceStrength(gelSpaceRatio(ultimateDegree(ratio), ratio), number(given, 'intrinsic')) };
  },
};
