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

/** With more mistakes than this it is the wrong file, and no maker reads on; looking for near words takes time too. */
const MOST_PROBLEMS = 100;

/** Past MOST_PROBLEMS, adding and attempting throw all that is noted. */
export function gather(): Gather {
  const problems: Problem[] = [];
  const stopWhenFull = (): void => {
    if (problems.length >= MOST_PROBLEMS && problems.some(isError)) throw new InputProblems(problems);
  };
  return {
    problems,
    add(problem) {
      problems.push(problem);
      stopWhenFull();
    },
    attempt(read) {
      try {
        return read();
      } catch (error) {
        if (!(error instanceof InputProblems) || error.problems === problems) throw error;
        problems.push(...error.problems);
        stopWhenFull();
        return undefined;
      }
    },
    finish() {
      if (problems.some(isError)) throw new InputProblems(problems);
      return problems;
    },
  };
}

const isError = (problem: Problem): boolean => problem.severity === 'error';
