import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from '../../src/cli/run.js';
import { fuzzCommands } from './commands.js';
import { ioOf } from './io.js';
import { READERS } from './readers.js';
import { LONGEST_CASE, watch } from './watch.js';

const folder = mkdtempSync(join(tmpdir(), 'pourwright-large-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const once = () => ({ cases: 0, taken: 0, refused: 0, slowest: 0 });
const nested = (name: string) =>
  `a: &a [x, x]\n${[...'bcdefghijklmnop'].map((c, i) => `${c}: &${c} [${`*${String.fromCharCode(97 + i)}, `.repeat(9)}]\n`).join('')}${name}: *p\n`;

/** Texts meant to take for ever, as a brief, a recipe, a list of prices, a record. */
const BOMBS: readonly [string, string][] = [
  ['aliases within aliases', nested('mould')],
  ['a name of dots', `amounts:\n  ? ${'a.'.repeat(20_000)}\n  : 1\n`],
  ['a name of dots and brackets', `amounts:\n  "${'a[1].'.repeat(4000)}": 1\nmould: { water: 1 L }\n`],
  [
    'many materials nobody knows',
    `amounts:\n${Array.from({ length: 4000 }, (_, i) => `  no-such-${i}: 1 g\n`).join('')}`,
  ],
  ['many wrong fields', Array.from({ length: 9000 }, (_, i) => `field-${i}: 1\n`).join('')],
  ['one long word', `title: ${'x'.repeat(390_000)}\nobjective: ${'y'.repeat(5000)}\n`],
  ['many rows', `material,pack,price\n${'perlte,1 kg,1\n'.repeat(30_000)}`],
  ['many columns', `material,pack,price${',x'.repeat(60_000)}\nperlite,1 kg,1${',1'.repeat(60_000)}\n`],
  ['a quote never closed', `material,pack,price\n"${'perlite,1 kg,1\n'.repeat(30_000)}`],
  ['many pours of one name', `pour,weights\n${'1,1 h: 3\n'.repeat(20_000)}`],
  ['many weighings in a cell', `pour,weights\n1,"${'1 h: 3;'.repeat(40_000)}"\n`],
  ['digits', `amounts: { water: ${'9'.repeat(200_000)} g }\n`],
  ['spaces', `${' '.repeat(200_000)}a: 1${' '.repeat(190_000)}\n`],
  ['words for a quantity', `${'1 kg '.repeat(40_000)}`],
];

describe('texts meant to take for ever', () => {
  it.each(BOMBS)(`%s: every reader is done in ${LONGEST_CASE} ms`, (_, text) => {
    const tally = once();
    for (const reader of READERS) watch(reader, text, tally);
    expect(tally.cases).toBe(READERS.length);
  });
});

describe('files too large', () => {
  const big = join(folder, 'big.yaml');
  it.each(['propose', 'assess', 'price', 'card', 'order'])('%s refuses fifty megabytes at once', async (verb) => {
    writeFileSync(big, 'a: 1\n');
    truncateSync(big, 50_000_000);
    // Once before, so that the verb's own code is there already.
    await run([verb, join(folder, 'none.yaml')], ioOf().io);
    const { io, said } = ioOf();
    const start = process.cpuUsage();
    expect(await run([verb, big], io)).toBe(2);
    expect(process.cpuUsage(start).user).toBeLessThan(500_000);
    expect(said.err).toContain('too large');
    expect(statSync(big).size).toBe(50_000_000);
  });

  it('the built command reads no more of a pipe than it may', () => {
    const built = new URL('../../dist/pourwright.cjs', import.meta.url).pathname;
    const start = performance.now();
    const { status, stderr } = spawnSync(
      'sh',
      ['-c', `head -c 50000000 /dev/zero | "${process.execPath}" "${built}" assess -`],
      {
        encoding: 'utf8',
        timeout: 20_000,
      },
    );
    expect(status).toBe(2);
    expect(stderr).toContain('too large');
    expect(performance.now() - start).toBeLessThan(10_000);
  });
});

describe('whole commands on spoilt files', () => {
  it('end with 0, 1 or 2 and words, and change no file', async () => {
    const { cases, codes } = await fuzzCommands(80, 5000);
    expect(cases).toBe(80);
    expect(codes['2']).toBeGreaterThan(20);
    expect((codes['0'] ?? 0) + (codes['1'] ?? 0)).toBeGreaterThan(10);
  });
});
