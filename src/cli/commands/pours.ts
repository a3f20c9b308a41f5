import { nearestWord } from '../../core/problems/nearest.js';
import { refuse } from '../../core/problems/problem.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';

const STEPS = ['add', 'show', 'fit'] as const;

/** The record of pours: add a row, show the drying curves, or fit the shop's figures to it. */
export async function poursVerb(call: Call): Promise<ExitCode> {
  const word = call.operands[0]!;
  switch (word) {
    case 'add':
      return (await import('./pours-add.js')).poursAdd(call);
    case 'show':
      return (await import('./pours-show.js')).poursShow(call);
    case 'fit':
      return (await import('./pours-fit.js')).poursFit(call);
    default: {
      const nearest = nearestWord(word, STEPS);
      return refuse({
        code: 'option-invalid',
        where: { path: 'pours' },
        found: word,
        expected: STEPS.join(', '),
        ...(nearest !== undefined && { nearest }),
      });
    }
  }
}
