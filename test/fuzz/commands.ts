import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { run } from '../../src/cli/run.js';
import { ioOf } from './io.js';
import { type Mutation, mutated, mutations } from './mutations.js';
import { EXAMPLES } from './readers.js';

/** A command line and the file of the example folder that is spoilt before it runs. */
interface Command {
  readonly argv: readonly string[];
  readonly spoils: string;
}

/** Verbs that only read. Proposing takes a second and more, so it has fewer turns. */
const COMMANDS: readonly Command[] = [
  { argv: ['assess', 'recipes/old-planter.yaml', '--json'], spoils: 'recipes/old-planter.yaml' },
  { argv: ['assess', 'recipes/plaster-and-cement.yaml', '--why'], spoils: 'recipes/plaster-and-cement.yaml' },
  { argv: ['assess', 'recipes/old-planter.yaml'], spoils: 'shop.yaml' },
  { argv: ['assess', 'recipes/old-planter.yaml'], spoils: 'prices.csv' },
  { argv: ['price', 'recipes/old-planter.yaml'], spoils: 'prices.csv' },
  { argv: ['card', 'recipes/old-planter.yaml', '--pieces', '3'], spoils: 'recipes/old-planter.yaml' },
  { argv: ['card', 'recipes/old-planter.yaml', '--pieces', '3'], spoils: 'shop.yaml' },
  { argv: ['shop', 'check', 'shop.yaml'], spoils: 'shop.yaml' },
  { argv: ['shop', 'prices', 'shop.yaml'], spoils: 'prices.csv' },
];

export interface CommandTally {
  cases: number;
  readonly codes: Record<string, number>;
  slowest: number;
}

const hashOf = (folder: string): string => {
  const hash = createHash('sha256');
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    const path = join(entry.parentPath, entry.name);
    hash.update(path);
    if (entry.isFile()) hash.update(readFileSync(path));
  }
  return hash.digest('hex');
};

/** ms of processor time. */
const LONGEST_COMMAND = 4000;

/**
 * Whole commands on spoilt files in a folder of their own: an exit code of 0, 1 or 2, words instead of a stack trace,
 * problems as JSON where JSON was asked for, and every file as it was.
 */
export async function fuzzCommands(cases: number, seed: number): Promise<CommandTally> {
  const folder = mkdtempSync(join(tmpdir(), 'pourwright-fuzz-'));
  const home = process.cwd();
  const tally: CommandTally = { cases: 0, codes: {}, slowest: 0 };
  try {
    cpSync(EXAMPLES, folder, { recursive: true });
    process.chdir(folder);
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...COMMANDS), mutations, (command, list) => one(command, list, folder, tally)),
      { numRuns: cases, seed },
    );
  } finally {
    process.chdir(home);
    rmSync(folder, { recursive: true, force: true });
  }
  return tally;
}

async function one({ argv, spoils }: Command, list: readonly Mutation[], folder: string, tally: CommandTally) {
  const path = join(folder, spoils);
  const good = readFileSync(path, 'utf8');
  writeFileSync(path, mutated(good, list));
  try {
    const before = hashOf(folder);
    const { io, said } = ioOf();
    const start = process.cpuUsage();
    const code = await run(argv, io);
    const spent = process.cpuUsage(start).user / 1000;
    tally.cases += 1;
    tally.codes[code] = (tally.codes[code] ?? 0) + 1;
    tally.slowest = Math.max(tally.slowest, spent);
    if (spent > LONGEST_COMMAND) throw new Error(`took ${spent.toFixed(0)} ms`);
    if (![0, 1, 2].includes(code)) throw new Error(`ended with ${code}`);
    if (code === 2 && said.err === '') throw new Error('refused without a word');
    if (/\n\s+at .+:\d+:\d+/.test(said.err)) throw new Error(`printed a stack trace: ${said.err}`);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: no input may steer the terminal
    if (/[\u0000-\u0008\u000b-\u001f]/.test(said.out + said.err)) throw new Error('let a control character through');
    if (argv.includes('--json')) JSON.parse(said.out);
    if (hashOf(folder) !== before) throw new Error('changed a file');
  } finally {
    writeFileSync(path, good);
  }
}
