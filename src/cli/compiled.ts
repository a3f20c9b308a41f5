import { closeSync, openSync, readSync, statSync } from 'node:fs';
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
  // One after the other in the same memory: to touch it for the first time takes longer than to read.
  const sizes = [file, compiled].map((name) => (name && statSync(name, { throwIfNoEntry: false })?.size) || 0);
  const memory = Buffer.allocUnsafeSlow(Math.max(...sizes));
  // The bundle is plain ASCII.
  const source = readInto(memory, file).toString('latin1');
  const cachedData = compiled === undefined ? undefined : readIfCan(memory, compiled);
  const script = new Script(source, { filename: file, ...(cachedData && { cachedData }) });
  const module = { exports: {} as Compiled['command'] };
  script.runInThisContext()(load, module, module.exports, dirname(file));
  return { script, command: module.exports };
}

function readIfCan(memory: Buffer, file: string): Buffer | undefined {
  try {
    return readInto(memory, file);
  } catch {
    return undefined;
  }
}

/** A file's contents at the start of `memory`, which has room for them. */
function readInto(memory: Buffer, file: string): Buffer {
  const descriptor = openSync(file, 'r');
  try {
    let end = 0;
    for (let read = -1; read !== 0; end += read) read = readSync(descriptor, memory, end, memory.length - end, end);
    return memory.subarray(0, end);
  } finally {
    closeSync(descriptor);
  }
}
