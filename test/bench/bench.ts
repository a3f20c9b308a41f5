/**
 * `npm run bench`: how long the main jobs take as shelves grow and on the shipped examples, the linear programs beside three
 * other solvers on the same rows, memory, and whole commands beside a bare node. Writes test/bench/RESULTS.md and prints it.
 */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import loadGlpk from 'glpk.js/node';
import { solve as yalps } from 'yalps';
import { processIo } from '../../src/cli/io.js';
import { openShop, readShaped } from '../../src/cli/load.js';
import { assess } from '../../src/core/blend/assess.js';
import { readBrief } from '../../src/core/brief/read-brief.js';
import { briefSchema } from '../../src/core/brief/schema.js';
import { frontier } from '../../src/core/optimise/frontier.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { type Proposal, propose } from '../../src/core/optimise/propose.js';
import { proposeNear } from '../../src/core/optimise/propose-near.js';
import { benchQuestion } from '../support/bench-questions.js';
import { glpkModel } from '../support/glpk-model.js';
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
      'assess, 64 draws',
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
  readonly glpk: number;
  readonly rows: number;
}

async function solvers(): Promise<Beside[]> {
  const reference = await highsReference();
  const glpk = await loadGlpk();
  return SIZES.map((size) => {
    const programs = Array.from(
      { length: size === 1000 ? 10 : 60 },
      (_, k) => blendProgram(7000 + k, { size }).program,
    );
    const models = programs.map(yalpsModel);
    const worded = programs.map((p) => glpkModel(p, glpk));
    const n = programs.length;
    return {
      size,
      rows: programs[0]!.rows.length,
      ours: timed(n, (k) => solveLp(programs[k]!)),
      highs: timed(n, (k) => reference(programs[k]!)),
      yalps: timed(n, (k) => yalps(models[k]!)),
      glpk: timed(n, (k) => glpk.solve(worded[k]!, { msglev: glpk.GLP_MSG_OFF })),
    };
  });
}

/** The shipped examples, in this process: with the priced materials, and with every material of the table in play. */
async function examples(): Promise<string> {
  const io = processIo();
  const { shelf } = await openShop({ shop: example('shop.yaml') }, io);
  const everyPrice = new Map(shelf.materials.map((m) => [m.id, shelf.prices.get(m.id) ?? 0.002]));
  const rows: string[][] = [];
  for (const name of ['herb-planter', 'wall-pocket', 'bookends', 'soap-tray']) {
    const { data, at } = await readShaped('brief', briefSchema, example(`${name}.yaml`), io);
    const priced = readBrief(data, shelf, at).question;
    const all = readBrief(data, { ...shelf, prices: everyPrice }, at).question;
    const blend = propose(all, { draws: 0 });
    const grams = Object.fromEntries(blend.ingredients.map((i) => [i.material, i.pieceGrams]));
    const moved = all.targets.map((t) => ({ ...t, ...(t.max === undefined ? {} : { max: 1.02 * t.max }) }));
    rows.push([
      name,
      String(all.materials.length),
      ms(timed(9, () => propose(priced))),
      ms(timed(9, () => propose(all))),
      ms(timed(9, () => proposeNear({ ...all, targets: moved }, { system: blend.system, grams }))),
    ]);
  }
  return table(['brief', 'all materials', 'propose, priced', 'propose, all', 're-propose as the page does, all'], rows);
}

const BARE = ['-e', '0'];
const RUNS = 15;

/** Median ms of a whole command and of a bare node run in turn, since a machine's speed drifts; what it prints does not matter here. */
function inTurn(args: readonly string[], env = process.env): { whole: number; bare: number } {
  const wall = (words: readonly string[]): number => {
    const start = performance.now();
    spawnSync(process.execPath, words, { stdio: 'ignore', env });
    return performance.now() - start;
  };
  const runs = Array.from({ length: RUNS }, () => ({ bare: wall(BARE), whole: wall(args) }));
  return { whole: median(runs.map((r) => r.whole)), bare: median(runs.map((r) => r.bare)) };
}

/** Peak memory of a program alone: what the fork inherits is gone once it runs. */
function peakMb(args: readonly string[]): number {
  const peak = `process.on('exit',()=>process.stderr.write('\\nVmHWM '+/VmHWM:\\s+(\\d+)/.exec(require('fs').readFileSync('/proc/self/status','utf8'))[1]))`;
  const preload = join(root, 'node_modules', '.cache', 'peak.cjs');
  writeFileSync(preload, peak);
  const { stderr } = spawnSync(process.execPath, ['--require', preload, ...args], { encoding: 'utf8' });
  return Number(/VmHWM (\d+)/.exec(stderr)?.[1]) / 1024;
}

