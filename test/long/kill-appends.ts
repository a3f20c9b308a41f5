import { killAppends } from '../support/killed-appends.js';

/** Kills appending processes for as long as asked: tsx test/long/kill-appends.ts [rounds] [together]. */
const [rounds = '60', together = '4'] = process.argv.slice(2);
const result = await killAppends(Number(rounds), Number(together), 7);
console.log(
  `${result.killed} processes killed, ${result.promised} lines called written, ${result.written} in the file, ${result.faults.length} faults`,
);
for (const fault of result.faults.slice(0, 20)) console.log(fault);
process.exitCode = result.faults.length === 0 && result.killed > 0 ? 0 : 1;
