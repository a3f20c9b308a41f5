import {
  C33_ENVELOPE,
  c33Verdict,
  finenessModulus,
  finenessModulusOf,
  gradingFromWeights,
} from '../../../src/core/science/grading.js';
import { idealBinaryPeak, idealMultimodal, virtualPacking } from '../../../src/core/science/packing.js';
import { pigmentVerdict } from '../../../src/core/science/pigment.js';
import { SETTING_EXPANSION } from '../../../src/core/science/shrinkage.js';
import { fuller } from '../../../src/core/science/target-curves.js';
import { number, numbers, type Run } from './given.js';

export const sandRuns: Readonly<Record<string, Run>> = {
  'fineness-modulus': (given) => ({ modulus: finenessModulus(numbers(given, 'retained')) }),

  'sieve-weights': (given) => {
    const sieves = numbers(given, 'sieves');
    const grams = numbers(given, 'grams');
    const test = gradingFromWeights(sieves.map((sieve, i) => ({ sieve, grams: grams[i]! })));
    return {
      modulus: finenessModulusOf(test.grading),
      ...Object.fromEntries(test.retained.map((r) => [`retained ${r.sieve}`, (r.percent / 100) * test.total])),
    };
  },

  'c33-envelope': () =>
    Object.fromEntries(
      C33_ENVELOPE.flatMap(([sieve, low, high]) => [
        [`${sieve} low`, low],
        [`${sieve} high`, high],
      ]),
    ),

  'c33-verdict': (given) => {
    const passing = numbers(given, 'passing');
    const verdict = c33Verdict(numbers(given, 'sieves').map((sieve, i) => ({ sieve, passing: passing[i]! })));
    return { verdict: verdict.inside ? 'inside' : 'outside', modulus: verdict.finenessModulus };
  },

  'setting-expansion': () => ({
    betaLow: SETTING_EXPANSION.beta.low,
    betaHigh: SETTING_EXPANSION.beta.high,
    alphaLow: SETTING_EXPANSION.alpha.low,
    alphaHigh: SETTING_EXPANSION.alpha.high,
  }),

  'power-curve': (given) =>
    Object.fromEntries(
      numbers(given, 'sieves').map((d) => [String(d), fuller(d, number(given, 'largest'), number(given, 'exponent'))]),
    ),

  'ideal-multimodal': (given) => ({ density: idealMultimodal(number(given, 'beta'), number(given, 'sizes')) }),

  // Share of coarse spheres at which the linear packing model peaks.
  'binary-peak': (given) => {
    const beta = number(given, 'beta');
    const classes = (fine: number) => [
      { size: 1, beta, share: 1 - fine },
      { size: number(given, 'sizeRatio'), beta, share: fine },
    ];
    let best = { fine: 0, density: 0 };
    for (let i = 1; i < 1000; i++) {
      const density = virtualPacking(classes(i / 1000));
      if (density > best.density) best = { fine: i / 1000, density };
    }
    return { coarseShare: 1 - best.fine, idealCoarseShare: 1 - idealBinaryPeak(beta, beta).fineShare };
  },

  pigments: (given) => {
    const limits = numbers(given, 'limits');
    const verdict = pigmentVerdict(
      number(given, 'cement'),
      limits.map((limit) => ({ grams: 1, limit })),
    );
    return { most: verdict.most };
  },
};
