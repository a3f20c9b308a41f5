/**
 * A process that appends to a log as fast as it can, to be killed in the middle: appender FILE NAME COUNT.
 * Each line carries its own length and a filler of changing size, so that a torn one shows. "NAME i" goes to stdout once
 * line i is on the disk.
 */
import { appendLine } from '../../src/cli/append-log.js';

const [file = '', name = '', count = '0'] = process.argv.slice(2);
for (let i = 0; i < Number(count); i++) {
  appendLine(file, 'who,i,filler,end\n', () => lineOf(name, i));
  process.stdout.write(`${name} ${i}\n`);
}

function lineOf(who: string, i: number): string {
  const filler = 'x'.repeat((i * 37) % 3000);
  return `${who},${i},"${filler}",${filler.length}`;
}
