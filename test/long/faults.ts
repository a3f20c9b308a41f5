/**
 * `npm run faults [kills]`: kill -9 during appends and saves, several writers at once, a folder that may only be read, a
 * full disk. Every line that was called written has to be there, none torn. Ends with exit code 1 if anything is wrong.
 */
import { fullDisk, fullQuota, killSaves, readOnlyFolder, type Trial } from '../support/faults.js';
import { killAppends } from '../support/killed-appends.js';

const kills = Number(process.argv[2] ?? 500);
const appends = async (together: number, seed: number): Promise<Trial> => {
  const { faults, ...counted } = await killAppends(Math.ceil(kills / 2 / together), together, seed);
  return { counted, faults };
};

const trials: readonly (readonly [string, () => Promise<Trial>])[] = [
  ['kill -9 during appends, one writer', () => appends(1, 11)],
  ['kill -9 during appends, two writers at once', () => appends(2, 12)],
  ['kill -9 during saves', () => killSaves(kills, 13)],
  ['a folder that may only be read', readOnlyFolder],
  ['a full disk (small tmpfs)', fullDisk],
  ['a full quota (limit on the size of a file)', fullQuota],
];

let wrong = 0;
for (const [title, trial] of trials) {
  const { counted, faults, skipped } = await trial();
  wrong += faults.length;
  const figures = Object.entries(counted).map(([name, n]) => `${name} ${n}`);
  console.log(
    `${title}: ${skipped === undefined ? figures.join(', ') : `skipped, ${skipped}`}; wrong ${faults.length}`,
  );
  for (const fault of faults.slice(0, 10)) console.log(`  ${fault}`);
}
process.exitCode = wrong === 0 ? 0 : 1;
