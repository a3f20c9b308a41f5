/**
 * A process that saves over one file as fast as it can, to be killed in the middle: saver FILE NAME COUNT.
 * Each version carries its own length and checksum, so that half a version shows. "NAME i" goes to stdout once version i
 * is on the disk.
 */
import { createHash } from 'node:crypto';
import { writeText } from '../../src/cli/files.js';

const [file = '', name = '', count = '0'] = process.argv.slice(2);
for (let i = 0; i < Number(count); i++) {
  const body = `${name} ${i}\n${'y'.repeat((i * 7919) % 200_000)}\n`;
  writeText(file, `${createHash('sha256').update(body).digest('hex')}\n${body}`);
  process.stdout.write(`${name} ${i}\n`);
}
