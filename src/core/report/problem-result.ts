import { isMarked } from '../problems/marks.js';
import type { Problem } from '../problems/problem.js';
import { explain } from '../problems/words.js';
import { problemIn, withUs } from '../units/marked.js';
import type { AssessmentResult } from './result-schema.js';

/** A problem with its words, as printed in JSON: in metric, and with US units where they change them. */
export function problemResult(problem: Problem): AssessmentResult['warnings'][number] {
  const { where } = problem;
  const message = explain(problem);
  const told = {
    code: problem.code,
    severity: problem.severity,
    message,
    ...(where?.file === undefined ? {} : { file: where.file }),
    ...(where?.line === undefined ? {} : { line: where.line }),
    ...(where?.path === undefined ? {} : { path: where.path }),
  };
  if (![problem.found, problem.expected, problem.hint].some((text) => text !== undefined && isMarked(text)))
    return told;
  return withUs(told, () => {
    const us = explain(problemIn(problem, 'us'));
    return us === message ? {} : { message: us };
  });
}
