import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Io } from '../../src/cli/io.js';
import { run } from '../../src/cli/run.js';

export interface Said {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs one command line in this process, as a terminal of 100 columns without colour would see it. */
export async function said(argv: readonly string[], stdin = '', more: Partial<Io> = {}): Promise<Said> {
  let out = '';
  let err = '';
  const io: Io = {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    stdin: async () => Buffer.from(stdin),
    env: {},
    columns: 100,
    colour: false,
    interactive: false,
    ask: async () => null,
    today: () => '2026-05-04',
    ...more,
  };
  return { code: await run(argv, io), out, err };
}

const BUILT = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'dist', 'pourwright.cjs');

/** Runs the built command as a process of its own. */
export function spawned(argv: readonly string[], folder: string): Said {
  const { status, stdout, stderr } = spawnSync(process.execPath, [BUILT, ...argv], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 50_000,
    env: { ...process.env, NO_COLOR: '1' },
  });
  return { code: status, out: stdout, err: stderr };
}

/** A new folder with these files in it. */
export function folderOf(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'pourwright-test-'));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}
