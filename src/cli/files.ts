import {
  closeSync,
  constants,
  existsSync,
  fchmodSync,
  fstatSync,
  fsyncSync,
  openSync,
  readdirSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { nearestWord } from '../core/problems/nearest.js';
import { InputProblems, refuse } from '../core/problems/problem.js';
import { randomHex } from './random-hex.js';

/** A maker's file, checked to be text. `file` is how problems name it. */
export interface TextFile {
  readonly file: string;
  readonly text: string;
}

export const LARGEST_FILE = 5_000_000;
const STDIN_NAME = 'standard input';
const CHUNK = 65_536;

/**
 * Reads a text file, or standard input for "-".
 *
 * Throws InputProblems: file-missing (with the nearest name in the folder), file-empty, file-too-large, file-binary,
 * file-unreadable (a folder, no permission, not UTF-8). A byte-order mark is taken off.
 */
export async function readText(path: string, stdin: () => Promise<Uint8Array> = readStdin): Promise<TextFile> {
  if (path === '-') {
    const bytes = await stdin();
    if (bytes.length > LARGEST_FILE) tooLarge(STDIN_NAME, bytes.length);
    return { file: STDIN_NAME, text: textOf(bytes, STDIN_NAME) };
  }
  return { file: path, text: textOf(readBytes(path), path) };
}

function readBytes(path: string): Buffer {
  const where = { file: path };
  let handle: number;
  try {
    // A pipe without a writer would block for ever if it were opened for waiting.
    handle = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  } catch (error) {
    return unopened(path, error);
  }
  try {
    const stat = fstatSync(handle);
    if (stat.isDirectory()) refuse({ code: 'file-unreadable', where, hint: 'this is a folder; name a file in it' });
    if (!stat.isFile())
      refuse({ code: 'file-unreadable', where, hint: 'this is not an ordinary file; pipe it in and name it “-”' });
    if (stat.size > LARGEST_FILE) tooLarge(path, stat.size);
    return readAll(handle, path);
  } catch (error) {
    if (error instanceof InputProblems) throw error;
    return refuse({ code: 'file-unreadable', where, hint: reason(error) });
  } finally {
    closeSync(handle);
  }
}

/** Reads until nothing comes, because a size can be told wrong or grow. */
function readAll(handle: number, path: string): Buffer {
  const chunks: Buffer[] = [];
  let size = 0;
  for (;;) {
    const chunk = Buffer.allocUnsafe(CHUNK);
    const read = readSync(handle, chunk, 0, CHUNK, null);
    if (read === 0) return Buffer.concat(chunks);
    size += read;
    if (size > LARGEST_FILE) tooLarge(path, size);
    chunks.push(chunk.subarray(0, read));
  }
}

/** All of standard input, given up as soon as it is too large. */
export async function readStdin(stream: AsyncIterable<unknown> = process.stdin): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of stream) {
    const bytes = typeof chunk === 'string' ? Buffer.from(chunk) : Buffer.from(chunk as Uint8Array);
    size += bytes.length;
    if (size > LARGEST_FILE) tooLarge(STDIN_NAME, size);
    chunks.push(bytes);
  }
  return Buffer.concat(chunks);
}

function textOf(bytes: Uint8Array, file: string): string {
  const where = { file };
  if (bytes.length === 0) refuse({ code: 'file-empty', where });
  const utf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  if (utf16) refuse({ code: 'file-unreadable', where, hint: 'it is saved as UTF-16 (“Unicode”); save it as UTF-8' });
  if (bytes.includes(0)) refuse({ code: 'file-binary', where });
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return refuse({ code: 'file-unreadable', where, hint: 'it is not UTF-8; save it as UTF-8 in your editor' });
  }
  if (text.trim() === '') refuse({ code: 'file-empty', where });
  return text;
}

