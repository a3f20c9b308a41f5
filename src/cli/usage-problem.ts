import type { CommanderError } from 'commander';
import type { ProblemCode } from '../core/problems/problem.js';
import type { ProblemResult } from '../core/report/result-schema.js';
import { nearestOption } from './nearest-option.js';

/** Commander's codes that have a problem code of their own; all others are `usage`. */
const CODES: Readonly<Record<string, ProblemCode>> = {
  'commander.unknownOption': 'option-unknown',
  'commander.invalidArgument': 'option-invalid',
};

/** A command line that cannot be understood, as a problem among others: in Commander's words, which name the place. */
export function usageProblem(error: CommanderError): ProblemResult['problems'][number] {
  // Commander puts its suggestion on a line of its own, and some of its sentences end with a full stop; one message is one line.
  const words = error.message
    .replace(/^error: /, '')
    .replace(/\n\((.+)\)$/, '. $1')
    .replace(/\.$/, '');
  const code: ProblemCode = CODES[error.code] ?? 'usage';
  return { code, severity: 'error', message: `${words}${nearestOption(words)}` };
}
