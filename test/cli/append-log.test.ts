import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { appendLine } from '../../src/cli/append-log.js';
import { withLock } from '../../src/cli/lock.js';
import { killAppends } from '../support/killed-appends.js';
import { problemsOf } from '../support/problems.js';

const root = mkdtempSync(join(tmpdir(), 'pourwright-log-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));
let file = '';
let cases = 0;
beforeEach(() => {
  file = join(root, `log-${cases++}.csv`);
});
const text = (): string => readFileSync(file, 'utf8');
const append = (line: string): void => appendLine(file, 'a,b\n', () => line);

describe('appending', () => {
  it('begins a new file with its head', () => {
    append('1,2');
    append('3,4');
    expect(text()).toBe('a,b\n1,2\n3,4\n');
    expect(existsSync(`${file}.lock`)).toBe(false);
  });

  it('takes an empty file, and one of blank lines, for new', () => {
    writeFileSync(file, ' \n\n');
    append('1,2');
    expect(text()).toBe(' \n\na,b\n1,2\n');
  });

  it('shows the line builder the text as it will stand before the line', () => {
    writeFileSync(file, 'x,y\n1,2');
    let seen = '';
    appendLine(file, 'a,b\n', (before) => {
      seen = before;
      return '3,4';
    });
    expect(seen).toBe('x,y\n1,2\n');
    expect(text()).toBe('x,y\n1,2\n3,4\n');
  });

  it('closes what a power cut left open: a missing line end, and a quote', () => {
    writeFileSync(file, 'x,y\n1,2\n3,"half');
    append('5,6');
    expect(text()).toBe('x,y\n1,2\n3,"half"\n5,6\n');
    writeFileSync(file, 'x,y\n3,"half\n');
    append('5,6');
    expect(text()).toBe('x,y\n3,"half\n"\n5,6\n');
  });

  it('keeps the line ends a spreadsheet gave the file', () => {
    writeFileSync(file, 'x,y\r\n1,2');
    append('3,4');
    expect(text()).toBe('x,y\r\n1,2\r\n3,4\r\n');
  });

  it('never touches a byte that was there, whatever it is', () => {
    const before = 'x;"y ""quoted"" ä"\n\n  odd ,,\n#note\n"multi\nline";1\n';
    writeFileSync(file, before);
    for (let i = 0; i < 20; i++) append(`${i};z`);
    expect(text().startsWith(before)).toBe(true);
  });

  it('leaves the file as it is when the line cannot be built', () => {
    writeFileSync(file, 'x,y\n1,2\n');
    const fail = () =>
      appendLine(file, '', () => {
        throw new Error('no line');
      });
    expect(fail).toThrow('no line');
    expect(text()).toBe('x,y\n1,2\n');
    expect(existsSync(`${file}.lock`)).toBe(false);
  });

  it('says why when it cannot write', () => {
    expect(problemsOf(() => appendLine(root, '', () => '1'))).toMatchObject([{ code: 'file-not-written' }]);
    expect(problemsOf(() => appendLine(join(root, 'no', 'such', 'f.csv'), '', () => '1'))).toMatchObject([
      { code: 'file-not-written' },
    ]);
    writeFileSync(file, Buffer.from([0x61, 0xff, 0x0a]));
    expect(problemsOf(() => append('1'))).toMatchObject([{ code: 'file-unreadable' }]);
    expect(statSync(file).size).toBe(3);
  });
});

describe('the lock', () => {
  const lock = (): string => `${file}.lock`;

  it('makes another wait, and gives up in time with a way out', () => {
    writeFileSync(lock(), `${process.pid} ${hostname()} someone`);
    const [problem] = problemsOf(() => withLock(file, () => 1, { wait: 80 }));
    expect(problem).toMatchObject({ code: 'file-not-written', where: { file } });
    expect(problem!.hint).toContain(lock());
    expect(readFileSync(lock(), 'utf8')).toContain('someone');
  });

  it('breaks the lock of a process that is dead', () => {
    // No process has this number: it is above what the system gives out.
    writeFileSync(lock(), `4194999 ${hostname()} dead`);
    expect(withLock(file, () => 'done', { wait: 500 })).toBe('done');
    expect(existsSync(lock())).toBe(false);
  });

  it('breaks one of another machine only when it is old, and one that was never signed', () => {
    writeFileSync(lock(), '1 elsewhere x');
    expect(problemsOf(() => withLock(file, () => 1, { wait: 60 }))).toHaveLength(1);
    const old = new Date(Date.now() - 60_000);
    utimesSync(lock(), old, old);
    expect(withLock(file, () => 'done', { wait: 500 })).toBe('done');
    writeFileSync(lock(), '');
    utimesSync(lock(), old, old);
    expect(withLock(file, () => 'done', { wait: 500 })).toBe('done');
  });

  it('is let go when the work fails', () => {
    const fail = () =>
      withLock(file, () => {
        throw new Error('x');
      });
    expect(fail).toThrow('x');
    expect(existsSync(lock())).toBe(false);
  });
});

describe('processes that are killed', () => {
  it('lose no line that was called written, and tear none (a sample; test/long/kill-appends.ts runs more)', async () => {
    const result = await killAppends(3, 3, 1);
    expect(result.faults).toEqual([]);
    expect(result.killed).toBeGreaterThanOrEqual(6);
    expect(result.promised).toBeGreaterThan(10);
    expect(result.written).toBeGreaterThanOrEqual(result.promised);
  }, 120_000);
});
