import type { Problem } from '../problems/problem.js';
import { explain } from '../problems/words.js';
import type { AssessmentResult } from './result-schema.js';

/** A problem with its words, as printed in JSON. */
export function problemResult(problem: Problem): AssessmentResult['warnings'][number] {
  const { where } = problem;
  return {
    code: problem.code,
    severity: problem.severity,
    message: explain(problem),
    ...(where?.file === undefined ? {} : { file: where.file }),
    ...(where?.line === undefined ? {} : { line: where.line }),
    ...(where?.path === undefined ? {} : { path: where.path }),
  };
}
