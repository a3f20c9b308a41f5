import { InputProblems, type Problem } from './problem.js';

/** Collects the problems of many small readings, so that a maker sees all of them at once. */
export interface Gather {
  /** Notes one problem and goes on. */
  add(problem: Problem): void;
  /** The reading's value, or undefined after noting why it failed. Other exceptions pass through. */
  attempt<T>(read: () => T): T | undefined;
  /** Everything noted so far. */
  readonly problems: readonly Problem[];
  /** Throws InputProblems when any noted problem is an error; otherwise returns the warnings and notes. */
  finish(): readonly Problem[];
}

export function gather(): Gather {
  const problems: Problem[] = [];
  return {
    problems,
    add(problem) {
      problems.push(problem);
    },
    attempt(read) {
      try {
        return read();
      } catch (error) {
        if (!(error instanceof InputProblems)) throw error;
        problems.push(...error.problems);
        return undefined;
      }
    },
    finish() {
      if (problems.some((problem) => problem.severity === 'error')) throw new InputProblems(problems);
      return problems;
    },
  };
}
