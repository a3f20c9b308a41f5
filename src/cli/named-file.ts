import { dirname, isAbsolute, relative } from 'node:path';
import { InputProblems, type Problem, type Where } from '../core/problems/problem.js';
import { readText, type TextFile } from './files.js';
import type { Io } from './io.js';

/** The field of another file that names a file. */
export type NamedIn = Where | undefined;

/** As readText; where the file cannot be opened, the field that names it is told, and the near miss as it would stand there. */
export async function readNamed(path: string, io: Io, namedIn: NamedIn): Promise<TextFile> {
  try {
    return await readText(path, io.stdin);
  } catch (error) {
    if (!(error instanceof InputProblems) || namedIn?.file === undefined) throw error;
    const folder = dirname(namedIn.file);
    throw new InputProblems(error.problems.map((problem) => asNamed(problem, path, folder, namedIn)));
  }
}

/** As it would stand in a file of this folder. */
function seenFrom(folder: string, path: string): string {
  const steps = relative(folder, path);
  return isAbsolute(path) && steps.startsWith('..') ? path : steps;
}

function asNamed(problem: Problem, path: string, folder: string, where: Where): Problem {
  if (problem.code !== 'file-missing' && problem.code !== 'file-unreadable') return problem;
  const { nearest, ...rest } = problem;
  // The file that names it is nobody's slip for it.
  const near = typeof nearest !== 'string' || nearest === where.file ? undefined : seenFrom(folder, nearest);
  return { ...rest, where, found: seenFrom(folder, path), ...(near !== undefined && { nearest: near }) };
}
