/**
 * `npm run fuzz [cases] [seed]`: the long run of test/fuzz, 110,000 spoilt texts over every reader by default. Ends with
 * exit code 1 at the first fault, which fast-check has shrunk and printed.
 */
import { fuzz } from '../fuzz/watch.js';

const cases = Number(process.argv[2] ?? 110_000);
const seed = Number(process.argv[3] ?? Date.now() % 1_000_000);

console.log(`${cases} cases, seed ${seed}`);
const start = performance.now();
const tallies = fuzz(cases, seed);
console.log(`${'reader'.padEnd(16)}${'cases'.padStart(8)}${'taken'.padStart(8)}${'refused'.padStart(9)}  slowest, ms`);
for (const [name, t] of tallies) {
  console.log(
    `${name.padEnd(16)}${String(t.cases).padStart(8)}${String(t.taken).padStart(8)}${String(t.refused).padStart(9)}${t.slowest.toFixed(0).padStart(10)}`,
  );
}
console.log(`no fault in ${((performance.now() - start) / 1000).toFixed(0)} s`);
