import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { appendLine } from '../../src/cli/append-log.js';

/** What the append log asks of the system, in order, on every file but its lock. */
const calls: string[] = [];
const handles = new Map<number, string>();

vi.mock('node:fs', async (original) => {
  const fs = await original<typeof import('node:fs')>();
  const note = (call: string, handle: number): void => {
    const name = handles.get(handle);
    if (name !== undefined) calls.push(`${call} ${name}`);
  };
  const openSync = (...args: Parameters<typeof fs.openSync>): number => {
    const handle = fs.openSync(...args);
    const name = String(args[0]).split('/').at(-1)!;
    if (name.endsWith('.csv')) handles.set(handle, name);
    else handles.delete(handle);
    return handle;
  };
  const writeSync = ((handle: number, ...rest: unknown[]) => {
    note('write', handle);
    return (fs.writeSync as (...all: unknown[]) => number)(handle, ...rest);
  }) as typeof fs.writeSync;
  const fsyncSync: typeof fs.fsyncSync = (handle) => {
    note('flush', handle);
    fs.fsyncSync(handle);
  };
  const forbidden = (name: string) => () => {
    throw new Error(`${name} was called`);
  };
  return {
    ...fs,
    openSync,
    writeSync,
    fsyncSync,
    ftruncateSync: forbidden('ftruncateSync'),
    truncateSync: forbidden('truncateSync'),
    writeFileSync: forbidden('writeFileSync'),
  };
});

const root = mkdtempSync(join(tmpdir(), 'pourwright-writes-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));
beforeEach(() => {
  calls.length = 0;
});

describe('an append', () => {
  it('is one write and then a flush, whether the file is new, whole or cut off', () => {
    const file = join(root, 'a.csv');
    appendLine(file, 'x,y\n', () => `1,"${'long '.repeat(400)}`);
    appendLine(file, 'x,y\n', () => '2,mended');
    appendLine(file, 'x,y\n', () => '3,whole');
    expect(calls).toEqual(['write a.csv', 'flush a.csv', 'write a.csv', 'flush a.csv', 'write a.csv', 'flush a.csv']);
    expect(readFileSync(file, 'utf8').endsWith('"\n2,mended\n3,whole\n')).toBe(true);
  });
});
