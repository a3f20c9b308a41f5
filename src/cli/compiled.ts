import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { dirname } from 'node:path';
import { Script } from 'node:vm';

export interface Compiled {
  readonly script: Script;
  readonly command: typeof import('./main.js');
}

/**
 * Loads the command's one file with the code that the build had compiled of it, so that Node need not compile it again.
 * Code that lacks, or that another version of Node compiled, is done without: the file starts as any does, a few hundredths
 * slower.
 * file, compiled: absolute paths; load: the caller's own require.
 */
export function loadCompiled(file: string, compiled: string | undefined, load: NodeJS.Require): Compiled {
  const written = opened(file);
  const ahead = compiled === undefined ? undefined : openedIfThere(compiled);
  // One after the other in the same memory: to touch it for the first time takes longer than to read.
  const memory = Buffer.allocUnsafeSlow(Math.max(written.size, ahead?.size ?? 0));
  // The bundle is plain ASCII.
  const source = contents(written, memory).toString('latin1');
  const cachedData = ahead && contents(ahead, memory);
  const script = new Script(source, { filename: file, ...(cachedData && { cachedData }) });
  const module = { exports: {} as Compiled['command'] };
  script.runInThisContext()(load, module, module.exports, dirname(file));
  return { script, command: module.exports };
}

interface Opened {
  readonly descriptor: number;
  readonly size: number;
}

function opened(file: string): Opened {
  const descriptor = openSync(file, 'r');
  return { descriptor, size: fstatSync(descriptor).size };
}

function openedIfThere(file: string): Opened | undefined {
  try {
    return opened(file);
  } catch {
    return undefined;
  }
}

/** All of a file at the start of `memory`; then it is closed. */
function contents({ descriptor, size }: Opened, memory: Buffer): Buffer {
  let end = 0;
  while (end < size) {
    const read = readSync(descriptor, memory, end, size - end, end);
    if (read === 0) break;
    end += read;
  }
  closeSync(descriptor);
  return memory.subarray(0, end);
}
