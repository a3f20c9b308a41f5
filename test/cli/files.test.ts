import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { LARGEST_FILE, readStdin, readText, writeText } from '../../src/cli/files.js';
import { InputProblems, type Problem } from '../../src/core/problems/problem.js';
import { problemsOf } from '../support/problems.js';

const root = mkdtempSync(join(tmpdir(), 'pourwright-files-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));
let folder = root;
beforeEach(() => {
  folder = mkdtempSync(join(root, 'case-'));
});
const put = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

async function refusal(path: string, stdin?: () => Promise<Uint8Array>): Promise<Problem> {
  try {
    await readText(path, stdin);
  } catch (error) {
    if (error instanceof InputProblems) return error.problems[0]!;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('reading a file', () => {
  it('gives its text, without the byte-order mark', async () => {
    expect(await readText(put('a.yaml', 'mould: ½ L\n'))).toEqual({
      file: join(folder, 'a.yaml'),
      text: 'mould: ½ L\n',
    });
    expect((await readText(put('b.yaml', '\ufeffa: 1'))).text).toBe('a: 1');
  });

  it('takes standard input for "-"', async () => {
    expect(await readText('-', async () => Buffer.from('a: 1'))).toEqual({ file: 'standard input', text: 'a: 1' });
    expect(await refusal('-', async () => Buffer.alloc(0))).toMatchObject({
      code: 'file-empty',
      where: { file: 'standard input' },
    });
    async function* endless(): AsyncGenerator<Uint8Array> {
      for (;;) yield new Uint8Array(1_000_000).fill(97);
    }
    await expect(readStdin(endless())).rejects.toThrow(/file-too-large/);
  });

  it.each<[string, string | Uint8Array, string]>([
    ['empty', '', 'file-empty'],
    ['blank', ' \n\t\n', 'file-empty'],
    ['with a NUL', 'a: 1\u0000', 'file-binary'],
    ['a picture', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0x0d]), 'file-binary'],
    ['Latin-1', new Uint8Array([0x63, 0x61, 0x66, 0xe9]), 'file-unreadable'],
    ['UTF-16', new Uint8Array([0xff, 0xfe, 0x61, 0, 0x3a, 0]), 'file-unreadable'],
  ])('%s is refused', async (_, content, code) => {
    expect(await refusal(put('x', content))).toMatchObject({ code, where: { file: join(folder, 'x') } });
  });

  it('refuses fifty megabytes without reading them', async () => {
    const path = put('big.csv', 'a');
    truncateSync(path, 50_000_000);
    expect(await refusal(path)).toMatchObject({ code: 'file-too-large', found: '50000000 bytes' });
    truncateSync(path, LARGEST_FILE + 1);
    expect(await refusal(path)).toMatchObject({ code: 'file-too-large' });
  });

  it('names the nearest file when there is none of that name', async () => {
    put('planter.yaml', 'a: 1');
    expect(await refusal(join(folder, 'plantre.yaml'))).toMatchObject({
      code: 'file-missing',
      nearest: join(folder, 'planter.yaml'),
    });
    const lost = await refusal(join(folder, 'nowhere', 'a.yaml'));
    expect(lost.code).toBe('file-missing');
    expect(lost.nearest).toBeUndefined();
  });

  it('refuses folders, pipes nobody fills, devices, and impossible names', async () => {
    mkdirSync(join(folder, 'dir'));
    expect(await refusal(join(folder, 'dir'))).toMatchObject({
      code: 'file-unreadable',
      hint: expect.stringContaining('folder'),
    });
    expect(await refusal('a\u0000b')).toMatchObject({ code: 'file-unreadable' });
    if (process.platform === 'win32') return;
    expect(spawnSync('mkfifo', [join(folder, 'pipe')]).status).toBe(0);
    expect(await refusal(join(folder, 'pipe'))).toMatchObject({ code: 'file-unreadable' });
    expect(await refusal('/dev/zero')).toMatchObject({ code: 'file-unreadable' });
  });
});

describe('writing a file', () => {
  it('makes it, or replaces it whole and keeps its permissions', () => {
    const path = join(folder, 'out.csv');
    writeText(path, 'a\n');
    expect(readFileSync(path, 'utf8')).toBe('a\n');
    chmodSync(path, 0o666);
    writeText(path, 'ü\n');
    expect(readFileSync(path, 'utf8')).toBe('ü\n');
    expect(statSync(path).mode & 0o777).toBe(0o666);
    expect(readdirSync(folder)).toEqual(['out.csv']);
  });

  it('replaces by renaming, so that who has the old file open still reads it whole', () => {
    const path = put('out.csv', 'old');
    const before = statSync(path).ino;
    writeText(path, 'new');
    expect(statSync(path).ino).not.toBe(before);
  });

  it('writes through a link and leaves the link', () => {
    const target = put('real.csv', 'old');
    symlinkSync(target, join(folder, 'link.csv'));
    writeText(join(folder, 'link.csv'), 'new');
    expect(readFileSync(target, 'utf8')).toBe('new');
    expect(lstatSync(join(folder, 'link.csv')).isSymbolicLink()).toBe(true);
  });

  it('says so when it cannot, and leaves nothing behind', () => {
    expect(problemsOf(() => writeText(join(folder, 'none', 'a.csv'), 'x'))).toMatchObject([
      { code: 'file-not-written', hint: 'there is no such folder' },
    ]);
    mkdirSync(join(folder, 'dir'));
    expect(problemsOf(() => writeText(join(folder, 'dir'), 'x'))).toMatchObject([
      { code: 'file-not-written', hint: 'this is a folder' },
    ]);
    expect(readdirSync(folder)).toEqual(['dir']);
    expect(existsSync(join(folder, 'none'))).toBe(false);
  });
});
