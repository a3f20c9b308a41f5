import { nearestWord } from '../../core/problems/nearest.js';
import { refuse } from '../../core/problems/problem.js';
import { completionScript } from '../completion.js';
import { SHELLS } from '../completion-words.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { VERBS } from '../verbs.js';

/** Prints the completion script of a shell. */
export async function completeVerb(call: Call): Promise<ExitCode> {
  const word = call.operands[0]!;
  const shell = SHELLS.find((name) => name === word.toLowerCase());
  if (shell === undefined) {
    const nearest = nearestWord(word, SHELLS);
    const near = nearest === undefined ? {} : { nearest };
    return refuse({
      code: 'option-invalid',
      where: { path: 'complete' },
      found: word,
      expected: SHELLS.join(', '),
      ...near,
    });
  }
  call.io.out(completionScript(shell, VERBS));
  return 0;
}
