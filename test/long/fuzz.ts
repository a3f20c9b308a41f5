/**
 * `npm run fuzz [cases] [seed]`: the long run of test/fuzz, 120,000 spoilt texts over every reader by default, a
 * hundredth as many all the way through (planned, fitted, proposed), and a hundredth as whole commands. Ends with exit code
 * 1 at the first fault, which fast-check has shrunk and printed.
 */
import { fuzzCommands } from '../fuzz/commands.js';
import { THROUGH } from '../fuzz/through.js';
import { fuzz } from '../fuzz/watch.js';

const cases = Number(process.argv[2] ?? 120_000);
const seed = Number(process.argv[3] ?? Date.now() % 1_000_000);

console.log(`${cases} cases, seed ${seed}`);
const start = performance.now();
/** ms that a proposal, a plan or a fit may take. */
const LONGEST_JOB = 20_000;
const tallies = [...fuzz(cases, seed), ...fuzz(Math.ceil(cases / 100), seed, THROUGH, LONGEST_JOB)];
console.log(`${'reader'.padEnd(18)}${'cases'.padStart(8)}${'taken'.padStart(8)}${'refused'.padStart(9)}  slowest, ms`);
for (const [name, t] of tallies) {
  console.log(
    `${name.padEnd(18)}${String(t.cases).padStart(8)}${String(t.taken).padStart(8)}${String(t.refused).padStart(9)}${t.slowest.toFixed(0).padStart(10)}`,
  );
}
const { cases: commands, codes, slowest } = await fuzzCommands(Math.ceil(cases / 100), seed);
console.log(`${commands} whole commands, exit codes ${JSON.stringify(codes)}, slowest ${slowest.toFixed(0)} ms`);
console.log(`no fault in ${((performance.now() - start) / 1000).toFixed(0)} s`);
