import { readFileSync } from 'node:fs';
import { loadCompiled } from './compiled.js';
import { FAULT, faultWords } from './fault.js';

const beside = (name: string): URL => new URL(name, import.meta.url);

function compiledCode(): Buffer | undefined {
  try {
    return readFileSync(beside('command.compiled'));
  } catch {
    return undefined;
  }
}

try {
  const { run, processIo } = loadCompiled(beside('command.cjs'), compiledCode()).command;
  process.exitCode = await run(process.argv.slice(2), processIo());
} catch (error) {
  process.stderr.write(faultWords(error, process.env.POURWRIGHT_TRACE !== undefined));
  process.exitCode = FAULT;
}
