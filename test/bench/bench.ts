/**
 * `npm run bench`: how long the main jobs take as shelves grow, the linear programs beside two other solvers on the same
 * rows, memory, and whole commands beside a bare node. Writes test/bench/RESULTS.md and prints it.
 */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { solve as yalps } from 'yalps';
import { assess } from '../../src/core/blend/assess.js';
import { frontier } from '../../src/core/optimise/frontier.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { type Proposal, propose } from '../../src/core/optimise/propose.js';
import { benchQuestion } from '../support/bench-questions.js';
import { highsReference } from '../support/highs-reference.js';
import { blendProgram } from '../support/random-programs.js';
import { yalpsModel } from '../support/yalps-model.js';

const SIZES = [10, 30, 60, 200, 1000] as const;
const root = new URL('../..', import.meta.url).pathname;
const example = (name: string): string => join(root, 'examples', 'garden-stall', name);

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;

/** Median ms of a job; the first run, which warms the engine up, does not count. A single run is counted as it is. */
function timed(runs: number, job: (k: number) => unknown): number {
  if (runs > 1) job(0);
  return median(
    Array.from({ length: runs }, (_, k) => {
      const start = performance.now();
      job(k);
      return performance.now() - start;
    }),
  );
}

/** Beyond this a frontier takes minutes, and no maker has so many bags. */
const LARGEST_FRONTIER = 60;

const ms = (value: number): string => (value < 10 ? value.toFixed(2) : value.toFixed(0));
const ratio = (value: number): string => `${value.toFixed(value < 10 ? 1 : 0)} ×`;
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map((_, i) => (i === 0 ? '---' : '---:')), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');

function jobs(): string {
  const rows = SIZES.map((size) => {
    const question = benchQuestion(size);
    let proposal: Proposal | undefined;
    const proposed = timed(size >= 1000 ? 1 : size >= 200 ? 3 : 7, () => {
      proposal = propose(question, { draws: 0 });
    });
    const { ingredients, solves } = proposal!;
    const grams = question.materials.map((m) => ingredients.find((i) => i.material === m.id)?.pieceGrams ?? 0);
    const assessed = timed(7, () => assess(question, grams, question.targets));
    const chance = timed(3, () => assess(question, grams, question.targets, { draws: 2000 }));
    const many =
      size > LARGEST_FRONTIER
        ? null
        : timed(1, () => frontier(question, AIMS.cheapest, AIMS.lightest, { points: 100 }));
    const heap = process.memoryUsage().heapUsed / 2 ** 20;
    console.error(`${size} materials done`);
    return [
      String(size),
      String(ingredients.length),
      String(solves),
      ms(proposed),
      ms(assessed),
      ms(chance),
      many === null ? '–' : ms(many),
      heap.toFixed(0),
    ];
  });
  return table(
    [
      'materials',
      'in the blend',
      'steps',
      'propose',
      'assess, 256 draws',
      'chance, 2,000 draws',
      'frontier of 100',
      'heap, MB',
    ],
    rows,
  );
}

interface Beside {
  readonly size: number;
  readonly ours: number;
  readonly highs: number;
  readonly yalps: number;
  readonly rows: number;
}

async function solvers(): Promise<Beside[]> {
  const reference = await highsReference();
  return SIZES.map((size) => {
    const programs = Array.from(
      { length: size === 1000 ? 10 : 60 },
      (_, k) => blendProgram(7000 + k, { size }).program,
    );
    const models = programs.map(yalpsModel);
    const n = programs.length;
    return {
      size,
      rows: programs[0]!.rows.length,
      ours: timed(n, (k) => solveLp(programs[k]!)),
      highs: timed(n, (k) => reference(programs[k]!)),
      yalps: timed(n, (k) => yalps(models[k]!)),
    };
  });
}

/** Wall time and peak memory of a whole command; what it prints does not matter here. */
function command(args: readonly string[]): { ms: number; mb: number } {
  const built = join(root, 'dist', 'pourwright.js');
  const code = `process.on('exit', () => process.stderr.write('\\nrss ' + process.resourceUsage().maxRSS));${args.length > 0 ? `import(${JSON.stringify(built)})` : ''}`;
  const runs = Array.from({ length: 7 }, () => {
    const start = performance.now();
    const { stderr } = spawnSync(process.execPath, ['-e', code, 'pourwright', ...args], { encoding: 'utf8' });
    return { ms: performance.now() - start, mb: Number(/rss (\d+)$/.exec(stderr)![1]) / 1024 };
  });
  return { ms: median(runs.map((r) => r.ms)), mb: median(runs.map((r) => r.mb)) };
}

function commands(): string {
  const bare = command([]);
  const lines: [string, readonly string[]][] = [
    ['--help', ['--help']],
    ['shelf', ['shelf']],
    ['assess old-planter', ['assess', example('recipes/old-planter.yaml')]],
    ['propose herb-planter', ['propose', example('herb-planter.yaml')]],
    ['propose wall-pocket', ['propose', example('wall-pocket.yaml')]],
    ['order spring-market', ['order', example('spring-market.yaml')]],
  ];
  const rows = lines.map(([name, args]) => {
    const whole = command(args);
    return [name, ms(whole.ms), ratio(whole.ms / bare.ms), whole.mb.toFixed(0)];
  });
  return table(
    ['command', 'ms', 'bare node', 'peak, MB'],
    [['(bare node)', ms(bare.ms), '1 ×', bare.mb.toFixed(0)], ...rows],
  );
}

const beside = await solvers();
const lost = beside
  .flatMap((b): [string, number][] => [
    [`HiGHS at ${b.size} materials`, b.ours / b.highs],
    [`YALPS at ${b.size} materials`, b.ours / b.yalps],
  ])
  .filter(([, r]) => r > 1.05);

const report = `# Bench

Written by \`npm run bench\`; do not edit. Medians in ms, after one run to warm up. Node ${process.version}, ${cpus().length} × ${cpus()[0]!.model.trim()}, load ${loadavg()[0]!.toFixed(1)} when it began: what counts is
the ratios within one run.

## Jobs as the shelf grows

One brief (a damp planter, cheapest, three targets), in this process. The proposal searches every binder system, rounds to the scale and is judged anew.

${jobs()}

A frontier is not traced beyond ${LARGEST_FRONTIER} materials. **Where we lose:** time grows with the square of the shelf, because each step looks
at the blend with a little more or less of every material; a thousand bags take minutes.

## One linear program beside two other solvers

The same rows and columns for all three. Ours comes with its certificate checked on the rows as stated; HiGHS
(WebAssembly) includes handing the model over; YALPS has no upper bounds, so the few stock bounds are left out for it.
glpk.js is not compared: it is under the GPL, and the ratios to these two say what is needed.

${table(
  ['materials', 'rows', 'ours', 'HiGHS', 'YALPS', 'ours / HiGHS', 'ours / YALPS'],
  beside.map((b) => [
    String(b.size),
    String(b.rows),
    ms(b.ours),
    ms(b.highs),
    ms(b.yalps),
    ratio(b.ours / b.highs),
    ratio(b.ours / b.yalps),
  ]),
)}

${lost.length === 0 ? 'We are behind nowhere in this table.' : `**Where we lose:** ${lost.map(([who, r]) => `${who} (${ratio(r)})`).join(', ')}.`}

## Whole commands

${commands()}
`;
writeFileSync(join(root, 'test', 'bench', 'RESULTS.md'), report);
process.stdout.write(report);