function unopened(path: string, error: unknown): never {
  const where = { file: path };
  const code = (error as NodeJS.ErrnoException).code;
  if (code !== 'ENOENT' && code !== 'ENOTDIR') return refuse({ code: 'file-unreadable', where, hint: reason(error) });
  const nearest = nearestFile(path);
  return refuse({ code: 'file-missing', where, ...(nearest !== undefined && { nearest }) });
}

function nearestFile(path: string): string | undefined {
  const folder = dirname(path);
  try {
    const near = nearestWord(basename(path), readdirSync(folder));
    return near === undefined ? undefined : folder === '.' ? near : join(folder, near);
  } catch {
    return undefined;
  }
}

const tooLarge = (file: string, size: number): never =>
  refuse({
    code: 'file-too-large',
    where: { file },
    found: `${size} bytes`,
    expected: `at most ${LARGEST_FILE} bytes`,
  });

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'you are not allowed to',
  EPERM: 'you are not allowed to',
  EROFS: 'the disk can only be read',
  ENOSPC: 'the disk is full',
  ENOENT: 'there is no such folder',
  ENOTDIR: 'part of the path is not a folder',
  EISDIR: 'this is a folder',
  EMFILE: 'too many files are open',
  ELOOP: 'its links lead in a circle',
  ENAMETOOLONG: 'the name is too long',
  ERR_INVALID_ARG_VALUE: 'the name is not one a file can have',
};

/** Whether there is anything of this name. */
export const isThere = (path: string): boolean => existsSync(path);

/** Why the system would not, in plain words. */
export const reason = (error: unknown): string => {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return REASONS[code] ?? `the system says ${code || 'nothing more'}`;
};

/**
 * Writes a whole file or nothing: a temporary file beside it is filled, flushed to the disk and renamed over the old
 * one, whose permissions are kept. A link is followed. Throws InputProblems file-not-written; the old file then stands.
 */
export function writeText(path: string, text: string): void {
  let temporary: string | undefined;
  try {
    const target = followed(path);
    const old = statOf(target);
    if (old && !old.isFile()) throw Object.assign(new Error(), { code: 'EISDIR' });
    temporary = join(dirname(target), `.pourwright-${process.pid}-${randomHex(4)}.tmp`);
    const handle = openSync(temporary, 'wx', old ? old.mode & 0o777 : 0o666);
    try {
      writeAll(handle, Buffer.from(text, 'utf8'));
      if (old) fchmodSync(handle, old.mode & 0o777);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(temporary, target);
    temporary = undefined;
    flushFolder(dirname(target));
  } catch (error) {
    if (temporary !== undefined) rmSync(temporary, { force: true });
    refuse({ code: 'file-not-written', where: { file: path }, hint: reason(error) });
  }
}

/**
 * Writes a file that must not exist yet; what stands there is never touched. Throws InputProblems file-not-written.
 */
export function createText(path: string, text: string): void {
  const handle = openedNew(path);
  try {
    writeAll(handle, Buffer.from(text, 'utf8'));
    fsyncSync(handle);
  } catch (error) {
    rmSync(path, { force: true });
    refuse({ code: 'file-not-written', where: { file: path }, hint: reason(error) });
  } finally {
    closeSync(handle);
  }
}

function openedNew(path: string): number {
  try {
    return openSync(path, 'wx', 0o666);
  } catch (error) {
    const there = (error as NodeJS.ErrnoException).code === 'EEXIST';
    const hint = there ? 'there is such a file already, and it is left as it is; name another' : reason(error);
    return refuse({ code: 'file-not-written', where: { file: path }, hint });
  }
}

const statOf = (path: string): Stats | undefined => statSync(path, { throwIfNoEntry: false });

const followed = (path: string): string => (statOf(path) ? realpathSync(path) : path);

function writeAll(handle: number, bytes: Buffer): void {
  for (let done = 0; done < bytes.length; ) done += writeSync(handle, bytes, done);
}

/** Makes the rename itself last a power cut. Some systems cannot flush a folder; the file is whole either way. */
export function flushFolder(folder: string): void {
  try {
    const handle = openSync(folder, 'r');
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  } catch {
    // Nothing to do.
  }
}
