import { Command, CommanderError } from 'commander';
import { InputProblems } from '../core/problems/problem.js';
import { explain } from '../core/problems/words.js';
import { problemResult } from '../core/report/problem-result.js';
import type { ProblemResult } from '../core/report/result-schema.js';
import { problemIn } from '../core/units/marked.js';
import type { UnitSystem } from '../core/units/print.js';
import type { Io } from './io.js';
import { usageProblem } from './usage-problem.js';
import { nameOf } from './verb.js';
import { VERBS } from './verbs.js';

/** Exit codes: 0 done and met, 1 done but a target fails, no blend exists, it is barred or something stays open, 2 bad input. */
export type ExitCode = 0 | 1 | 2;

const ABOUT =
  'Mix design for home-blended cementitious casts: from a mould and a shelf to a blend, its weigh-out and its price.';

/** Commander leaves help unwrapped where its last column is narrower than this. */
const HELP = { minWidthToWrap: 16 };

/** Runs one command line and returns its exit code. Prints through io only; never ends the process. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  let code: ExitCode = 0;
  let units: UnitSystem = 'metric';
  const output = {
    writeOut: io.out,
    writeErr: () => {},
    ...(io.columns === null ? {} : { getOutHelpWidth: () => io.columns! }),
  };
  const program = new Command('pourwright')
    .description(ABOUT)
    .version('0.1.0', '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .exitOverride()
    .configureOutput(output)
    .configureHelp(HELP)
    .showSuggestionAfterError(true);
  // A verb that is asked for need not know of the others.
  const asked = VERBS.filter((verb) => nameOf(verb) === argv[0]);
  for (const verb of asked.length > 0 ? asked : VERBS) {
    const command = program
      .command(verb.usage)
      .description(verb.summary)
      .exitOverride()
      .configureOutput(output)
      .configureHelp(HELP);
    verb.options(command);
    if (verb.example !== undefined) command.addHelpText('after', `\n${verb.example}`);
    command.action(async (...parts: unknown[]) => {
      const options = command.opts();
      if (options['units'] === 'us') units = 'us';
      const operands = parts.slice(0, -2) as (string | string[] | undefined)[];
      code = await verb.act({ io, options, operands: operands.flat().filter((o) => o !== undefined) });
    });
  }
  program.addHelpText(
    'after',
    '\nEvery verb has its own help: pourwright VERB --help.\nStart with: pourwright propose BRIEF.yaml\n' +
      'Exit codes: 0 done and met; 1 done, but a target is missed, no blend exists or a caution says stop, or something\n' +
      'stays open: a price that leaves something out, an order that comes late, a fit that cannot be trusted;\n' +
      '2 the input needs mending.',
  );
  try {
    if (argv.length === 0) {
      program.outputHelp();
      return 0;
    }
    await program.parseAsync([...argv], { from: 'user' });
    return code;
  } catch (error) {
    return fail(error, argv, io, units);
  }
}

function fail(error: unknown, argv: readonly string[], io: Io, units: UnitSystem): ExitCode {
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return 0;
    const problem = usageProblem(error);
    if (argv.includes('--json')) printProblems([problem], io);
    io.err(`pourwright: ${problem.message}\n`);
    return 2;
  }
  if (!(error instanceof InputProblems)) throw error;
  if (argv.includes('--json')) printProblems(error.problems.map(problemResult), io);
  for (const problem of error.problems) io.err(`pourwright: ${explain(problemIn(problem, units))}\n`);
  return 2;
}

function printProblems(problems: ProblemResult['problems'], io: Io): void {
  const result: ProblemResult = { format: 'pourwright.problems/1', problems };
  io.out(`${JSON.stringify(result, null, 2)}\n`);
}
