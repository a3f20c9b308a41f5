import { InputProblems, type Problem } from '../../src/core/problems/problem.js';

/** The problems a reading throws; fails when it throws none or something else. */
export function problemsOf(read: () => unknown): readonly Problem[] {
  try {
    read();
  } catch (error) {
    if (error instanceof InputProblems) return error.problems;
    throw error;
  }
  throw new Error('nothing was refused');
}

/** Codes only, in order. */
export const codesOf = (read: () => unknown): readonly string[] => problemsOf(read).map((problem) => problem.code);
