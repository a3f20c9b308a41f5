import { closeSync, linkSync, openSync, readFileSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { hostname } from 'node:os';
import { refuse } from '../core/problems/problem.js';
import { reason } from './files.js';
import { randomHex } from './random-hex.js';

export interface LockLimits {
  /** ms to wait for another process. */
  readonly wait?: number;
  /** ms after which a lock is taken to be left over, whoever holds it: what it guards takes a few ms. */
  readonly stale?: number;
}

const USUAL: Required<LockLimits> = { wait: 10_000, stale: 30_000 };
const PAUSE = 15;
/** ms; signing takes far less. */
const UNSIGNED = 1000;

/**
 * Runs work while no other process that asks for the same lock runs its own. The lock is a small file beside `path`,
 * made only where there is none (O_EXCL), which names its process: one whose process has died is broken.
 *
 * Throws InputProblems file-not-written when the lock cannot be had in time or at all.
 */
export function withLock<T>(path: string, work: () => T, limits: LockLimits = {}): T {
  const { wait, stale } = { ...USUAL, ...limits };
  const lock = `${path}.lock`;
  const mine = `${process.pid} ${hostname()} ${randomHex(6)}`;
  const last = Date.now() + wait;
  while (!take(lock, mine)) {
    breakStale(lock, stale);
    if (Date.now() > last) {
      const hint = `another program is writing to it; if none is, remove ${lock}`;
      refuse({ code: 'file-not-written', where: { file: path }, hint });
    }
    pause(PAUSE * (0.5 + Math.random()));
  }
  try {
    return work();
  } finally {
    // Only what is still ours: a lock taken for stale may by now be another's.
    if (contentOf(lock) === mine) rmSync(lock, { force: true });
  }
}

function take(lock: string, mine: string): boolean {
  let handle: number;
  try {
    handle = openSync(lock, 'wx', 0o666);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    return refuse({ code: 'file-not-written', where: { file: lock }, hint: reason(error) });
  }
  try {
    writeSync(handle, mine);
  } finally {
    closeSync(handle);
  }
  return true;
}

/**
 * Moves a left-over lock out of the way. Renaming is what only one process can do; should it have caught a lock that was
 * made in the meantime, that one is put back.
 */
function breakStale(lock: string, stale: number): void {
  const content = contentOf(lock);
  if (content === null || !isStale(lock, content, stale)) return;
  const aside = `${lock}.${randomHex(6)}`;
  try {
    renameSync(lock, aside);
    if (contentOf(aside) !== content) linkSync(aside, lock);
  } catch {
    // Another process was quicker.
  }
  rmSync(aside, { force: true });
}

function isStale(lock: string, content: string, stale: number): boolean {
  const [pid = '', host = ''] = content.split(' ');
  const age = Date.now() - (statSync(lock, { throwIfNoEntry: false })?.mtimeMs ?? Date.now());
  // Made but never signed: its process died in between.
  if (content === '') return age > UNSIGNED;
  if (host === hostname() && /^\d+$/.test(pid) && !isAlive(Number(pid))) return true;
  return age > stale;
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}

function contentOf(lock: string): string | null {
  try {
    return readFileSync(lock, 'utf8');
  } catch {
    return null;
  }
}

/** The whole command waits for the lock, so that nothing is half done meanwhile. */
const pause = (ms: number): void => void Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
