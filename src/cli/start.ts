import { readFileSync } from 'node:fs';
import { loadCompiled } from './compiled.js';

const beside = (name: string): URL => new URL(name, import.meta.url);

function compiledCode(): Buffer | undefined {
  try {
    return readFileSync(beside('command.compiled'));
  } catch {
    return undefined;
  }
}

const { run, processIo } = loadCompiled(beside('command.cjs'), compiledCode()).command;
process.exitCode = await run(process.argv.slice(2), processIo());