const built = join(root, 'dist', 'pourwright.cjs');
const proposing = (name: string): string[] => [built, 'propose', example(`${name}.yaml`)];

function commands(): string {
  const lines: [string, readonly string[]][] = [
    ['(bare node)', BARE],
    ['--help', [built, '--help']],
    ['shelf', [built, 'shelf']],
    ['assess old-planter', [built, 'assess', example('recipes/old-planter.yaml')]],
    ...['herb-planter', 'soap-tray', 'incense-dish', 'wall-pocket', 'bookends'].map(
      (name): [string, readonly string[]] => [`propose ${name}`, proposing(name)],
    ),
    ['order spring-market', [built, 'order', example('spring-market.yaml')]],
  ];
  const rows = lines.map(([name, args]) => {
    const { whole, bare } = inTurn(args);
    return [name, ms(whole), ms(bare), ratio(whole / bare), peakMb(args).toFixed(0)];
  });
  return table(['command', 'ms', 'bare node, ms', 'ratio', 'peak, MB'], rows);
}

/** Node reads the certificates that this names whenever it starts; most machines name none. */
const CERTIFICATES = 'NODE_EXTRA_CA_CERTS';

function withoutCertificates(): string {
  const { [CERTIFICATES]: named, ...env } = process.env;
  if (named === undefined) return '';
  const told = ['herb-planter', 'bookends'].map((name) => {
    const { whole, bare } = inTurn(proposing(name), env);
    return `\`propose ${name}\` ${ms(whole)} beside ${ms(bare)} (${ratio(whole / bare)})`;
  });
  return `
Here every start of Node, a bare one too, reads the certificates that \`${CERTIFICATES}\` names. Where it names none:
${told.join(', ')}.
`;
}

const beside = await solvers();
const lost = beside
  .flatMap((b): [string, number][] => [
    [`HiGHS at ${b.size} materials`, b.ours / b.highs],
    [`YALPS at ${b.size} materials`, b.ours / b.yalps],
    [`GLPK at ${b.size} materials`, b.ours / b.glpk],
  ])
  .filter(([, r]) => r > 1.05);

const report = `# Bench

Written by \`npm run bench\`; do not edit. Medians in ms, after one run to warm up. Node ${process.version}, ${cpus().length} × ${cpus()[0]!.model.trim()}, load ${loadavg()[0]!.toFixed(1)}
when it ended: what counts is the ratios within one run.

## Jobs as the shelf grows

One brief (a damp planter, cheapest, three targets), in this process. The proposal searches every binder system, rounds to the scale and is judged anew.

${jobs()}

A frontier is not traced beyond ${LARGEST_FRONTIER} materials. **Where we lose:** each step looks at the blend with a little more
or less of every material, so time grows with the shelf; a thousand bags take seconds.

## The shipped examples

${await examples()}

## One linear program beside three other solvers

The same rows and columns for all. Ours comes with its certificate checked on the rows as stated; HiGHS
(WebAssembly) includes handing the model over; YALPS has no upper bounds, so the few stock bounds are left out for it.
YALPS and GLPK (WebAssembly) get their models ready made; GLPK answers without prices checked. Both GLPK and YALPS are
development dependencies only.

${table(
  ['materials', 'rows', 'ours', 'HiGHS', 'YALPS', 'GLPK', 'ours / HiGHS', 'ours / YALPS', 'ours / GLPK'],
  beside.map((b) => [
    String(b.size),
    String(b.rows),
    ms(b.ours),
    ms(b.highs),
    ms(b.yalps),
    ms(b.glpk),
    ratio(b.ours / b.highs),
    ratio(b.ours / b.yalps),
    ratio(b.ours / b.glpk),
  ]),
)}

${lost.length === 0 ? 'We are behind nowhere in this table.' : `**Where we lose:** ${lost.map(([who, r]) => `${who} (${ratio(r)})`).join(', ')}.`}

## Whole commands

${commands()}
${withoutCertificates()}`;
writeFileSync(join(root, 'test', 'bench', 'RESULTS.md'), report);
process.stdout.write(report);
