import fc from 'fast-check';
import { InputProblems } from '../../src/core/problems/problem.js';
import { explain } from '../../src/core/problems/words.js';
import { mutated, mutations } from './mutations.js';
import { READERS, type Reader } from './readers.js';

/** What became of the cases of one reader. */
export interface Tally {
  cases: number;
  taken: number;
  refused: number;
  /** ms of processor time of the slowest case: how busy the machine is with other things does not count. */
  slowest: number;
}

/** ms. */
export const LONGEST_CASE = 2000;

/** Names on the language's own objects: a reader that reaches them has let data become program. */
const SHARED = [Object.prototype, Array.prototype, Function.prototype, String.prototype, Number.prototype];
const fingerprint = (): string => SHARED.map((o) => Object.getOwnPropertyNames(o).join()).join(';');
const BEFORE = fingerprint();

/**
 * One text through one reader: it is taken, or refused with problems that can be told and printed; anything else throws
 * here with what is wrong.
 */
export function watch(reader: Reader, text: string, tally: Tally, longest = LONGEST_CASE): void {
  const start = process.cpuUsage();
  let answer: unknown;
  let refusal: InputProblems | undefined;
  try {
    answer = reader.read(text);
  } catch (error) {
    if (!(error instanceof InputProblems)) throw new Error(`${reader.name} crashed`, { cause: error });
    refusal = error;
  }
  const { user, system } = process.cpuUsage(start);
  const spent = (user + system) / 1000;
  tally.cases += 1;
  tally.slowest = Math.max(tally.slowest, spent);
  if (spent > longest) throw new Error(`${reader.name} took ${spent.toFixed(0)} ms`);
  if (fingerprint() !== BEFORE) throw new Error(`${reader.name} changed an object of the language`);
  if (refusal === undefined) {
    tally.taken += 1;
    const fault = faultIn(answer);
    if (fault !== undefined) throw new Error(`${reader.name} gave ${fault}`);
  } else {
    tally.refused += 1;
    checkTold(reader, refusal);
  }
}

function checkTold(reader: Reader, { problems }: InputProblems): void {
  if (!problems.some((p) => p.severity === 'error')) throw new Error(`${reader.name} refused without an error`);
  if (problems.length > 1000) throw new Error(`${reader.name} told ${problems.length} problems`);
  for (const problem of problems) {
    const words = explain(problem);
    if (words.length > 2500) throw new Error(`${reader.name} told a problem in ${words.length} letters`);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: no input may steer the terminal
    if (/undefined|\[object|NaN\b|[\u0000-\u0008\u000b-\u001f]|\n {2,}at /.test(strip(words, problem)))
      throw new Error(`${reader.name} told: ${words}`);
  }
}

/** The maker's own words may hold anything; the program's must not. */
const strip = (words: string, { found, nearest, where }: InputProblems['problems'][number]): string => {
  const own = [found, nearest, where?.path].filter((part) => part !== undefined).join(' ');
  return /undefined|NaN|\[object/.test(own) ? '' : words;
};

/** A number that is none, anywhere in an answer. Absent figures are null, never NaN. */
function faultIn(answer: unknown, path = 'answer', depth = 0): string | undefined {
  if (typeof answer === 'number') return Number.isFinite(answer) ? undefined : `${answer} at ${path}`;
  if (typeof answer !== 'object' || answer === null || depth > 7) return undefined;
  if (answer instanceof Map) return faultIn([...answer.values()], path, depth);
  for (const [key, value] of Object.entries(answer)) {
    // The shelf's own table is no part of what was read.
    if (key === 'materials' || key === 'material' || key === 'figures') continue;
    const fault = faultIn(value, `${path}.${key}`, depth + 1);
    if (fault !== undefined) return fault;
  }
  return undefined;
}

/** Runs so many cases over all readers by turns, each a good text spoilt. Throws at the first fault, shrunk by fast-check. */
export function fuzz(
  cases: number,
  seed: number,
  readers: readonly Reader[] = READERS,
  longest = LONGEST_CASE,
): ReadonlyMap<string, Tally> {
  const tallies = new Map(readers.map((r) => [r.name, { cases: 0, taken: 0, refused: 0, slowest: 0 }]));
  for (const [i, reader] of readers.entries()) {
    const numRuns = Math.floor(cases / readers.length) + (i < cases % readers.length ? 1 : 0);
    fc.assert(
      fc.property(fc.constantFrom(...reader.seeds), mutations, (text, list) =>
        watch(reader, mutated(text, list), tallies.get(reader.name)!, longest),
      ),
      { numRuns, seed: seed + i },
    );
  }
  return tallies;
}
