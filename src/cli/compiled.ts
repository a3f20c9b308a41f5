import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { Script } from 'node:vm';

export interface Compiled {
  readonly script: Script;
  readonly command: typeof import('./main.js');
}

/**
 * Loads the command's one file with the code that the build had compiled of it, so that Node need not compile it again.
 * Code compiled by another version of Node is not taken; then it starts as any file does, a few hundredths slower.
 * file: absolute path; load: the caller's own require.
 */
export function loadCompiled(file: string, cachedData: Buffer | undefined, load: NodeJS.Require): Compiled {
  // The bundle is plain ASCII.
  const source = readFileSync(file, 'latin1');
  const script = new Script(source, { filename: file, ...(cachedData && { cachedData }) });
  const module = { exports: {} as Compiled['command'] };
  script.runInThisContext()(load, module, module.exports, dirname(file));
  return { script, command: module.exports };
}
