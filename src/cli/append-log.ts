import { closeSync, constants, fstatSync, fsyncSync, ftruncateSync, openSync, readSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import { refuse } from '../core/problems/problem.js';
import { flushFolder, LARGEST_FILE, reason } from './files.js';
import { withLock } from './lock.js';

/**
 * Appends one line to a text log so that nothing written before is ever lost or changed.
 *
 * The file is only ever opened for appending: no byte that was there is rewritten or cut off. The line goes out in a
 * single write and is flushed to the disk before this returns. A process that dies leaves it there whole or not at all, a
 * power cut at worst the beginning of this one line: the next call closes that (an open quote, then a line end) and starts
 * its own on a new line. Processes that append at the same time take turns by a lock beside the file.
 *
 * line: builds the new line, without a line end, from the text as it stands once the lock is held ('' for a new file);
 * `head` is written before it when there is no text yet. Throws InputProblems file-not-written, file-too-large.
 */
export function appendLine(path: string, head: string, line: (text: string) => string): void {
  withLock(path, () => {
    let handle: number;
    try {
      handle = openSync(path, constants.O_RDWR | constants.O_APPEND | constants.O_CREAT, 0o666);
    } catch (error) {
      return notWritten(path, error);
    }
    try {
      const text = textOf(handle, path);
      const fresh = text.trim() === '';
      const mended = fresh ? '' : mend(text);
      const end = /\r\n/.test(text) ? '\r\n' : '\n';
      const added = `${mended}${fresh ? head : ''}${line(fresh ? head : text + mended)}${end}`;
      const before = fstatSync(handle).size;
      try {
        writeWhole(handle, Buffer.from(added, 'utf8'));
      } catch (error) {
        takeBack(handle, before);
        notWritten(path, error);
      }
      if (fresh) flushFolder(dirname(path));
    } finally {
      closeSync(handle);
    }
  });
}

/** What has to come before a new line: nothing after a whole one; else what closes the last. */
function mend(text: string): string {
  if (text.endsWith('\n') && !openQuote(text)) return '';
  const end = /\r\n/.test(text) ? '\r\n' : '\n';
  // A line end inside an open quote belongs to the cell; the quote is closed and the row ended.
  return `${openQuote(text) ? '"' : ''}${end}`;
}

/** Double quotes inside a cell stand twice, so an odd number in all means that one is still open. */
const openQuote = (text: string): boolean => (text.split('"').length - 1) % 2 === 1;

function textOf(handle: number, path: string): string {
  const { size } = fstatSync(handle);
  if (size > LARGEST_FILE) {
    const expected = `at most ${LARGEST_FILE} bytes; start a new file`;
    refuse({ code: 'file-too-large', where: { file: path }, found: `${size} bytes`, expected });
  }
  const bytes = Buffer.alloc(size);
  let done = 0;
  while (done < size) {
    const read = readSync(handle, bytes, done, size - done, done);
    if (read === 0) break;
    done += read;
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, done));
  } catch {
    return refuse({ code: 'file-unreadable', where: { file: path }, hint: 'it is not UTF-8; save it as UTF-8' });
  }
}

/** One write as a rule; the rest follows if the system took only part. */
function writeWhole(handle: number, bytes: Buffer): void {
  for (let done = 0; done < bytes.length; ) done += writeSync(handle, bytes, done);
  fsyncSync(handle);
}

/** Takes off what a full disk let through of a line: nobody was told that it is written, and the lock is still ours. */
function takeBack(handle: number, before: number): void {
  try {
    ftruncateSync(handle, before);
  } catch {
    // The next line closes the torn one.
  }
}

const notWritten = (path: string, error: unknown): never =>
  refuse({ code: 'file-not-written', where: { file: path }, hint: reason(error) });
