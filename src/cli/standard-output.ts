import { fstatSync, type Stats, statSync, writeSync } from 'node:fs';
import { reason } from './files.js';

const STDOUT = 1;
/** ms until a reader that keeps others waiting is tried again. */
const READER_WAITS = 5;
const BAD_INPUT = 2;

/** Streams that something was written to: merely opening one takes a hundredth of the command. */
const used = new Set<NodeJS.WriteStream>();

/** Comes when all that was written has gone out. */
export async function allWritten(): Promise<void> {
  for (const stream of used) await new Promise<void>((done) => void stream.write('', () => done()));
}

export function write(stream: NodeJS.WriteStream, text: string): void {
  used.add(stream);
  stream.write(text);
}

/** A reader that has seen enough (`| head`) closes the pipe: that is no error of ours. A full disk is told. */
function unwritten(error: NodeJS.ErrnoException): never {
  if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0);
  process.stderr.write(`pourwright: standard output cannot be written: ${reason(error)}\n`);
  process.exit(BAD_INPUT);
}

function writePlainly(text: string): void {
  const bytes = Buffer.from(text);
  for (let done = 0; done < bytes.length; ) {
    try {
      done += writeSync(STDOUT, bytes, done);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') unwritten(error as NodeJS.ErrnoException);
      // Whoever holds the other end has set it not to block, and reads slower than we write.
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, READER_WAITS);
    }
  }
}

/** Where output goes that nobody wants. */
const isNowhere = (stat: Stats): boolean => stat.isCharacterDevice() && stat.rdev === statSync('/dev/null').rdev;

/** Whether the standard output is a file, a pipe or nowhere, which need no stream: opening one takes a hundredth of the command. */
function isPlain(): boolean {
  if (process.platform === 'win32') return false;
  try {
    const stat = fstatSync(STDOUT);
    return stat.isFile() || stat.isFIFO() || stat.isSocket() || isNowhere(stat);
  } catch {
    return false;
  }
}

/** How to write to the standard output, and the terminal it is, if it is one. */
export function standardOutput(): {
  readonly out: (text: string) => void;
  readonly terminal: NodeJS.WriteStream | null;
} {
  if (isPlain()) return { out: writePlainly, terminal: null };
  const { stdout } = process;
  stdout.on('error', unwritten);
  return { out: (text) => write(stdout, text), terminal: stdout.isTTY ? stdout : null };
}
